package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The campaign over contacts, small: the same laws and bars, fewer pads and one fixture. */
class TouchTest {

  @Test
  void smallCampaignOfContactsHolds() {
    Result result = new Touch().run(7, Scale.SMALL);

    assertThat(result.figures())
        .isNotEmpty()
        .allSatisfy(f -> assertThat(f.holds()).as("%s %s", f.json(), result.notes()).isTrue());
  }
}

package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class SelfcheckExperimentTest {

  @Test
  void everyBrokenRelayOfASmallCampaignIsNamedAndNoSoundOne() {
    Result result = new SelfcheckExperiment().run(20, Scale.SMALL);

    assertThat(result.figures().subList(0, 2))
        .allSatisfy(f -> assertThat(f.holds()).as("%s %s", f.json(), result.notes()).isTrue());
  }
}

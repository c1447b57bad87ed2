package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class MeasureTest {

  @Test
  void everyBarOfASmallCampaignHolds() {
    Result result = new Measure().run(3, Scale.SMALL);
    assertThat(result.figures())
        .isNotEmpty()
        .allSatisfy(
            figure ->
                assertThat(figure.holds()).as("%s %s", figure.json(), result.notes()).isTrue());
  }
}

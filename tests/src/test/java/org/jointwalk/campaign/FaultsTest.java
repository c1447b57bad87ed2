package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class FaultsTest {

  private static final long SEED = 20;

  @Test
  void everyBarOfASmallCampaignHolds() {
    Result result = new Faults().run(SEED, Scale.SMALL);
    assertThat(result.figures())
        .allSatisfy(
            figure ->
                assertThat(figure.holds()).as("%s %s", figure.json(), result.notes()).isTrue());
  }

  @Test
  void sameSeedGivesTheSameFigures() {
    assertThat(new Faults().run(SEED, Scale.SMALL).figures())
        .isEqualTo(new Faults().run(SEED, Scale.SMALL).figures());
  }
}

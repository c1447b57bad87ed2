package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class FaultsTest {

  private static final long SEED = 20;

  @Test
  void everyBarOfASmallCampaignHolds() {
    Result result = new Faults().run(SEED, Scale.SMALL);
    // A share of nothing says nothing: so few stacks need not hold a fault of every kind.
    assertThat(result.figures().stream().filter(f -> !f.json().contains("\"of\":0,")))
        .isNotEmpty()
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

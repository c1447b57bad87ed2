package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.campaign.Figure.Relation;
import org.junit.jupiter.api.Test;

class FigureTest {

  @Test
  void countThatHasToBeZeroIsOneLineOfJson() {
    assertThat(Figure.none("missed opens", 0, 1260).json())
        .isEqualTo(
            "{\"figure\":\"missed opens\",\"value\":0,\"of\":1260,\"bar\":\"= 0\",\"holds\":true}");
    assertThat(Figure.none("missed opens", 1, 1260).json()).contains("\"holds\":false");
  }

  @Test
  void figureWithoutABarHolds() {
    assertThat(Figure.count("false highs", 3, 7).json())
        .isEqualTo("{\"figure\":\"false highs\",\"value\":3,\"of\":7,\"bar\":null,\"holds\":true}");
  }

  @Test
  void shareIsHeldAgainstItsBarAsItIsShown() {
    Figure share = Figure.share("undecided", 1, 199);
    assertThat(share.with(Relation.AT_MOST, "0.005").json())
        .contains("\"value\":0.0050", "\"bar\":\"<= 0.005\"", "\"holds\":true");
    assertThat(share.with(Relation.AT_LEAST, "0.85").holds()).isFalse();
  }

  @Test
  void shareOfNoCasesReachesNoBarFromBelow() {
    Figure share = Figure.share("visible", 0, 0);
    assertThat(share.with(Relation.AT_LEAST, "0.85").holds()).isFalse();
    assertThat(share.with(Relation.AT_MOST, "0.005").holds()).isTrue();
  }
}

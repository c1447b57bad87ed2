package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class LookTest {

  @ParameterizedTest
  @CsvSource({
    "true, false, false, true",
    "false, false, false, false",
    "true, true, false, false",
    "true, false, true, false"
  })
  void colourNeedsATerminalThatDoesNotForbidIt(
      boolean terminal, boolean noColour, boolean plain, boolean colour) {
    assertThat(Look.ofConsole(terminal, noColour, plain).colour()).isEqualTo(colour);
  }

  @Test
  void plainTextWithColourCannotBe() {
    assertThatThrownBy(() -> new Look(80, true, true)).isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void lineNeedsRoomForALabelAndAWord() {
    assertThatThrownBy(() -> new Look(39, true, false)).hasMessageContaining("39");
  }

  @Test
  void wordThatIsLongerThanALineIsBroken() {
    String text = new Paper(new Look(40, true, false)).line("x".repeat(100)).text();

    assertThat(text.lines()).containsExactly("x".repeat(40), "x".repeat(40), "x".repeat(20));
  }

  @Test
  void longLabelGetsALineOfItsOwn() {
    String text =
        new Paper(Look.asPlain()).field("a label that is long", 6, List.of("what it says")).text();

    assertThat(text).isEqualTo("a label that is long\n      what it says\n");
  }
}

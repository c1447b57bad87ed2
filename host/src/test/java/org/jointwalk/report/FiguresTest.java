package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.jointwalk.quantity.Estimate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FiguresTest {

  @ParameterizedTest
  @CsvSource({
    "0, 0 ohm",
    "0.0004, 0.4 mohm",
    "0.3, 0.3 ohm",
    "0.324, 0.32 ohm",
    "4.46, 4.5 ohm",
    "25, 25 ohm",
    "120, 120 ohm",
    "20000, 20 kohm",
    "3400000, 3.4 Mohm"
  })
  void resistanceHasTwoDigitsAndAUnit(double ohms, String words) {
    assertThat(Figures.ohms(ohms)).isEqualTo(words);
  }

  @ParameterizedTest
  @CsvSource({
    "4.5, 0.09, 4.5 ohm +- 0.2",
    "0.324, 0.016, 0.32 ohm +- 0.03",
    "0.324, 0.0065, 0.324 ohm +- 0.013",
    "0.00051, 0.00004, 0.51 mohm +- 0.08",
    "12345, 150, 12.3 kohm +- 0.3",
    "-0.02, 0.03, -0.02 ohm +- 0.06",
    "4.46, 0, 4.5 ohm"
  })
  void uncertaintyDecidesTheDigits(double value, double u, String words) {
    assertThat(Figures.ohms(Estimate.known(value, u), "+-")).isEqualTo(words);
  }

  @Test
  void wordsDoNotHangOnTheLanguageOfTheMachine() {
    Locale before = Locale.getDefault();
    try {
      Locale.setDefault(Locale.GERMANY);
      assertThat(Figures.ohms(0.32)).isEqualTo("0.32 ohm");
    } finally {
      Locale.setDefault(before);
    }
  }
}

package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.quantity.Estimate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class WordsTest {

  @ParameterizedTest
  @CsvSource({
    "0, 0 ohm",
    "1e-8, 0.0100 uohm",
    "0.00002, 20.0 uohm",
    "0.0005, 500 uohm",
    "0.0009994, 999 uohm",
    "0.0009996, 1.00 mohm",
    "0.0325, 32.5 mohm",
    "0.5, 500 mohm",
    "0.9994, 999 mohm",
    "0.9996, 1.00 ohm",
    "2, 2.00 ohm",
    "12.34, 12.3 ohm",
    "999.4, 999 ohm",
    "999.6, 1.00 kohm",
    "6580, 6.58 kohm",
    "999600, 1.00 Mohm",
    "2.5e9, 2500 Mohm",
    "-0.003, -3.00 mohm"
  })
  void aResistanceHasThreeDigitsAndAUnitThatFits(double ohms, String words) {
    assertThat(Words.ohms(ohms)).isEqualTo(words);
  }

  @ParameterizedTest
  @CsvSource({
    "4.2238, 0.0223, 4.224 ohm, 22 mohm",
    "0.0012, 0.0271, 1 mohm, 27 mohm",
    "0.0001, 0.0271, 0 mohm, 27 mohm",
    "-0.0041, 0.0271, -4 mohm, 27 mohm",
    "0.0021, 0.00002, 2.100 mohm, 20 uohm",
    "3.1, 1.41, 3.1 ohm, 1.4 ohm",
    "12052.3, 292, 12.05 kohm, 290 ohm",
    "1234.56789, 1e-9, 1.23457 kohm, 0.0010 uohm",
    "0.5, 0, 500 mohm, 0 ohm"
  })
  void aMeasuredResistanceEndsWhereItsUncertaintyDoes(
      double ohms, double u, String value, String uncertainty) {
    assertThat(Words.estimate(Estimate.known(ohms, u)))
        .isEqualTo(value + " with standard uncertainty " + uncertainty);
  }

  @ParameterizedTest
  @CsvSource({"1.1, 1.10 V", "0.1, 0.10 V", "0.0994, 99 mV", "-0.006, -6 mV", "-3.7, -3.70 V"})
  void aSmallVoltageIsToldInMillivolt(double volts, String words) {
    assertThat(Words.volts(volts)).isEqualTo(words);
  }

  @Test
  void oneSeatingIsNotCounted() {
    assertThat(Words.seatings(1)).isEqualTo("one seating");
    assertThat(Words.seatings(3)).isEqualTo("3 seatings");
  }
}

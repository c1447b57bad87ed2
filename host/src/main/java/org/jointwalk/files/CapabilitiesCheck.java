package org.jointwalk.files;

import java.util.List;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Switching;

/**
 * What a person may write for capabilities. Stricter than the records, which also hold whatever a
 * fixture said of itself. Stateless.
 */
final class CapabilitiesCheck {

  private CapabilitiesCheck() {}

  static void check(Field able) {
    able.only(CapabilitiesText.KEYS);
    if (!able.isObject()) {
      return;
    }
    able.at("identity").words();
    able.at("build").text();
    able.at("calibration").text();
    able.at("switching").word(Switching.class);
    able.at("kelvin").word(Kelvin.class);
    able.at("banks").count(1);
    able.at("readers").count(1);
    Field ranges = able.at("ranges");
    ranges.only(Words.all(Kind.class));
    if (ranges.isObject()) {
      ranges.members().values().forEach(CapabilitiesCheck::range);
    }
    group(able.at("path"), CapabilitiesText.PATH);
    group(able.at("probes"), CapabilitiesText.PROBES);
    Field ratings = able.at("ratings");
    group(ratings, CapabilitiesText.RATINGS);
    if (ratings.at("closures").isNumber()) {
      ratings.at("closures").whole(0);
    }
  }

  private static void range(Field range) {
    range.only(CapabilitiesText.RANGE);
    if (range.isObject()) {
      for (String key : CapabilitiesText.RANGE) {
        if (CapabilitiesText.ABOVE_ZERO.contains(key)) {
          range.at(key).positive();
        } else {
          range.at(key).notNegative();
        }
      }
    }
  }

  private static void group(Field field, List<String> keys) {
    field.only(keys);
    if (field.isObject()) {
      keys.forEach(key -> field.at(key).notNegative());
    }
  }
}

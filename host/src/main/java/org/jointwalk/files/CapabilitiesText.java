package org.jointwalk.files;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;

/** Capabilities to text and back, the same in fixture maps and in the log. Stateless. */
final class CapabilitiesText {

  static final List<String> KEYS =
      List.of(
          "identity",
          "build",
          "calibration",
          "switching",
          "kelvin",
          "banks",
          "readers",
          "ranges",
          "path",
          "probes",
          "ratings");
  static final List<String> RANGE =
      List.of(
          "current_a", "compliance_v", "gain", "offset_v", "noise_v", "current_noise_a", "seconds");
  static final List<String> PATH =
      List.of("high_ohms", "low_ohms", "sd_ohms", "leakage_a", "operate_s", "release_s");
  static final List<String> PROBES = List.of("typical_ohms", "sd_ohms");
  static final List<String> RATINGS = List.of("clamp_v", "closures", "watts");

  /** Entries of a range without which nothing can be measured. */
  static final List<String> ABOVE_ZERO = List.of("current_a", "compliance_v", "seconds");

  private CapabilitiesText() {}

  /** Writes an object, with a range a line where the output is for people. */
  static void write(JsonOut out, Capabilities able) {
    out.objectInLines()
        .with("identity", able.identity())
        .with("build", able.build())
        .with("calibration", able.calibration())
        .with("switching", able.switching())
        .with("kelvin", able.kelvin())
        .with("banks", able.banks())
        .with("readers", able.readers())
        .key("ranges")
        .objectInLines();
    able.ranges()
        .forEach(
            (kind, range) -> {
              out.key(Words.of(kind));
              write(out, range);
            });
    Path path = able.path();
    out.end()
        .key("path")
        .object()
        .with("high_ohms", path.highOhms().value())
        .with("low_ohms", path.lowOhms().value())
        .with("sd_ohms", path.sd().value())
        .with("leakage_a", path.leakage().value())
        .with("operate_s", path.operateSeconds())
        .with("release_s", path.releaseSeconds())
        .end();
    out.key("probes")
        .object()
        .with("typical_ohms", able.probes().typical().value())
        .with("sd_ohms", able.probes().sd().value())
        .end();
    out.key("ratings")
        .object()
        .with("clamp_v", able.ratings().clamp().value())
        .with("closures", able.ratings().closures())
        .with("watts", able.ratings().watts())
        .end()
        .end();
  }

  private static void write(JsonOut out, Range range) {
    out.object()
        .with("current_a", range.current().value())
        .with("compliance_v", range.compliance().value())
        .with("gain", range.gain())
        .with("offset_v", range.offset().value())
        .with("noise_v", range.noise().value())
        .with("current_noise_a", range.currentNoise().value())
        .with("seconds", range.seconds())
        .end();
  }

  static Capabilities read(Field field) {
    Map<Kind, Range> ranges = new EnumMap<>(Kind.class);
    Field all = field.at("ranges");
    all.members()
        .forEach(
            (word, range) ->
                ranges.put(
                    Words.read(Kind.class, word)
                        .orElseThrow(() -> new IllegalArgumentException(word + " is no kind")),
                    range(range)));
    return new Capabilities(
        field.at("identity").text(),
        field.at("build").text(),
        field.at("calibration").text(),
        field.at("switching").word(Switching.class),
        field.at("kelvin").word(Kelvin.class),
        field.at("banks").count(1),
        field.at("readers").count(1),
        ranges,
        path(field.at("path")),
        probes(field.at("probes")),
        ratings(field.at("ratings")));
  }

  private static Range range(Field field) {
    return new Range(
        new Amps(field.at("current_a").positive()),
        new Volts(field.at("compliance_v").positive()),
        field.at("gain").anyNumber(),
        new Volts(field.at("offset_v").notNegative()),
        new Volts(field.at("noise_v").notNegative()),
        new Amps(field.at("current_noise_a").finite()),
        field.at("seconds").anyNumber());
  }

  private static Path path(Field field) {
    return new Path(
        new Ohms(field.at("high_ohms").notNegative()),
        new Ohms(field.at("low_ohms").notNegative()),
        new Ohms(field.at("sd_ohms").notNegative()),
        new Amps(field.at("leakage_a").finite()),
        field.at("operate_s").anyNumber(),
        field.at("release_s").anyNumber());
  }

  private static ProbeQuality probes(Field field) {
    return new ProbeQuality(
        new Ohms(field.at("typical_ohms").notNegative()),
        new Ohms(field.at("sd_ohms").notNegative()));
  }

  private static Ratings ratings(Field field) {
    return new Ratings(
        new Volts(field.at("clamp_v").finite()),
        field.at("closures").whole(Long.MIN_VALUE),
        field.at("watts").anyNumber());
  }
}

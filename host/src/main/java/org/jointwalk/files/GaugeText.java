package org.jointwalk.files;

import org.jointwalk.fixture.Gauge;

/** Gauge studies to text; resistances in ohm. Stateless. */
final class GaugeText {

  private GaugeText() {}

  static void write(JsonOut out, Gauge gauge) {
    out.with("identity", gauge.identity())
        .with("build", gauge.build())
        .with("calibration", gauge.calibration())
        .with("set_up", gauge.setUp())
        .with("positions", gauge.positions())
        .with("operators", gauge.operators())
        .with("seatings", gauge.seatings())
        .with("mean_ohms", gauge.meanOhms());
    parts(out.key("ranges"), gauge.ranges());
    parts(out.key("anova"), gauge.anova());
    out.with("interaction", gauge.interaction())
        .with("strange", gauge.strange())
        .key("limits")
        .array();
    for (Gauge.AgainstLimit limit : gauge.limits()) {
      out.object()
          .with("name", limit.name())
          .with("ohms", limit.ohms())
          .with("percent", limit.percent())
          .with("fitness", limit.fitness())
          .end();
    }
    out.end();
  }

  private static void parts(JsonOut out, Gauge.Parts parts) {
    out.object()
        .with("repeatability", parts.repeatability())
        .with("reproducibility", parts.reproducibility())
        .with("positions", parts.positions())
        .end();
  }

  static Gauge read(Field body) {
    return new Gauge(
        body.at("identity").text(),
        body.at("build").text(),
        body.at("calibration").text(),
        body.at("set_up").text(),
        body.at("positions").each(Field::text),
        body.at("operators").each(Field::text),
        body.at("seatings").count(Integer.MIN_VALUE),
        body.at("mean_ohms").anyNumber(),
        parts(body.at("ranges")),
        parts(body.at("anova")),
        body.at("interaction").flag(),
        body.at("strange").each(Field::text),
        body.at("limits").each(GaugeText::limit));
  }

  private static Gauge.Parts parts(Field field) {
    return new Gauge.Parts(
        field.at("repeatability").anyNumber(),
        field.at("reproducibility").anyNumber(),
        field.at("positions").anyNumber());
  }

  private static Gauge.AgainstLimit limit(Field field) {
    return new Gauge.AgainstLimit(
        field.at("name").text(),
        field.at("ohms").anyNumber(),
        field.at("percent").anyNumber(),
        field.at("fitness").word(Gauge.Fitness.class));
  }
}

package org.jointwalk.files;

import org.jointwalk.fixture.Selfcheck;

/** Self-checks to text. Stateless. */
final class SelfcheckText {

  private SelfcheckText() {}

  static void write(JsonOut out, Selfcheck check) {
    out.with("identity", check.identity())
        .with("build", check.build())
        .with("calibration", check.calibration())
        .with("set_ups", check.setUps())
        .key("faults")
        .array();
    for (Selfcheck.Fault fault : check.faults()) {
      out.object().with("what", fault.what());
      fault.channel().ifPresent(channel -> out.with("channel", channel.longValue()));
      fault.contact().ifPresent(contact -> out.with("contact", Names.of(contact)));
      out.with("reason", fault.reason()).end();
    }
    out.end().key("figures").array();
    for (Selfcheck.Figure figure : check.figures()) {
      out.object()
          .with("name", figure.name())
          .with("value", figure.value())
          .with("unit", figure.unit());
      figure.limit().ifPresent(limit -> out.with("limit", limit.doubleValue()));
      out.end();
    }
    out.end().with("unseen", check.unseen());
  }

  static Selfcheck read(Field body) {
    return new Selfcheck(
        body.at("identity").text(),
        body.at("build").text(),
        body.at("calibration").text(),
        body.at("set_ups").each(Field::text),
        body.at("faults").each(SelfcheckText::fault),
        body.at("figures").each(SelfcheckText::figure),
        body.at("unseen").each(Field::text));
  }

  private static Selfcheck.Fault fault(Field field) {
    return new Selfcheck.Fault(
        field.at("what").word(Selfcheck.What.class),
        field.at("channel").maybe(channel -> channel.count(Integer.MIN_VALUE)),
        field
            .at("contact")
            .maybe(
                contact ->
                    Names.contact(contact.text())
                        .orElseThrow(
                            () ->
                                new IllegalArgumentException(contact.shown() + " is no contact"))),
        field.at("reason").text());
  }

  private static Selfcheck.Figure figure(Field field) {
    return new Selfcheck.Figure(
        field.at("name").text(),
        field.at("value").anyNumber(),
        field.at("unit").text(),
        field.at("limit").maybe(Field::anyNumber));
  }
}

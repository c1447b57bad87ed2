package org.jointwalk.files;

import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Zero;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Shape;
import org.jointwalk.stack.Contact;

/**
 * Zeros to text. The parts of both switches stand in the order of the contacts, in ohm; an empty
 * text stands where a switch was not reached. Stateless.
 */
final class ZeroText {

  private ZeroText() {}

  static String write(Zero zero) {
    JsonOut out =
        JsonOut.compact()
            .object()
            .with("identity", zero.identity())
            .with("build", zero.build())
            .with("calibration", zero.calibration())
            .with("at", zero.at().toString());
    zero.celsius().ifPresent(celsius -> out.with("celsius", celsius.doubleValue()));
    out.with("kind", zero.kind()).with("seatings", zero.seatings());
    Set<Contact> contacts = new LinkedHashSet<>(zero.highOhms().keySet());
    contacts.addAll(zero.lowOhms().keySet());
    out.key("contacts").array();
    contacts.forEach(contact -> out.text(Names.of(contact)));
    out.end();
    write(out.key("high_ohms").array(), contacts, zero.highOhms());
    write(out.key("low_ohms").array(), contacts, zero.lowOhms());
    out.key("budget").array();
    zero.budget().forEach(line -> write(out, line));
    out.end().key("probes");
    write(out, zero.probes());
    return out.with("doubts", zero.doubts()).end().toString();
  }

  /** One value for each contact; a text where there is none. */
  private static void write(JsonOut out, Set<Contact> contacts, Map<Contact, Double> ohms) {
    for (Contact contact : contacts) {
      if (ohms.containsKey(contact)) {
        out.number(ohms.getOrDefault(contact, 0.0));
      } else {
        out.text("");
      }
    }
    out.end();
  }

  private static void write(JsonOut out, Contribution line) {
    out.array()
        .text(line.source())
        .number(line.u())
        .number(line.dof())
        .text(Words.of(line.type()))
        .number(line.shape().skewness())
        .number(line.shape().gross())
        .end();
  }

  static Zero read(Field body) {
    List<Contact> contacts =
        body.at("contacts")
            .each(
                item ->
                    Names.contact(item.text())
                        .orElseThrow(
                            () -> new IllegalArgumentException(item.shown() + " is no contact")));
    return new Zero(
        body.at("identity").text(),
        body.at("build").text(),
        body.at("calibration").text(),
        Instant.parse(body.at("at").text()),
        body.at("celsius").maybe(Field::anyNumber),
        body.at("kind").word(Kind.class),
        body.at("seatings").count(Integer.MIN_VALUE),
        ohms(contacts, body.at("high_ohms")),
        ohms(contacts, body.at("low_ohms")),
        body.at("budget").each(ZeroText::line),
        line(body.at("probes")),
        body.at("doubts").each(Field::text));
  }

  private static Map<Contact, Double> ohms(List<Contact> contacts, Field field) {
    List<Field> items = field.items();
    if (items.size() != contacts.size()) {
      throw new IllegalArgumentException(field.place() + " is not one value for each contact");
    }
    Map<Contact, Double> ohms = new LinkedHashMap<>();
    for (int i = 0; i < items.size(); i++) {
      if (!items.get(i).shown().equals("\"\"")) {
        ohms.put(contacts.get(i), items.get(i).anyNumber());
      }
    }
    return ohms;
  }

  private static Contribution line(Field field) {
    List<Field> parts = field.items();
    if (parts.size() != 6) {
      throw new IllegalArgumentException(field.place() + " is no line of a budget");
    }
    return new Contribution(
        parts.get(0).text(),
        parts.get(1).anyNumber(),
        parts.get(2).anyNumber(),
        parts.get(3).word(Contribution.Type.class),
        new Shape(parts.get(4).anyNumber(), parts.get(5).anyNumber()));
  }
}

package org.jointwalk.files;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;

/**
 * Scans to text. Contacts and settings are named once, in lists, and a step refers to them by
 * number: {@code [setting,high,low]}, where high and low are a contact's number or, for several, a
 * text of runs such as {@code "0-11 13-419"}; a guard of all other contacts then costs a few bytes.
 * A setting of a step that may go on has {@code extend}: {@code most} readings, {@code limit_ohms}
 * of one, {@code below_ohms} and {@code above_ohms} of their sum. Stateless.
 */
final class ScanText {

  private ScanText() {}

  static String write(Scan scan) {
    Map<Contact, Integer> contacts = new LinkedHashMap<>();
    Map<Setting, Integer> settings = new LinkedHashMap<>();
    for (Step step : scan.steps()) {
      number(settings, Setting.of(step));
      step.high().forEach(contact -> number(contacts, contact));
      step.low().forEach(contact -> number(contacts, contact));
    }
    JsonOut out = JsonOut.compact().object();
    out.with("set_up", scan.setUp()).with("first", scan.first());
    out.with("contacts", contacts.keySet().stream().map(Names::of).toList());
    out.key("settings").array();
    settings.keySet().forEach(setting -> write(out, setting));
    out.end().key("steps").array();
    for (Step step : scan.steps()) {
      out.array().whole(number(settings, Setting.of(step)));
      write(out, contacts, step.high());
      write(out, contacts, step.low());
      out.end();
    }
    return out.end().end().toString();
  }

  private static <T> int number(Map<T, Integer> numbers, T thing) {
    return numbers.computeIfAbsent(thing, t -> numbers.size());
  }

  private static void write(JsonOut out, Setting setting) {
    out.object().with("kind", setting.kind).key("currents_a").array();
    setting.currents.forEach(amps -> out.number(amps.value()));
    out.end().with("compliance_v", setting.compliance.value()).with("samples", setting.samples);
    setting.extend.ifPresent(
        e ->
            out.key("extend")
                .object()
                .with("most", e.most())
                .with("limit_ohms", e.limit().value())
                .with("below_ohms", e.below().value())
                .with("above_ohms", e.above().value())
                .end());
    out.end();
  }

  private static void write(JsonOut out, Map<Contact, Integer> numbers, List<Contact> contacts) {
    if (contacts.size() == 1) {
      out.whole(number(numbers, contacts.get(0)));
      return;
    }
    StringBuilder runs = new StringBuilder();
    int next = 0;
    while (next < contacts.size()) {
      int first = number(numbers, contacts.get(next));
      int last = first;
      next++;
      while (next < contacts.size() && number(numbers, contacts.get(next)) == last + 1) {
        last++;
        next++;
      }
      runs.append(runs.isEmpty() ? "" : " ").append(first);
      if (last > first) {
        runs.append('-').append(last);
      }
    }
    out.text(runs.toString());
  }

  static Scan read(Field body) {
    List<Contact> contacts = body.at("contacts").each(ScanText::contact);
    List<Setting> settings = body.at("settings").each(ScanText::setting);
    List<Step> steps = new ArrayList<>();
    for (Field step : body.at("steps").items()) {
      List<Field> parts = step.items();
      if (parts.size() != 3) {
        throw new IllegalArgumentException(step.place() + " is not a step");
      }
      Setting setting = pick(settings, parts.get(0).count(0), parts.get(0));
      steps.add(
          new Step(
              setting.kind,
              contacts(contacts, parts.get(1)),
              contacts(contacts, parts.get(2)),
              setting.currents,
              setting.compliance,
              setting.samples,
              setting.extend));
    }
    return new Scan(body.at("set_up").text(), body.at("first").count(0), steps);
  }

  private static Contact contact(Field field) {
    return Names.contact(field.text())
        .orElseThrow(() -> new IllegalArgumentException(field.place() + " is not a contact"));
  }

  private static Setting setting(Field field) {
    return new Setting(
        field.at("kind").word(Kind.class),
        field.at("currents_a").each(amps -> new Amps(amps.finite())),
        new Volts(field.at("compliance_v").finite()),
        field.at("samples").count(1),
        field.at("extend").maybe(ScanText::extend));
  }

  private static Extend extend(Field field) {
    return new Extend(
        field.at("most").count(1),
        new Ohms(field.at("limit_ohms").notNegative()),
        new Ohms(field.at("below_ohms").notNegative()),
        new Ohms(field.at("above_ohms").notNegative()));
  }

  private static List<Contact> contacts(List<Contact> all, Field field) {
    return field.isText() ? runs(all, field) : List.of(pick(all, field.count(0), field));
  }

  private static List<Contact> runs(List<Contact> all, Field field) {
    List<Contact> contacts = new ArrayList<>();
    for (String run : field.text().split(" ", -1)) {
      if (run.isEmpty()) {
        continue;
      }
      int dash = run.indexOf('-');
      int first = Integer.parseInt(dash < 0 ? run : run.substring(0, dash));
      int last = dash < 0 ? first : Integer.parseInt(run.substring(dash + 1));
      for (int number = first; number <= last; number++) {
        contacts.add(pick(all, number, field));
      }
    }
    return contacts;
  }

  private static <T> T pick(List<T> all, int number, Field field) {
    if (number < 0 || number >= all.size()) {
      throw new IllegalArgumentException(
          field.place() + " refers to number " + number + " of " + all.size());
    }
    return all.get(number);
  }

  /** What a step has besides its contacts. */
  private record Setting(
      Kind kind, List<Amps> currents, Volts compliance, int samples, Optional<Extend> extend) {

    private static Setting of(Step step) {
      return new Setting(
          step.kind(), step.currents(), step.compliance(), step.samples(), step.extend());
    }
  }
}

package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/** A simulated stack to text and back. Stateless. */
final class SpecimenText {

  private static final List<String> TROUBLES =
      List.of(
          "stuck-open",
          "stuck-closed",
          "tilted",
          "missed",
          "inside",
          "relay-open",
          "relay-closed",
          "leaky",
          "scale",
          "noisy",
          "slow",
          "dead-lid");

  private SpecimenText() {}

  static Supplier<SpecimenFile.Stack> read(Field root) {
    root.only(
        List.of("format", "pads", "variant", "seed", "defects", "outcomes", "troubles", "$schema"));
    String pads = root.at("pads").words();
    String variant = root.at("variant").words();
    root.faults().stands("variant", root.at("variant")::place);
    long seed = root.at("seed").whole(Long.MIN_VALUE);
    Defects defects = ConditionText.defects(root.at("defects"));
    List<Specimen.Outcome> outcomes = root.at("outcomes").eachIfGiven(SpecimenText::outcome);
    List<Specimen.Trouble> troubles = new ArrayList<>();
    root.at("troubles").eachIfGiven(SpecimenText::trouble).forEach(t -> t.ifPresent(troubles::add));
    Specimen specimen = new Specimen(variant, seed, defects, outcomes, troubles);
    return () -> new SpecimenFile.Stack(pads, specimen);
  }

  private static Specimen.Outcome outcome(Field item) {
    item.only(List.of("action", "adds", "cures"));
    List<Component> cures = new ArrayList<>();
    for (Field cure : item.at("cures").given() ? item.at("cures").items() : List.<Field>of()) {
      Optional<Component> component = Names.component(cure.text());
      if (component.isPresent()) {
        item.faults().stands(ConditionText.thing(component.get()), cure::place);
        cures.add(component.get());
      } else if (cure.isText()) {
        ConditionText.notAComponent(cure, cure.text());
      }
    }
    return new Specimen.Outcome(
        item.at("action").count(1), ConditionText.defects(item.at("adds")), cures);
  }

  private static Optional<Specimen.Trouble> trouble(Field item) {
    Field is = item.at("is");
    String word = is.text();
    switch (word) {
      case "stuck-open", "stuck-closed" -> item.only(List.of("is", "contact"));
      case "tilted" -> item.only(List.of("is", "seating"));
      case "missed" -> item.only(List.of("is", "contact", "seating"));
      case "inside" -> item.only(List.of("is", "set_up"));
      case "relay-open", "relay-closed" -> item.only(List.of("is", "contact", "pole"));
      case "leaky" -> item.only(List.of("is", "contact", "pole", "ohms"));
      case "scale" -> item.only(List.of("is", "fraction"));
      case "noisy" -> item.only(List.of("is", "factor"));
      case "slow" -> item.only(List.of("is", "seconds"));
      case "dead-lid" -> item.only(List.of("is"));
      default -> {
        if (is.isText()) {
          is.unknown("this trouble is not known", word, TROUBLES);
        }
      }
    }
    return switch (word) {
      case "stuck-open" -> contact(item).map(Specimen.Trouble.StuckOpen::new);
      case "stuck-closed" -> contact(item).map(Specimen.Trouble.StuckClosed::new);
      case "tilted" -> Optional.of(new Specimen.Trouble.Tilted(item.at("seating").count(1)));
      case "missed" -> {
        int seating = item.at("seating").count(1);
        yield contact(item).map(contact -> new Specimen.Trouble.Missed(contact, seating));
      }
      case "inside" -> Optional.of(new Specimen.Trouble.Inside(setUp(item.at("set_up"))));
      case "relay-open" -> contact(item).map(c -> new Specimen.Trouble.RelayOpen(c, pole(item)));
      case "relay-closed" ->
          contact(item).map(c -> new Specimen.Trouble.RelayClosed(c, pole(item)));
      case "leaky" ->
          contact(item)
              .map(
                  c ->
                      new Specimen.Trouble.Leaky(
                          c, pole(item), new Ohms(item.at("ohms").notNegative())));
      case "scale" -> Optional.of(new Specimen.Trouble.Scale(item.at("fraction").finite()));
      case "noisy" -> Optional.of(new Specimen.Trouble.Noisy(factor(item.at("factor"))));
      case "slow" -> Optional.of(new Specimen.Trouble.Slow(item.at("seconds").positive()));
      case "dead-lid" -> Optional.of(new Specimen.Trouble.DeadLid());
      default -> Optional.empty();
    };
  }

  private static Specimen.Pole pole(Field item) {
    return item.at("pole").word(Specimen.Pole.class);
  }

  private static double factor(Field field) {
    double factor = field.finite();
    if (factor < 1 && field.isNumber()) {
      field.error("this factor is too small", "a number from 1 up", "Write 1 for no more noise");
    }
    return Math.max(1, factor);
  }

  private static Optional<Contact> contact(Field item) {
    Field field = item.at("contact");
    Optional<Contact> contact = Names.contact(field.text());
    if (contact.isPresent()) {
      item.faults().stands("contact " + Names.of(contact.get()), field::place);
    } else if (field.isText()) {
      field.error(
          "this is no contact",
          "a contact such as \"over N001\" or \"point P07\"",
          "Write the plate or \"point\", a space, the id");
    }
    return contact;
  }

  private static String setUp(Field field) {
    String name = field.text();
    if (field.isText() && SetUp.named(name).isEmpty()) {
      field.unknown(
          "there is no such set-up", name, SetUp.all().stream().map(SetUp::name).toList());
    }
    return name;
  }

  static String write(SpecimenFile.Stack stack) {
    Specimen specimen = stack.specimen();
    JsonOut out =
        JsonOut.airy()
            .objectInLines()
            .with("format", SpecimenFile.FORMAT)
            .with("pads", stack.pads())
            .with("variant", specimen.variant())
            .with("seed", specimen.seed());
    out.key("defects");
    ConditionText.write(out, specimen.defects(), true);
    out.key("outcomes").arrayInLines();
    for (Specimen.Outcome outcome : specimen.outcomes()) {
      out.object().with("action", outcome.action()).key("adds");
      ConditionText.write(out, outcome.adds(), false);
      out.with("cures", outcome.cures().stream().map(Names::of).toList()).end();
    }
    out.end().key("troubles").arrayInLines();
    for (Specimen.Trouble trouble : specimen.troubles()) {
      out.object();
      write(out, trouble);
      out.end();
    }
    return out.end().end() + "\n";
  }

  private static void write(JsonOut out, Specimen.Trouble trouble) {
    if (trouble instanceof Specimen.Trouble.StuckOpen stuck) {
      out.with("is", "stuck-open").with("contact", Names.of(stuck.contact()));
    } else if (trouble instanceof Specimen.Trouble.StuckClosed stuck) {
      out.with("is", "stuck-closed").with("contact", Names.of(stuck.contact()));
    } else if (trouble instanceof Specimen.Trouble.Tilted tilted) {
      out.with("is", "tilted").with("seating", tilted.seating());
    } else if (trouble instanceof Specimen.Trouble.Missed missed) {
      out.with("is", "missed")
          .with("contact", Names.of(missed.contact()))
          .with("seating", missed.seating());
    } else if (trouble instanceof Specimen.Trouble.Inside inside) {
      out.with("is", "inside").with("set_up", inside.setUp());
    } else {
      writeFixture(out, trouble);
    }
  }

  private static void writeFixture(JsonOut out, Specimen.Trouble trouble) {
    if (trouble instanceof Specimen.Trouble.RelayOpen relay) {
      relay(out.with("is", "relay-open"), relay.contact(), relay.pole());
    } else if (trouble instanceof Specimen.Trouble.RelayClosed relay) {
      relay(out.with("is", "relay-closed"), relay.contact(), relay.pole());
    } else if (trouble instanceof Specimen.Trouble.Leaky leaky) {
      relay(out.with("is", "leaky"), leaky.contact(), leaky.pole());
      out.with("ohms", leaky.ohms().value());
    } else if (trouble instanceof Specimen.Trouble.Scale scale) {
      out.with("is", "scale").with("fraction", scale.fraction());
    } else if (trouble instanceof Specimen.Trouble.Noisy noisy) {
      out.with("is", "noisy").with("factor", noisy.factor());
    } else if (trouble instanceof Specimen.Trouble.Slow slow) {
      out.with("is", "slow").with("seconds", slow.seconds());
    } else if (trouble instanceof Specimen.Trouble.DeadLid) {
      out.with("is", "dead-lid");
    } else {
      throw new IllegalArgumentException("no text for " + trouble);
    }
  }

  private static void relay(JsonOut out, Contact contact, Specimen.Pole pole) {
    out.with("contact", Names.of(contact)).with("pole", pole);
  }
}

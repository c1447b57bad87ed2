package org.jointwalk.files;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/** A simulated stack to text and back. Stateless. */
final class SpecimenText {

  private static final List<String> TROUBLES =
      List.of("stuck-open", "stuck-closed", "tilted", "missed", "inside");

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
      default -> Optional.empty();
    };
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
      throw new IllegalArgumentException("no text for " + trouble);
    }
  }
}

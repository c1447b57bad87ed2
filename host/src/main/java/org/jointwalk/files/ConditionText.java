package org.jointwalk.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;

/**
 * Defects to text and back: the component is the key, {@code "lower joint N014": {"is": "open"}}.
 * Stateless.
 */
final class ConditionText {

  static final String COMPONENT =
      "a component such as \"lower joint N014\", \"via N014\", \"upper pad N014\", \"lower net VBAT\","
          + " \"lower bridge N014 N015\", \"upper hidden radio\" or \"probe over N014\"";

  private static final List<String> CONDUCTOR =
      List.of("open", "high", "two-state", "intermittent");
  private static final List<String> BRIDGE = List.of("bridged");
  private static final List<String> NET = List.of("shorted", "abnormal", "charged");
  private static final List<String> HIDDEN = List.of("dead");

  private ConditionText() {}

  /** Where a component with a defect stands in a {@link Read}. */
  static String thing(Component component) {
    return "defect " + Names.of(component);
  }

  /** The conditions that a component can have, by their words. */
  static List<String> possible(Component component) {
    if (component instanceof Component.Bridge) {
      return BRIDGE;
    }
    if (component instanceof Component.NetOf) {
      return NET;
    }
    return component instanceof Component.Hidden ? HIDDEN : CONDUCTOR;
  }

  static Defects defects(Field field) {
    if (!field.given()) {
      return Defects.NONE;
    }
    Map<Component, Condition> defects = new LinkedHashMap<>();
    field
        .members()
        .forEach(
            (name, entry) -> {
              Optional<Component> component = Names.component(name);
              if (component.isEmpty()) {
                notAComponent(entry, name);
                return;
              }
              field.faults().stands(thing(component.get()), entry::place);
              if (defects.containsKey(component.get())) {
                entry.error(
                    "this component has a condition already",
                    "each component once",
                    "Remove one of the two");
              }
              defects.put(component.get(), condition(component.get(), entry));
            });
    return new Defects(defects);
  }

  /** Tells a text that should have been a component. */
  static void notAComponent(Field field, String text) {
    field
        .faults()
        .error(
            new Fault(
                field.place(),
                "this is no component",
                JsonOut.quoted(text),
                COMPONENT,
                "Write side, kind and id with a space between"));
  }

  private static Condition condition(Component component, Field field) {
    Field is = field.at("is");
    String word = is.text();
    List<String> possible = possible(component);
    if (is.isText() && !possible.contains(word)) {
      is.unknown("\"" + Names.of(component) + "\" cannot be in this condition", word, possible);
      return new Condition.Open();
    }
    return switch (word) {
      case "high" -> {
        field.only(List.of("is", "ohms"));
        yield new Condition.High(ohms(field));
      }
      case "two-state" -> {
        field.only(List.of("is", "ohms", "open_share"));
        yield new Condition.TwoState(ohms(field), field.at("open_share").share());
      }
      case "intermittent" -> {
        field.only(List.of("is", "ohms", "period_s", "open_s"));
        yield intermittent(field);
      }
      case "bridged" -> {
        field.only(List.of("is", "ohms"));
        yield new Condition.Bridged(ohms(field));
      }
      case "shorted" -> {
        field.only(List.of("is", "to", "ohms"));
        yield new Condition.Shorted(field.at("to").id(), ohms(field));
      }
      case "abnormal" -> {
        field.only(List.of("is", "factor"));
        yield new Condition.Abnormal(field.at("factor").positive());
      }
      case "charged" -> {
        field.only(List.of("is", "volts", "ohms"));
        yield new Condition.Charged(field.at("volts").finite(), ohms(field));
      }
      case "dead" -> {
        field.only(List.of("is"));
        yield new Condition.Dead();
      }
      default -> {
        field.only(List.of("is"));
        yield new Condition.Open();
      }
    };
  }

  private static Condition intermittent(Field field) {
    Ohms ohms = ohms(field);
    double period = field.at("period_s").positive();
    double open = field.at("open_s").positive();
    if (open >= period) {
      field
          .at("open_s")
          .error("a dropout is shorter than its period", "less than period_s", "Look at both");
      return new Condition.Open();
    }
    return new Condition.Intermittent(ohms, period, open);
  }

  private static Ohms ohms(Field field) {
    return new Ohms(field.at("ohms").notNegative());
  }

  /** Writes an object with a component a line. */
  static void write(JsonOut out, Defects defects, boolean lines) {
    if (lines) {
      out.objectInLines();
    } else {
      out.object();
    }
    defects
        .conditions()
        .forEach(
            (component, condition) -> {
              out.key(Names.of(component)).object();
              write(out, condition);
              out.end();
            });
    out.end();
  }

  private static void write(JsonOut out, Condition condition) {
    if (condition instanceof Condition.Open) {
      out.with("is", "open");
    } else if (condition instanceof Condition.High high) {
      out.with("is", "high").with("ohms", high.ohms().value());
    } else if (condition instanceof Condition.TwoState two) {
      out.with("is", "two-state")
          .with("ohms", two.ohms().value())
          .with("open_share", two.openShare());
    } else if (condition instanceof Condition.Intermittent flicker) {
      out.with("is", "intermittent")
          .with("ohms", flicker.ohms().value())
          .with("period_s", flicker.periodSeconds())
          .with("open_s", flicker.openSeconds());
    } else if (condition instanceof Condition.Bridged bridged) {
      out.with("is", "bridged").with("ohms", bridged.ohms().value());
    } else if (condition instanceof Condition.Shorted shorted) {
      out.with("is", "shorted").with("to", shorted.to()).with("ohms", shorted.ohms().value());
    } else if (condition instanceof Condition.Abnormal abnormal) {
      out.with("is", "abnormal").with("factor", abnormal.factor());
    } else if (condition instanceof Condition.Charged charged) {
      out.with("is", "charged").with("volts", charged.volts()).with("ohms", charged.ohms().value());
    } else if (condition instanceof Condition.Dead) {
      out.with("is", "dead");
    } else {
      throw new IllegalArgumentException("no text for " + condition);
    }
  }
}

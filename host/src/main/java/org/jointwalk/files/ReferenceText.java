package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Side;

/** The known-good readings of a pad map. Stateless. */
final class ReferenceText {

  private static final String DROP = "drop";
  private static final String TO_GROUND = "to-ground";

  private ReferenceText() {}

  /** Where a reference stands in a {@link Read}. */
  static String thing(Reference reference) {
    String kind = reference instanceof Reference.Drop ? DROP : TO_GROUND;
    return "reference " + kind + " of " + NetText.thing(reference.net());
  }

  static List<Reference> read(Field field, Known known) {
    List<Reference> references = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Field item : field.given() ? field.items() : List.<Field>of()) {
      NetId net = known.net(item.at("board").word(Side.class), item.at("net"));
      Field kind = item.at("is");
      String word = kind.text();
      if (word.equals(DROP)) {
        references.add(drop(net, item));
      } else if (word.equals(TO_GROUND)) {
        references.add(toGround(net, item));
      } else {
        if (kind.isText()) {
          kind.unknown("this kind of reference is not known", word, List.of(DROP, TO_GROUND));
        }
        continue;
      }
      String thing = thing(references.get(references.size() - 1));
      item.faults().stands(thing, item::place);
      if (!net.name().equals(Field.STAND_IN) && !seen.add(thing)) {
        item.at("net")
            .error(
                "there is a reference of this kind for the net already",
                "one of each kind for a net",
                "Keep the one from more boards");
      }
    }
    return references;
  }

  private static Reference drop(NetId net, Field item) {
    item.only(
        List.of("board", "net", "is", "amps", "volts", "sd_volts", "growth_sd_volts", "boards"));
    Field currents = item.at("amps");
    List<Amps> amps = currents.each(f -> new Amps(f.positive()));
    List<Volts> volts = item.at("volts").each(f -> new Volts(f.finite()));
    for (int i = 1; i < amps.size(); i++) {
      if (amps.get(i).compareTo(amps.get(i - 1)) <= 0) {
        currents
            .items()
            .get(i)
            .error("the currents do not ascend", "each larger than the one before", "Sort them");
      }
    }
    Volts sd = new Volts(item.at("sd_volts").notNegative());
    Volts growthSd = new Volts(item.at("growth_sd_volts").notNegative());
    int boards = item.at("boards").count(1);
    if (amps.size() != volts.size() || amps.isEmpty()) {
      if (currents.isList() && item.at("volts").isList()) {
        item.at("volts")
            .error(
                "there are " + volts.size() + " voltages for " + amps.size() + " currents",
                "one voltage for each current, at least one",
                "Complete the shorter list");
      }
      return new Reference.Drop(
          net, List.of(new Amps(1)), List.of(new Volts(0)), sd, growthSd, boards);
    }
    return new Reference.Drop(net, amps, volts, sd, growthSd, boards);
  }

  private static Reference toGround(NetId net, Field item) {
    item.only(List.of("board", "net", "is", "ohms", "relative_sd", "boards"));
    return new Reference.ToGround(
        net,
        new Ohms(item.at("ohms").notNegative()),
        item.at("relative_sd").notNegative(),
        item.at("boards").count(1));
  }

  static void write(JsonOut out, List<Reference> references) {
    out.arrayInLines();
    references.forEach(reference -> write(out, reference));
    out.end();
  }

  private static void write(JsonOut out, Reference reference) {
    out.object().with("board", reference.net().side()).with("net", reference.net().name());
    if (reference instanceof Reference.Drop drop) {
      out.with("is", DROP).key("amps").array();
      drop.amps().forEach(amps -> out.number(amps.value()));
      out.end().key("volts").array();
      drop.volts().forEach(volts -> out.number(volts.value()));
      out.end()
          .with("sd_volts", drop.sd().value())
          .with("growth_sd_volts", drop.growthSd().value());
    } else if (reference instanceof Reference.ToGround toGround) {
      out.with("is", TO_GROUND)
          .with("ohms", toGround.ohms().value())
          .with("relative_sd", toGround.relativeSd());
    } else {
      throw new IllegalArgumentException("no text for " + reference);
    }
    out.with("boards", reference.boards()).end();
  }
}

package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;

/** The loads of a pad map. Stateless. */
final class LoadText {

  private static final List<String> KINDS =
      List.of("resistor", "junction", "inductor", "capacitor", "unknown");

  private LoadText() {}

  static List<Load> read(Field field, Known known) {
    List<Load> loads = new ArrayList<>();
    List<Field> items = field.given() ? field.items() : List.of();
    items.forEach(item -> loads.add(load(item)));
    checkEnds(items, loads, known);
    return loads;
  }

  private static Load load(Field item) {
    Side side = item.at("board").word(Side.class);
    String from = item.at("from").id();
    String to = item.at("to").id();
    Field kind = item.at("is");
    String word = kind.text();
    return switch (word) {
      case "resistor" -> {
        item.only(List.of("board", "is", "from", "to", "ohms"));
        yield new Load.Resistor(side, from, to, new Ohms(item.at("ohms").notNegative()));
      }
      case "junction" -> {
        item.only(List.of("board", "is", "from", "to", "material"));
        yield new Load.Junction(side, from, to, item.at("material").word(Load.Material.class));
      }
      case "inductor" -> {
        item.only(List.of("board", "is", "from", "to", "ohms"));
        yield new Load.Inductor(side, from, to, new Ohms(item.at("ohms").notNegative()));
      }
      case "capacitor" -> {
        item.only(List.of("board", "is", "from", "to", "farads"));
        yield new Load.Capacitor(side, from, to, item.at("farads").positive());
      }
      case "unknown" -> {
        item.only(List.of("board", "is", "from", "to"));
        yield new Load.Unknown(side, from, to);
      }
      default -> {
        if (kind.isText()) {
          kind.unknown("this kind of load is not known", word, KINDS);
        }
        yield new Load.Unknown(side, from, to);
      }
    };
  }

  /** An end is a net, or a node between loads, which then at least two loads share. */
  private static void checkEnds(List<Field> items, List<Load> loads, Known known) {
    Map<NetId, Integer> uses = new HashMap<>();
    for (Load load : loads) {
      uses.merge(new NetId(load.side(), load.from()), 1, Integer::sum);
      uses.merge(new NetId(load.side(), load.to()), 1, Integer::sum);
    }
    for (int i = 0; i < loads.size(); i++) {
      Load load = loads.get(i);
      Field item = items.get(i);
      checkEnd(item.at("from"), load.side(), load.from(), known, uses);
      checkEnd(item.at("to"), load.side(), load.to(), known, uses);
      if (!load.from().equals(Field.STAND_IN) && load.from().equals(load.to())) {
        item.at("to").error("both ends of this load are the same", "another net", "Correct one");
      }
    }
  }

  private static void checkEnd(
      Field field, Side side, String end, Known known, Map<NetId, Integer> uses) {
    boolean shared = uses.getOrDefault(new NetId(side, end), 0) > 1;
    boolean net = known.nets(side).isEmpty() || known.nets(side).contains(end);
    if (!end.equals(Field.STAND_IN) && !net && !shared) {
      field.unknown(
          "this is no net of the " + Words.of(side) + " board, and no other load ends there",
          end,
          known.nets(side));
    }
  }

  static void write(JsonOut out, List<Load> loads) {
    out.arrayInLines();
    loads.forEach(load -> write(out, load));
    out.end();
  }

  private static void write(JsonOut out, Load load) {
    out.object().with("board", load.side());
    if (load instanceof Load.Resistor resistor) {
      ends(out, "resistor", load).with("ohms", resistor.ohms().value());
    } else if (load instanceof Load.Junction junction) {
      ends(out, "junction", load).with("material", junction.material());
    } else if (load instanceof Load.Inductor inductor) {
      ends(out, "inductor", load).with("ohms", inductor.ohms().value());
    } else if (load instanceof Load.Capacitor capacitor) {
      ends(out, "capacitor", load).with("farads", capacitor.farads());
    } else if (load instanceof Load.Unknown) {
      ends(out, "unknown", load);
    } else {
      throw new IllegalArgumentException("no text for " + load);
    }
    out.end();
  }

  private static JsonOut ends(JsonOut out, String kind, Load load) {
    return out.with("is", kind).with("from", load.from()).with("to", load.to());
  }
}

package org.jointwalk.files;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/** The nets of a pad map, a list per board. Stateless. */
final class NetText {

  private static final List<String> KEYS =
      List.of("name", "role", "function", "nominal_volts", "dc_path", "trace_ohms");

  private NetText() {}

  /** Where a net stands in a {@link Read}. */
  static String thing(NetId id) {
    return Words.of(id.side()) + " net " + id.name();
  }

  static Map<NetId, Net> read(Field field, Known known) {
    field.only(Words.all(Side.class));
    Map<NetId, Net> nets = new LinkedHashMap<>();
    for (Side side : Side.values()) {
      Field list = field.at(Words.of(side));
      if (list.isList() && list.items().isEmpty()) {
        list.error("the board has no net", "at least one net", "Add the nets of its pads");
      }
      for (Field item : list.items()) {
        Net net = net(side, item);
        if (known.addNet(net.id())) {
          nets.put(net.id(), net);
          item.faults().stands(thing(net.id()), item::place);
        } else if (item.at("name").isText()) {
          item.at("name")
              .error(
                  "this board has the net already",
                  "each net once on a board",
                  "Keep one of the two; the other is at " + item.faults().placeOf(thing(net.id())));
        }
      }
    }
    return nets;
  }

  private static Net net(Side side, Field item) {
    item.only(KEYS);
    String name = item.at("name").id();
    Role role = item.at("role").maybe(f -> f.word(Role.class)).orElse(Role.SIGNAL);
    return new Net(
        new NetId(side, name),
        role,
        item.at("function").maybe(Field::words).orElse(Defaults.FUNCTION),
        item.at("nominal_volts").maybe(f -> new Volts(f.positive())),
        item.at("dc_path").maybe(Field::flag).orElse(Defaults.dcPath(role)),
        item.at("trace_ohms").maybe(f -> new Ohms(f.notNegative())).orElse(Defaults.TRACE));
  }

  static void write(JsonOut out, Map<NetId, Net> nets) {
    out.objectInLines();
    for (Side side : Side.values()) {
      out.key(Words.of(side)).arrayInLines();
      nets.values().stream().filter(net -> net.id().side() == side).forEach(net -> write(out, net));
      out.end();
    }
    out.end();
  }

  private static void write(JsonOut out, Net net) {
    out.object().with("name", net.id().name()).with("role", net.role());
    if (!net.function().equals(Defaults.FUNCTION)) {
      out.with("function", net.function());
    }
    net.nominal().ifPresent(volts -> out.with("nominal_volts", volts.value()));
    if (net.dcPath() != Defaults.dcPath(net.role())) {
      out.with("dc_path", net.dcPath());
    }
    if (!net.trace().equals(Defaults.TRACE)) {
      out.with("trace_ohms", net.trace().value());
    }
    out.end();
  }
}

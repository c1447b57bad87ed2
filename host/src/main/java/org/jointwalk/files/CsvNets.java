package org.jointwalk.files;

import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * Puts together what the rows of a CSV file say of each net. One row of a net is enough; rows that
 * contradict each other are told. For one thread and one file.
 */
final class CsvNets {

  /** What a cell says under {@code upper_dc_path}. */
  enum Answer {
    YES,
    NO
  }

  private static final List<String> FACTS =
      List.of("role", "function", "nominal_volts", "dc_path", "trace_ohms");

  private final Map<NetId, Map<String, Field>> said = new LinkedHashMap<>();
  private final List<String> columns;

  /**
   * @param columns those that the header names
   */
  CsvNets(List<String> columns) {
    this.columns = columns;
  }

  /** The columns of a board. */
  static List<String> columns(Side side) {
    return List.of(
        column(side, "net"),
        column(side, "role"),
        column(side, "function"),
        column(side, "nominal_volts"),
        column(side, "dc_path"),
        column(side, "trace_ohms"));
  }

  static String column(Side side, String fact) {
    return Words.of(side) + "_" + fact;
  }

  /** Takes what a row says of the net of a board, and returns the net's name. */
  String add(Side side, Field row) {
    Field cell = row.at(column(side, "net"));
    String name = cell.id();
    NetId id = new NetId(side, name);
    Map<String, Field> facts = said.computeIfAbsent(id, net -> new HashMap<>());
    row.faults().stands(NetText.thing(id), cell::place);
    for (String fact : FACTS) {
      Field field = row.at(column(side, fact));
      if (!field.given()) {
        continue;
      }
      Field earlier = facts.putIfAbsent(fact, field);
      if (earlier != null && !earlier.shown().equals(field.shown())) {
        field.error(
            "another row says " + earlier.shown() + " of this net",
            "one " + fact + " for a net, in one of its rows or in all",
            "Correct one of the two; the other is at " + earlier.place());
      }
    }
    return name;
  }

  /** All nets; those of an existing map first, in its order. */
  Map<NetId, Net> nets(Optional<PadMap> existing) {
    Map<NetId, Net> nets = new LinkedHashMap<>();
    existing.ifPresent(
        map ->
            map.nets().keySet().stream()
                .filter(said::containsKey)
                .forEach(id -> nets.put(id, net(id, existing))));
    said.keySet().forEach(id -> nets.computeIfAbsent(id, net -> net(net, existing)));
    return nets;
  }

  private Net net(NetId id, Optional<PadMap> existing) {
    Optional<Net> before = existing.map(PadMap::nets).map(nets -> nets.get(id));
    Role role =
        fact(id, "role", f -> f.word(Role.class))
            .or(() -> kept(id, "role", before.map(Net::role)))
            .orElse(Role.SIGNAL);
    return new Net(
        id,
        role,
        fact(id, "function", Field::words)
            .or(() -> kept(id, "function", before.map(Net::function)))
            .orElse(Defaults.FUNCTION),
        fact(id, "nominal_volts", f -> new Volts(f.positive()))
            .or(() -> kept(id, "nominal_volts", before.flatMap(Net::nominal))),
        fact(id, "dc_path", f -> f.word(Answer.class) == Answer.YES)
            .or(() -> kept(id, "dc_path", before.map(Net::dcPath)))
            .orElse(Defaults.dcPath(role)),
        fact(id, "trace_ohms", f -> new Ohms(f.notNegative()))
            .or(() -> kept(id, "trace_ohms", before.map(Net::trace)))
            .orElse(Defaults.TRACE));
  }

  private <T> Optional<T> fact(NetId id, String fact, Function<Field, T> read) {
    return Optional.ofNullable(said.getOrDefault(id, Map.of()).get(fact)).map(read);
  }

  /** An existing map answers for a column that is not there; an empty cell means the usual. */
  private <T> Optional<T> kept(NetId id, String fact, Optional<T> before) {
    return columns.contains(column(id.side(), fact)) ? Optional.empty() : before;
  }
}

package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/** The rows of one CSV file, read and checked against the map that they go into. For one thread. */
final class PadMapRows {

  private static final List<String> NEEDED =
      List.of(
          "id",
          "x_mm",
          "y_mm",
          CsvNets.column(Side.UPPER, "net"),
          CsvNets.column(Side.LOWER, "net"));

  private static final Set<String> NUMBERS =
      Set.of(
          "x_mm",
          "y_mm",
          CsvNets.column(Side.UPPER, "nominal_volts"),
          CsvNets.column(Side.LOWER, "nominal_volts"),
          CsvNets.column(Side.UPPER, "trace_ohms"),
          CsvNets.column(Side.LOWER, "trace_ohms"));

  private final Optional<PadMap> existing;
  private final Faults faults;
  private final Map<String, Position> positions = new LinkedHashMap<>();
  private final Map<NetId, Net> nets;
  private final Set<String> lost = new HashSet<>();

  PadMapRows(String text, Optional<PadMap> existing, Faults faults) {
    this.existing = existing;
    this.faults = faults;
    CsvTable table = CsvTable.read(text, columns(), NEEDED, NUMBERS, faults);
    if (!table.columns().containsAll(NEEDED)) {
      this.nets = Map.of();
      return;
    }
    CsvNets said = new CsvNets(table.columns());
    readPositions(table.rows(), said);
    this.nets = said.nets(existing);
    existing.ifPresent(this::checkRest);
  }

  /** All columns, in the order in which they are written. */
  static List<String> columns() {
    List<String> columns = new ArrayList<>(List.of("id", "x_mm", "y_mm"));
    for (Side side : Side.values()) {
      columns.addAll(CsvNets.columns(side));
    }
    return columns;
  }

  private void readPositions(List<Field> rows, CsvNets said) {
    if (rows.size() > RingCheck.MOST_POSITIONS) {
      faults.error(
          new Fault(
              Place.whole(faults.file()),
              "this is no ring of positions",
              rows.size() + " rows",
              "1 to " + RingCheck.MOST_POSITIONS + " positions",
              "Write one row for each position of the ring"));
      return;
    }
    RingCheck ring = new RingCheck(faults);
    for (Field row : rows) {
      if (NEEDED.subList(0, 3).stream().noneMatch(column -> row.at(column).given())) {
        readNets(row, said);
        continue;
      }
      Position position =
          new Position(
              row.at("id").id(),
              row.at("x_mm").finite(),
              row.at("y_mm").finite(),
              said.add(Side.UPPER, row),
              said.add(Side.LOWER, row));
      if (position.id().equals(Field.STAND_IN)) {
        continue;
      }
      if (positions.putIfAbsent(position.id(), position) != null) {
        row.at("id")
            .error(
                "the file has this position already",
                "each position once",
                "Rename one; the other is at " + faults.placeOf(RingCheck.thing(position.id())));
      }
      faults.stands(RingCheck.thing(position.id()), row.at("id")::place);
      if (row.at("x_mm").isFinite() && row.at("y_mm").isFinite()) {
        ring.add(position, row.at("x_mm")::place);
      }
    }
    if (positions.isEmpty() && !faults.any()) {
      faults.error(
          new Fault(
              Place.whole(faults.file()),
              "there is no row with a position",
              "",
              "a row for each position",
              "Add the ring's positions below the header"));
    }
  }

  /** A row without a position names nets that have none. */
  private static void readNets(Field row, CsvNets said) {
    for (Side side : Side.values()) {
      if (row.at(CsvNets.column(side, "net")).given()) {
        said.add(side, row);
      }
    }
  }

  /** Whether what the existing map says besides still has its positions and nets. */
  private void checkRest(PadMap map) {
    for (Interposer interposer : map.interposers()) {
      for (Tie tie : interposer.ties()) {
        tie.positions().forEach(id -> needPosition(id, "a tie"));
      }
    }
    map.limits().overrides().keySet().forEach(id -> needPosition(id, "a limit"));
    for (AccessPoint point : map.points().values()) {
      needNet(point.net(), "the access point " + point.id());
    }
    for (Reference reference : map.references()) {
      needNet(reference.net(), "a reference");
    }
    for (Load load : map.loads()) {
      needNetOfLoad(map, new NetId(load.side(), load.from()));
      needNetOfLoad(map, new NetId(load.side(), load.to()));
    }
    Idle.check(nets, positions.values(), map.points().values(), map.loads(), faults);
  }

  private void needNetOfLoad(PadMap map, NetId end) {
    if (map.nets().containsKey(end)) {
      needNet(end, "a load");
    }
  }

  private void needPosition(String id, String who) {
    if (!positions.containsKey(id)) {
      lost("position", id, who);
    }
  }

  private void needNet(NetId net, String who) {
    if (!nets.containsKey(net)) {
      lost(Words.of(net.side()) + " net", net.name(), who);
    }
  }

  /** Tells it once, however many ties or loads it is. */
  private void lost(String what, String id, String who) {
    if (!lost.add(who + " " + what + " " + id)) {
      return;
    }
    faults.error(
        new Fault(
            Place.whole(faults.file()),
            who + " of the existing map needs this " + what + ", and no row has it",
            JsonOut.quoted(id),
            "every position and net that the rest of the map names",
            "Add the row again, or change the map first"));
  }

  /** The map that the rows make; only if there was no fault. */
  PadMap map(String device) {
    if (existing.isPresent()) {
      PadMap map = existing.get();
      return new PadMap(
          map.device(),
          map.revision(),
          map.boardNames(),
          map.interposers(),
          positions,
          nets,
          map.loads(),
          map.points(),
          map.limits(),
          map.references());
    }
    faults.warning(
        new Fault(
            Place.whole(faults.file()),
            "CSV carries positions and nets only",
            "",
            "an existing map, for boards, interposers, ties, limits, loads, points and references",
            "The new map has one interposer without ties and the usual limits; complete it there"));
    return new PadMap(
        device,
        "",
        Map.of(Side.UPPER, "upper board", Side.LOWER, "lower board"),
        List.of(new Interposer("standard", 1, false, Defaults.VIA, List.of())),
        positions,
        nets,
        List.of(),
        Map.of(),
        new Limits(Defaults.SIGNAL_LIMIT, Defaults.POWER_LIMIT, Map.of()),
        List.of());
  }
}

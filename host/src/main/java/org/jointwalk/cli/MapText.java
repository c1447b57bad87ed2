package org.jointwalk.cli;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jointwalk.files.Fault;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/** What sound map files hold, for the eye. Stateless. */
final class MapText {

  private MapText() {}

  /** A pad map in a dozen lines. */
  static List<String> pads(PadMap map) {
    Columns columns = new Columns();
    row(columns, "model", map.device() + after(", map revision ", map.revision()));
    for (Side side : Side.values()) {
      row(
          columns,
          Choice.word(side) + " board",
          map.boardNames().getOrDefault(side, "") + ": " + nets(map, side));
    }
    row(columns, "positions", Integer.toString(map.positions().size()));
    row(columns, "functions", functions(map));
    for (Interposer interposer : map.interposers()) {
      row(columns, "interposer", of(interposer));
    }
    row(columns, "good joints", of(map.limits()));
    row(columns, "access points", Integer.toString(map.points().size()));
    row(columns, "loads", Integer.toString(map.loads().size()));
    row(columns, "references", references(map));
    return columns.lines();
  }

  /** How a fixture is wired to the model. */
  static List<String> fixture(PadMap map, FixtureMap fixture) {
    Columns columns = new Columns();
    row(columns, "fixture", fixture.name() + ", " + fixture.capabilities().identity());
    row(
        columns,
        "switching",
        Choice.word(fixture.capabilities().switching())
            + ", Kelvin "
            + Choice.word(fixture.capabilities().kelvin()));
    int positions = map.positions().size();
    row(
        columns,
        "wired",
        "over " + MapFigures.wired(fixture, Plate.OVER) + " of " + positions + " positions",
        "under " + MapFigures.wired(fixture, Plate.UNDER) + " of " + positions,
        MapFigures.points(fixture) + " of " + map.points().size() + " access points");
    row(
        columns,
        "channels",
        Integer.toString(fixture.channels().size()),
        fixture.defective().isEmpty()
            ? "none defective"
            : fixture.defective().size() + " defective");
    return columns.lines();
  }

  /** What is in a simulated stack. */
  static List<String> stack(SpecimenFile.Stack stack) {
    Specimen inside = stack.specimen();
    Columns columns = new Columns();
    row(
        columns,
        "inside",
        "interposer " + inside.variant(),
        Sentences.count(inside.defects().conditions().size(), "defect"),
        Sentences.count(inside.outcomes().size(), "outcome"),
        Sentences.count(inside.troubles().size(), "trouble"));
    return columns.lines();
  }

  /** What CSV cannot carry of a map; it has to come from the map itself. */
  static String rest(PadMap map) {
    int ties = map.interposers().stream().mapToInt(i -> i.ties().size()).sum();
    return String.join(
        ", ",
        "names of the boards",
        Sentences.count(map.interposers().size(), "interposer")
            + " with "
            + Sentences.count(ties, "tie"),
        "limits of a good joint",
        Sentences.count(map.loads().size(), "load"),
        Sentences.count(map.points().size(), "access point"),
        Sentences.count(map.references().size(), "reference"));
  }

  /** How many positions and nets a map has. */
  static String size(PadMap map) {
    return Sentences.count(map.positions().size(), "position")
        + " and "
        + Sentences.count(map.nets().size(), "net");
  }

  /** What is doubtful, although it can be used. */
  static List<String> doubts(List<Fault> warnings) {
    List<String> lines = new ArrayList<>();
    if (!warnings.isEmpty()) {
      lines.add("Doubtful:");
      lines.add("");
      lines.addAll(FaultText.lines(warnings));
    }
    lines.add(
        warnings.isEmpty() ? "No warning." : Sentences.count(warnings.size(), "warning") + ".");
    return lines;
  }

  private static String nets(PadMap map, Side side) {
    return MapFigures.nets(map, side).entrySet().stream()
        .map(entry -> entry.getValue() + " " + words(entry.getKey(), entry.getValue()))
        .collect(Collectors.joining(", "));
  }

  private static String words(Role role, int number) {
    String word = Choice.word(role);
    return role == Role.UNUSED || number == 1 ? word : word + "s";
  }

  private static String functions(PadMap map) {
    Map<String, Integer> functions = MapFigures.functions(map);
    return functions.isEmpty()
        ? "none named, so no complaint can be compared with a finding"
        : functions.entrySet().stream()
            .map(entry -> entry.getKey() + " " + entry.getValue())
            .collect(Collectors.joining(", ", "positions for ", ""));
  }

  private static String of(Interposer interposer) {
    return interposer.variant()
        + ", "
        + figure(interposer.thicknessMm())
        + " mm, "
        + (interposer.mirrored() ? "mirrored, " : "")
        + (interposer.ties().isEmpty()
            ? "no ties"
            : Sentences.count(interposer.ties().size(), "tie")
                + " over "
                + Sentences.count(MapFigures.tied(interposer), "position"));
  }

  private static String of(Limits limits) {
    return "up to "
        + figure(limits.signal().value())
        + " ohm on signals, "
        + figure(limits.power().value())
        + " ohm on rails and ground"
        + (limits.overrides().isEmpty()
            ? ""
            : "; own limits at " + Sentences.count(limits.overrides().size(), "position"));
  }

  private static String references(PadMap map) {
    if (map.references().isEmpty()) {
      return "none: junctions are judged by difference only";
    }
    int drops = MapFigures.references(map, Reference.Drop.class);
    return Sentences.count(drops, "junction drop")
        + ", "
        + Sentences.count(map.references().size() - drops, "resistance")
        + " to ground";
  }

  private static String figure(double value) {
    return new BigDecimal(Double.toString(value)).stripTrailingZeros().toPlainString();
  }

  private static String after(String words, String text) {
    return text.isEmpty() ? "" : words + text;
  }

  private static void row(Columns columns, String name, String... values) {
    columns.row("  " + name, String.join(", ", values));
  }
}

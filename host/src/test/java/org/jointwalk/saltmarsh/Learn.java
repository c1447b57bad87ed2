package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * Known-good readings of a map, from good stacks of it: the drop of every signal at the currents
 * that it may bear, and the resistance to ground of every rail and of whatever else conducts at low
 * voltage.
 */
public final class Learn {

  /** From this resistance on a net counts as not conducting at low voltage. */
  private static final double CONDUCTS_OHMS = 1e6;

  private static final List<Action> TAKEN_APART =
      List.of(new Action.Split(Side.UPPER), new Action.Lift());

  private final PadMap map;
  private final Bench bench;
  private final int boards;

  /** Clamps a good stack. */
  @FunctionalInterface
  public interface Bench {

    /** A fixture without noise and without contact resistance that holds this part of a stack. */
    Fixture clamp(Specimen stack, SetUp setUp);
  }

  private Learn(PadMap map, Bench bench, int boards) {
    this.map = map;
    this.bench = bench;
    this.boards = boards;
  }

  /** A bench of virtual stacks in a fixture that adds nothing of its own. */
  public static Bench virtual(PadMap map) {
    FixtureMap ideal = FixtureMaps.ideal(map);
    return (stack, setUp) -> {
      VirtualFixture fixture =
          new VirtualFixture(map, stack, ideal, VirtualFixture.Conditions.CALM);
      fixture.clamp(setUp, TAKEN_APART);
      return fixture;
    };
  }

  /**
   * The same map with references.
   *
   * @param boards how many good stacks to read, at least two; their seeds lie apart
   * @throws FixtureException when the fixture fails
   */
  public static PadMap learned(PadMap map, int boards, Bench bench) throws FixtureException {
    List<Reference> references = new ArrayList<>();
    for (Side side : Side.values()) {
      references.addAll(new Learn(map, bench, boards).references(side));
    }
    return new PadMap(
        map.device(),
        map.revision(),
        map.boardNames(),
        map.interposers(),
        map.positions(),
        map.nets(),
        map.loads(),
        map.points(),
        map.limits(),
        references);
  }

  private List<Reference> references(Side side) throws FixtureException {
    SetUp setUp = SetUp.named(side == Side.UPPER ? "upper-board" : "lower-board").orElseThrow();
    Ceilings ceilings = new Ceilings(new Assembly(map, map.interposers().get(0), setUp));
    Plate plate = setUp.touches(Plate.OVER).isPresent() ? Plate.OVER : Plate.UNDER;
    Map<NetId, List<String>> pads = map.padsByNet(side);
    Contact ground = pad(plate, pads, new NetId(side, Ring.GROUND));

    List<NetId> asked = new ArrayList<>();
    List<Step> steps = new ArrayList<>();
    for (NetId id : pads.keySet()) {
      Net net = map.net(id);
      if (net.dcPath() && (net.role() == Role.SIGNAL || net.role() == Role.RAIL)) {
        List<Contact> two = List.of(ground, pad(plate, pads, id));
        asked.add(id);
        steps.add(step(Kind.JUNCTION, two, ceilings.junctionCurrents(two), ceilings));
        steps.add(step(Kind.ISOLATION, two, List.of(), ceilings));
      }
    }
    List<List<Reading>> boardsRead = new ArrayList<>();
    for (int board = 0; board < boards; board++) {
      Fixture fixture = bench.clamp(Specimens.good(map, 1000 + 7919L * board), setUp);
      List<Reading> readings = new ArrayList<>();
      fixture.run(Scan.of(setUp.name(), steps), batch -> readings.addAll(batch.readings()));
      boardsRead.add(readings);
    }
    Map<NetId, List<Amps>> currents = new LinkedHashMap<>();
    Map<NetId, List<List<Reading.Point>>> drops = new LinkedHashMap<>();
    for (int i = 0; i < asked.size(); i++) {
      if (map.net(asked.get(i)).role() == Role.SIGNAL) {
        currents.put(asked.get(i), steps.get(2 * i).currents());
        drops.put(asked.get(i), at(boardsRead, 2 * i));
      }
    }
    List<Reference> references = new ArrayList<>(Drops.of(currents, drops));
    for (int i = 0; i < asked.size(); i++) {
      NetId id = asked.get(i);
      int first = 2 * i;
      toGround(id, at(boardsRead, first + 1)).ifPresent(references::add);
    }
    return references;
  }

  /** What each board read at one step; nothing where it found more resistance than it can read. */
  private static List<List<Reading.Point>> at(List<List<Reading>> boardsRead, int step) {
    return boardsRead.stream()
        .map(readings -> readings.get(step))
        .map(
            reading ->
                reading instanceof Reading.Measured measured
                    ? measured.points()
                    : List.<Reading.Point>of())
        .toList();
  }

  private static Contact pad(Plate plate, Map<NetId, List<String>> pads, NetId net) {
    return new Contact.Pad(plate, pads.getOrDefault(net, List.of()).get(0));
  }

  private static Step step(Kind kind, List<Contact> two, List<Amps> currents, Ceilings ceilings) {
    return new Step(
        kind, two.subList(0, 1), two.subList(1, 2), currents, ceilings.volts(kind, two), 1);
  }

  private static Optional<Reference> toGround(NetId id, List<List<Reading.Point>> all) {
    double[] ohms =
        all.stream()
            .flatMap(points -> points.stream().limit(1))
            .mapToDouble(point -> Math.abs(point.volts() / point.amps()))
            .filter(value -> value < CONDUCTS_OHMS)
            .toArray();
    if (ohms.length < all.size()) {
      return Optional.empty();
    }
    double mean = mean(ohms);
    return Optional.of(
        new Reference.ToGround(
            id,
            new Ohms(Figures.round(mean, 4)),
            Figures.round(Math.sqrt(variance(ohms, mean)) / mean, 2),
            all.size()));
  }

  static double mean(double[] values) {
    return Arrays.stream(values).average().orElseThrow();
  }

  static double variance(double[] values, double mean) {
    return Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum() / (values.length - 1);
  }
}

package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.List;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Job;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;

/** Small rings with known-good readings, and what can be wrong with them. */
final class Damage {

  private Damage() {}

  /** A ring of 96 positions in two rows, whose drops were read on its own sound boards. */
  static PadMap ring(long seed) throws Exception {
    return learned(Ring.of(96, 2, seed), 1);
  }

  /**
   * The same map with the drops of its sound boards.
   *
   * @param scale of every resistance of a path
   */
  static PadMap learned(PadMap map, double scale) throws Exception {
    List<Reference> references = new ArrayList<>();
    for (String board : List.of("upper-board", "lower-board")) {
      Rig rig = new Rig(map, board, Instruments.ideal(Switching.MULTIPLEXER), Defects.NONE, scale);
      rig.run();
      Job job = Job.fold(Rig.JOB, rig.log().read(Rig.JOB));
      for (Reference.Drop drop :
          new Solve(rig.assembly(), rig.fixture().capabilities(), List.of())
              .drops(job.passes().get(0).measurements())) {
        references.add(
            new Reference.Drop(
                drop.net(), drop.amps(), drop.volts(), new Volts(0.004), new Volts(0), 5));
      }
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

  /** Up to five faults of what is there in a set-up, each at another position. */
  static Defects draw(PadMap map, SetUp setUp, RandomGenerator random) {
    Defects defects = Defects.NONE;
    List<String> ids = new ArrayList<>(map.positions().keySet());
    int faults = random.nextInt(6);
    for (int i = 0; i < faults; i++) {
      defects = one(map, setUp, ids.remove(random.nextInt(ids.size())), defects, random);
    }
    return defects;
  }

  /** One more fault at a position. */
  static Defects one(PadMap map, SetUp setUp, String id, Defects before, RandomGenerator random) {
    List<Component> parts = new ArrayList<>();
    setUp.boards().stream().sorted().forEach(side -> parts.add(new Component.Pad(side, id)));
    setUp.joints().stream().sorted().forEach(side -> parts.add(new Component.Joint(side, id)));
    if (setUp.interposer()) {
      parts.add(new Component.Via(id));
    }
    int kind = random.nextInt(5);
    if (kind == 0) {
      return bridge(map, setUp, id, before, random);
    }
    Condition condition =
        kind <= 2
            ? new Condition.Open()
            : new Condition.High(new Ohms(Math.exp(random.nextDouble(-4, 4))));
    return before.with(parts.get(random.nextInt(parts.size())), condition);
  }

  private static Defects bridge(
      PadMap map, SetUp setUp, String id, Defects before, RandomGenerator random) {
    Position here = map.position(id);
    Side side = setUp.boards().stream().findFirst().orElse(Side.LOWER);
    List<String> beside =
        map.positions().values().stream()
            .filter(p -> !p.id().equals(id) && p.distanceMm(here) < 1.1 * Ring.PITCH_MM)
            .map(Position::id)
            .toList();
    return before.with(
        Component.Bridge.between(side, id, beside.get(random.nextInt(beside.size()))),
        new Condition.Bridged(new Ohms(Math.exp(random.nextDouble(-4, 6)))));
  }
}

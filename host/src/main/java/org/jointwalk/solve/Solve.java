package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Residual;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;

/**
 * Makes estimates of every path and pair from the readings of a pass. Cost is linear in the
 * readings and cubic in the contacts of the largest net. Immutable.
 */
public final class Solve {

  /** A rail that conducts this many times what a good one does lies on ground somewhere. */
  private static final double SHORTED = 1.5;

  /** What an isolation step drives with a board in the fixture, in volt. */
  private static final double SMALL_VOLTS = 0.05;

  /** A current this many times the noise is told from none. */
  private static final double OVER_NOISE = 10;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Accuracy accuracy;
  private final Expected expected;
  private final Drops drops;

  /**
   * @param assembly what is in the fixture
   * @param capabilities of the fixture
   * @param own drops of the same boards, read in earlier passes; they come before the map's
   */
  public Solve(Assembly assembly, Capabilities capabilities, List<Reference.Drop> own) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.accuracy = new Accuracy(capabilities);
    this.expected = new Expected(assembly);
    this.drops = new Drops(assembly, accuracy, own);
  }

  /** The largest conductance in siemens that a good board has between two contacts. */
  public double expectedSiemens(Contact a, Contact b) {
    return expected.between(assembly.home(a), assembly.home(b));
  }

  /**
   * Whether a good board conducts enough between two contacts to show the paths to both by an
   * isolation step of this fixture.
   */
  public boolean showsPaths(Contact a, Contact b) {
    double siemens = expectedSiemens(a, b);
    return siemens >= Expected.SEEN
        && capabilities
            .range(Kind.ISOLATION)
            .filter(r -> siemens * SMALL_VOLTS > OVER_NOISE * r.currentNoise().value())
            .isPresent();
  }

  /** The drop of every net that a junction step read, for a later pass over the same board. */
  public List<Reference.Drop> drops(List<Measurement> measurements) {
    return drops.read(measurements);
  }

  /** All that the readings say, seating by seating. */
  public Estimates estimates(List<Measurement> measurements) {
    Map<Integer, List<Measurement>> bySeating = new TreeMap<>();
    for (Measurement m : measurements) {
      bySeating.computeIfAbsent(m.seating(), k -> new ArrayList<>()).add(m);
    }
    Expected shorted = shorted(measurements);
    List<PathEstimate> paths = new ArrayList<>();
    List<PairEstimate> pairs = new ArrayList<>();
    List<Residual> residuals = new ArrayList<>();
    List<DropShift> shifts = new ArrayList<>();
    bySeating.forEach(
        (seating, list) -> {
          paths.addAll(paths(seating, list));
          pairs.addAll(pairs(seating, list, shorted));
          residuals.addAll(residuals(seating, list));
          shifts.addAll(drops.shifts(seating, list));
        });
    return new Estimates(paths, pairs, residuals, shifts);
  }

  private List<PathEstimate> paths(int seating, List<Measurement> list) {
    Map<Node, Group> groups = new LinkedHashMap<>();
    AgainstGround ground = new AgainstGround(assembly, accuracy, expected);
    for (Measurement m : list) {
      Step step = m.step();
      if (!step.isPair() || m.reading() instanceof Reading.Refused) {
        continue;
      }
      if (withinOneNet(step)) {
        groups
            .computeIfAbsent(assembly.home(step.a()), k -> new Group(accuracy, capabilities))
            .add(step, m.reading());
      } else if (step.kind() == Kind.JUNCTION || drivesAcross(step)) {
        ground.add(m);
      }
    }
    Set<Contact> proven = ground.proven();
    groups.values().forEach(g -> proven.addAll(g.conducting()));
    Map<Contact, PathEstimate> paths = new LinkedHashMap<>();
    for (Group group : groups.values()) {
      for (PathEstimate path : group.solve(seating)) {
        paths.put(path.contact(), path);
      }
    }
    for (PathEstimate path : ground.estimates(seating, proven, drops.excess(list))) {
      paths.merge(path.contact(), path, Solve::join);
    }
    return List.copyOf(paths.values());
  }

  private boolean withinOneNet(Step step) {
    return (step.kind() == Kind.LOW_LEVEL || step.kind() == Kind.NORMAL_LEVEL)
        && assembly.home(step.a()).equals(assembly.home(step.b()));
  }

  /** Whether a step drives current between nets that should be apart. */
  private boolean drivesAcross(Step step) {
    return step.kind() == Kind.ISOLATION
        || ((step.kind() == Kind.LOW_LEVEL || step.kind() == Kind.NORMAL_LEVEL)
            && !withinOneNet(step));
  }

  /** What a net's own pads say comes first; ground decides what they leave open. */
  private static PathEstimate join(PathEstimate net, PathEstimate ground) {
    List<Contact> partners = new ArrayList<>(net.partners());
    partners.addAll(ground.partners());
    if (net.evidence() == Evidence.CONDUCTS) {
      return new PathEstimate(
          net.seating(),
          net.contact(),
          net.evidence(),
          net.ohms(),
          net.sharedWith(),
          false,
          partners,
          net.consistent());
    }
    Evidence evidence =
        ground.evidence() == Evidence.NO_PROVEN_PARTNER ? net.evidence() : ground.evidence();
    return new PathEstimate(
        net.seating(),
        net.contact(),
        evidence,
        ground.ohms(),
        Optional.empty(),
        ground.byDrop(),
        partners,
        true);
  }

  private List<PairEstimate> pairs(int seating, List<Measurement> list, Expected shorted) {
    List<PairEstimate> pairs = new ArrayList<>();
    for (Measurement m : list) {
      Step step = m.step();
      if (drivesAcross(step)) {
        siemens(step, m.reading())
            .ifPresent(g -> pairs.add(new PairEstimate(seating, step, g, allowed(step, shorted))));
      }
    }
    return pairs;
  }

  /**
   * What is no bridge: what a good board conducts there, or what this one does for a rail that lies
   * on ground elsewhere.
   */
  private double allowed(Step step, Expected shorted) {
    if (!step.isPair()) {
      return 0;
    }
    double usual = expectedSiemens(step.a(), step.b());
    return railToGround(step.a(), step.b())
        ? usual
        : Math.max(usual, shorted.between(assembly.home(step.a()), assembly.home(step.b())));
  }

  /** The loads with those rails joined to ground that conduct to it far more than they should. */
  private Expected shorted(List<Measurement> measurements) {
    Map<Node, Expected.Wire> found = new LinkedHashMap<>();
    for (Measurement m : measurements) {
      Step step = m.step();
      if (!drivesAcross(step) || !step.isPair() || !railToGround(step.a(), step.b())) {
        continue;
      }
      Node a = assembly.home(step.a());
      Node b = assembly.home(step.b());
      double usual = expected.between(a, b);
      siemens(step, m.reading())
          .filter(g -> g.value() - 2 * g.u() > SHORTED * Math.max(usual, Expected.SEEN))
          .ifPresent(
              g ->
                  found.merge(
                      assembly.isGround(step.a()) ? b : a,
                      new Expected.Wire(a, b, g.value() - usual),
                      (p, q) -> p.siemens() >= q.siemens() ? p : q));
    }
    return found.isEmpty() ? expected : expected.with(List.copyOf(found.values()));
  }

  private boolean railToGround(Contact a, Contact b) {
    Contact other = assembly.isGround(a) ? b : a;
    return assembly.isGround(a) != assembly.isGround(b)
        && assembly.net(other).filter(n -> n.role() == Role.RAIL).isPresent();
  }

  private Optional<Estimate> siemens(Step step, Reading reading) {
    if (reading instanceof Reading.Measured measured) {
      return Optional.of(accuracy.siemens(step, measured));
    }
    if (reading instanceof Reading.OverRange) {
      return Optional.of(Estimate.known(0, Expected.SEEN / 10));
    }
    return Optional.empty();
  }

  /** One entry for each unloaded reading; a loaded one of the same contact completes it. */
  private static List<Residual> residuals(int seating, List<Measurement> list) {
    List<Residual> residuals = new ArrayList<>();
    for (Measurement m : list) {
      Step step = m.step();
      if (!(m.reading() instanceof Reading.Measured measured)) {
        continue;
      }
      double volts = measured.points().get(0).volts();
      int last = residuals.size() - 1;
      if (step.kind() == Kind.RESIDUAL) {
        residuals.add(new Residual(seating, step.a(), volts, Double.NaN));
      } else if (step.kind() == Kind.RESIDUAL_LOADED
          && last >= 0
          && residuals.get(last).contact().equals(step.a())) {
        residuals.set(last, new Residual(seating, step.a(), residuals.get(last).volts(), volts));
      }
    }
    return residuals;
  }
}

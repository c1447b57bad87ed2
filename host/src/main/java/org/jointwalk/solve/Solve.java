package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
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
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.Drift;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PairEstimate;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Residual;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Branch;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Reference;

/**
 * Makes estimates of every path and pair from the readings of a pass. Cost is linear in the
 * readings and cubic in the contacts of the largest net. Immutable.
 */
public final class Solve {

  /** What an isolation step drives with a board in the fixture, in volt. */
  private static final double SMALL_VOLTS = 0.05;

  /** No load of a net conducts more, in siemens (common practice, no source). */
  private static final double MOST_LOAD = 0.1;

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
    this(assembly, capabilities, own, Optional.empty());
  }

  /**
   * @param assembly what is in the fixture
   * @param capabilities of the fixture
   * @param own drops of the same boards, read in earlier passes; they come before the map's
   * @param zero of the fixture's switches
   */
  public Solve(
      Assembly assembly, Capabilities capabilities, List<Reference.Drop> own, Optional<Zero> zero) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.accuracy = new Accuracy(capabilities, zero);
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
    List<PathEstimate> paths = new ArrayList<>();
    List<Residual> residuals = new ArrayList<>();
    List<DropShift> shifts = new ArrayList<>();
    List<Drift> drifts = new ArrayList<>();
    Steadiness steadiness = new Steadiness(accuracy);
    bySeating.forEach(
        (seating, list) -> {
          Optional<Drift> drift = steadiness.drift(seating, list);
          drift.ifPresent(drifts::add);
          paths.addAll(paths(seating, list, drift.map(Drift::u).orElse(0.0)));
          residuals.addAll(residuals(seating, list));
          shifts.addAll(drops.shifts(seating, list));
        });
    return new Estimates(paths, pairs(measurements, paths), residuals, shifts, drifts);
  }

  private List<PathEstimate> paths(int seating, List<Measurement> list, double drift) {
    Map<Node, Group> groups = new LinkedHashMap<>();
    AgainstGround ground = new AgainstGround(assembly, accuracy, expected);
    for (Measurement m : list) {
      Step step = m.step();
      if (!step.isPair() || m.reading() instanceof Reading.Refused) {
        continue;
      }
      if (withinOneNet(step)) {
        groups
            .computeIfAbsent(assembly.home(step.a()), k -> new Group(accuracy, capabilities, drift))
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
    Map<Contact, PathEstimate> byGround = new LinkedHashMap<>();
    for (PathEstimate path : ground.estimates(seating, proven, drops.excess(list))) {
      byGround.put(path.contact(), path);
    }
    Map<Contact, PathEstimate> joined = new LinkedHashMap<>(paths);
    byGround.forEach(
        (contact, path) ->
            joined.merge(contact, path, (n, g) -> join(n, g, isBelied(n, paths, byGround))));
    return List.copyOf(joined.values());
  }

  private boolean withinOneNet(Step step) {
    return step.kind().isResistance() && assembly.home(step.a()).equals(assembly.home(step.b()));
  }

  /** Whether a step drives current between nets that should be apart. */
  private boolean drivesAcross(Step step) {
    return step.kind() == Kind.ISOLATION || (step.kind().isResistance() && !withinOneNet(step));
  }

  /**
   * Whether two pads of one net with no path between them both conduct to ground. They cannot both
   * lie on their net: one is open and reaches ground by another way, such as a bridge, and nobody
   * knows which.
   */
  private static boolean isBelied(
      PathEstimate net, Map<Contact, PathEstimate> nets, Map<Contact, PathEstimate> byGround) {
    return net.evidence() == Evidence.NO_PROVEN_PARTNER
        && conducts(byGround, net.contact())
        && net.partners().stream()
            .anyMatch(p -> nets.containsKey(p) && !conducts(nets, p) && conducts(byGround, p));
  }

  private static boolean conducts(Map<Contact, PathEstimate> paths, Contact contact) {
    PathEstimate path = paths.get(contact);
    return path != null && path.evidence() == Evidence.CONDUCTS;
  }

  /**
   * What a net's own pads say comes first; ground decides what they leave open.
   *
   * @param belied whether what ground says cannot be of this path
   */
  private static PathEstimate join(PathEstimate net, PathEstimate ground, boolean belied) {
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
          net.consistent(),
          net.unstable());
    }
    boolean open = belied || ground.evidence() == Evidence.NO_PROVEN_PARTNER;
    return new PathEstimate(
        net.seating(),
        net.contact(),
        open ? net.evidence() : ground.evidence(),
        belied ? Optional.empty() : ground.ohms(),
        Optional.empty(),
        !belied && ground.byDrop(),
        partners,
        true);
  }

  /** Every reading across nets, with what is there without a join of the two. */
  private List<PairEstimate> pairs(List<Measurement> measurements, List<PathEstimate> paths) {
    Map<Integer, Set<Contact>> conducting = new LinkedHashMap<>();
    Map<Integer, Set<Contact>> unproven = new LinkedHashMap<>();
    for (PathEstimate path : paths) {
      if (path.evidence() == Evidence.CONDUCTS) {
        conducting.computeIfAbsent(path.seating(), k -> new LinkedHashSet<>()).add(path.contact());
      } else if (path.evidence() == Evidence.NO_PROVEN_PARTNER) {
        unproven.computeIfAbsent(path.seating(), k -> new LinkedHashSet<>()).add(path.contact());
      }
    }
    List<Across> list = new ArrayList<>();
    Joins joins = new Joins(expected);
    for (Measurement m : measurements) {
      if (drivesAcross(m.step())) {
        siemens(m.step(), m.reading())
            .map(
                g ->
                    across(
                        m,
                        g,
                        conducting.getOrDefault(m.seating(), Set.of()),
                        unproven.getOrDefault(m.seating(), Set.of())))
            .ifPresent(list::add);
      }
    }
    for (Across across : list) {
      if (across.isPair() && across.siemens().value() > Expected.SEEN) {
        joins.add(across.a(), across.b(), accuracy.betweenPads(across.siemens()));
      }
    }
    Expected all = joins.settle();
    return list.stream()
        .map(r -> new PairEstimate(r.seating(), r.step(), r.siemens(), known(r, joins, all)))
        .toList();
  }

  private double known(Across across, Joins joins, Expected all) {
    if (across.isPair()) {
      double known = joins.withoutJoin(across.a(), across.b(), all);
      return across.mayReach() ? Math.max(known, behind(across.step(), joins, all)) : known;
    }
    return across.step().isPair() ? 0 : joins.known(across.high(), across.low(), all);
  }

  /** What is there between the nets of two contacts, as far as it is a load. */
  private double behind(Step step, Joins joins, Expected all) {
    Node a = assembly.home(step.a());
    Node b = assembly.home(step.b());
    double behind = a.equals(b) ? 0 : joins.withoutJoin(a, b, all);
    return behind < MOST_LOAD ? behind : 0;
  }

  /**
   * A reading across nets.
   *
   * @param high the nets that the contacts of the high side were seen to reach, or their own lands
   * @param low the same for the low side
   * @param mayReach whether nothing but the want of a proven partner keeps a contact from its net
   */
  private record Across(
      int seating, Step step, Estimate siemens, List<Node> high, List<Node> low, boolean mayReach) {

    Node a() {
      return high.get(0);
    }

    Node b() {
      return low.get(0);
    }

    boolean isPair() {
      return step.isPair() && !a().equals(b());
    }
  }

  private Across across(
      Measurement m, Estimate siemens, Set<Contact> conducting, Set<Contact> unproven) {
    return new Across(
        m.seating(),
        m.step(),
        siemens,
        m.step().high().stream().map(c -> reached(c, conducting)).toList(),
        m.step().low().stream().map(c -> reached(c, conducting)).toList(),
        m.step().high().stream().anyMatch(unproven::contains)
            || m.step().low().stream().anyMatch(unproven::contains));
  }

  private Node reached(Contact contact, Set<Contact> conducting) {
    Branch branch = assembly.branch(contact);
    return conducting.contains(contact) || branch.chain().isEmpty()
        ? assembly.home(contact)
        : branch.touched();
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

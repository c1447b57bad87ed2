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

/**
 * Makes estimates of every path and pair from the readings of a pass. Cost is linear in the
 * readings and cubic in the contacts of the largest net. Immutable.
 */
public final class Solve {

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
    List<PairEstimate> pairs = new ArrayList<>();
    List<Residual> residuals = new ArrayList<>();
    List<DropShift> shifts = new ArrayList<>();
    bySeating.forEach(
        (seating, list) -> {
          paths.addAll(paths(seating, list));
          pairs.addAll(pairs(seating, list));
          residuals.addAll(residuals(seating, list));
          shifts.addAll(drops.shifts(seating, list));
        });
    return new Estimates(paths, pairs, residuals, shifts);
  }

  private List<PathEstimate> paths(int seating, List<Measurement> list) {
    Map<Node, Group> groups = new LinkedHashMap<>();
    Map<Contact, Boolean> grounded = new LinkedHashMap<>();
    Map<Contact, Set<Contact>> against = new LinkedHashMap<>();
    for (Measurement m : list) {
      Step step = m.step();
      if (!step.isPair() || m.reading() instanceof Reading.Refused) {
        continue;
      }
      if (withinOneNet(step)) {
        groups
            .computeIfAbsent(assembly.home(step.a()), k -> new Group(accuracy, capabilities))
            .add(step, m.reading());
      } else {
        againstGround(m, grounded, against);
      }
    }
    Set<Contact> proven = new LinkedHashSet<>();
    groups.values().forEach(g -> proven.addAll(g.conducting()));
    grounded.forEach(
        (contact, conducts) -> proven.addAll(conducts ? against(against, contact) : Set.of()));

    Map<Contact, PathEstimate> paths = new LinkedHashMap<>();
    for (Group group : groups.values()) {
      for (PathEstimate path : group.solve(seating)) {
        paths.put(path.contact(), path);
      }
    }
    Map<Contact, Estimate> excess = drops.excess(list);
    grounded.forEach(
        (contact, conducts) ->
            paths.merge(
                contact,
                byGround(seating, contact, conducts, against(against, contact), proven, excess),
                Solve::join));
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

  /** Notes whether a contact was seen to conduct to ground, for steps that can show it. */
  private void againstGround(
      Measurement m, Map<Contact, Boolean> grounded, Map<Contact, Set<Contact>> against) {
    Step step = m.step();
    if (assembly.isGround(step.a()) == assembly.isGround(step.b())) {
      return;
    }
    Contact subject = assembly.isGround(step.a()) ? step.b() : step.a();
    Contact ground = assembly.isGround(step.a()) ? step.a() : step.b();
    Optional<Boolean> conducts =
        step.kind() == Kind.JUNCTION
            ? Optional.of(Drops.conducts(step, m.reading()))
            : byLoad(step, m.reading());
    conducts.ifPresent(
        yes -> {
          grounded.merge(subject, yes, Boolean::logicalOr);
          against.computeIfAbsent(subject, k -> new LinkedHashSet<>()).add(ground);
        });
  }

  private Optional<Boolean> byLoad(Step step, Reading reading) {
    if (!drivesAcross(step)) {
      return Optional.empty();
    }
    double siemens = expectedSiemens(step.a(), step.b());
    if (siemens < Expected.SEEN || !(reading instanceof Reading.Measured measured)) {
      return Optional.empty();
    }
    // A board's load may differ, an open path lets nothing through at all.
    return Optional.of(accuracy.siemens(step, measured).value() > siemens / 10);
  }

  private static Set<Contact> against(Map<Contact, Set<Contact>> against, Contact contact) {
    return against.getOrDefault(contact, Set.of());
  }

  private PathEstimate byGround(
      int seating,
      Contact contact,
      boolean conducts,
      Set<Contact> partners,
      Set<Contact> proven,
      Map<Contact, Estimate> excess) {
    Evidence evidence = Evidence.CONDUCTS;
    if (!conducts) {
      evidence =
          partners.stream().anyMatch(proven::contains)
              ? Evidence.NO_PATH
              : Evidence.NO_PROVEN_PARTNER;
    }
    Optional<Estimate> ohms =
        conducts ? Optional.ofNullable(excess.get(contact)) : Optional.empty();
    return new PathEstimate(
        seating,
        contact,
        evidence,
        ohms,
        Optional.empty(),
        ohms.isPresent(),
        List.copyOf(partners),
        true);
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

  private List<PairEstimate> pairs(int seating, List<Measurement> list) {
    List<PairEstimate> pairs = new ArrayList<>();
    for (Measurement m : list) {
      Step step = m.step();
      if (!drivesAcross(step)) {
        continue;
      }
      double allowed = step.isPair() ? expectedSiemens(step.a(), step.b()) : 0;
      siemens(step, m.reading())
          .ifPresent(g -> pairs.add(new PairEstimate(seating, step, g, allowed)));
    }
    return pairs;
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

  /** One entry for each unloaded reading; the loaded one that follows completes it. */
  private static List<Residual> residuals(int seating, List<Measurement> list) {
    List<Residual> residuals = new ArrayList<>();
    for (Measurement m : list) {
      Step step = m.step();
      if (!(m.reading() instanceof Reading.Measured measured)) {
        continue;
      }
      double volts = measured.points().get(0).volts();
      if (step.kind() == Kind.RESIDUAL) {
        residuals.add(new Residual(seating, step.a(), volts, Double.NaN));
      } else if (step.kind() == Kind.RESIDUAL_LOADED && !residuals.isEmpty()) {
        Residual last = residuals.remove(residuals.size() - 1);
        residuals.add(new Residual(seating, last.contact(), last.volts(), volts));
      }
    }
    return residuals;
  }
}

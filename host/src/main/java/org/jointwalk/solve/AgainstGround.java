package org.jointwalk.solve;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * What one seating's readings against ground say of the contacts on the other side: a junction that
 * conducts, or a load that lets current through, shows the path to it. Not thread-safe.
 */
final class AgainstGround {

  /** A board's load may differ by this factor; an open path lets nothing through at all. */
  private static final double LOAD_FACTOR = 10;

  private static final double SURE = 3;

  private final Assembly assembly;
  private final Accuracy accuracy;
  private final Expected expected;
  private final Map<Contact, Boolean> conducts = new LinkedHashMap<>();
  private final Map<Contact, Set<Contact>> grounds = new LinkedHashMap<>();

  AgainstGround(Assembly assembly, Accuracy accuracy, Expected expected) {
    this.assembly = assembly;
    this.accuracy = accuracy;
    this.expected = expected;
  }

  /** Notes a reading, when it can show a path to ground or the lack of one. */
  void add(Measurement m) {
    Step step = m.step();
    if (assembly.isGround(step.a()) == assembly.isGround(step.b())) {
      return;
    }
    Contact subject = Junction.subject(step, assembly);
    Contact ground = subject.equals(step.a()) ? step.b() : step.a();
    Optional<Boolean> seen =
        step.kind() == Kind.JUNCTION
            ? Optional.of(Junction.conducts(step, m.reading()))
            : byLoad(step, m.reading());
    seen.ifPresent(
        yes -> {
          conducts.merge(subject, yes, Boolean::logicalOr);
          grounds.computeIfAbsent(subject, k -> new LinkedHashSet<>()).add(ground);
        });
  }

  /** Whether a load lets current through; empty when none is known, or noise hides it. */
  private Optional<Boolean> byLoad(Step step, Reading reading) {
    double usual = expected.between(assembly.home(step.a()), assembly.home(step.b()));
    if (usual < Expected.SEEN) {
      return Optional.empty();
    }
    if (!(reading instanceof Reading.Measured measured)) {
      return Optional.of(false);
    }
    Estimate g = accuracy.siemens(step, measured);
    if (g.value() - SURE * g.u() > usual / LOAD_FACTOR) {
      return Optional.of(true);
    }
    return SURE * g.u() > usual / 2 ? Optional.empty() : Optional.of(false);
  }

  /** The grounds against which something was seen to conduct. */
  Set<Contact> proven() {
    Set<Contact> proven = new LinkedHashSet<>();
    conducts.forEach(
        (contact, yes) -> {
          if (yes) {
            proven.addAll(grounds(contact));
          }
        });
    return proven;
  }

  private Set<Contact> grounds(Contact contact) {
    return grounds.getOrDefault(contact, Set.of());
  }

  /**
   * One estimate per contact.
   *
   * @param proven contacts of this seating that were seen to conduct
   * @param excess series resistances by drop, where there is one
   */
  List<PathEstimate> estimates(int seating, Set<Contact> proven, Map<Contact, Estimate> excess) {
    return conducts.keySet().stream().map(c -> estimate(seating, c, proven, excess)).toList();
  }

  private PathEstimate estimate(
      int seating, Contact contact, Set<Contact> proven, Map<Contact, Estimate> excess) {
    boolean yes = conducts.getOrDefault(contact, false);
    Evidence evidence = Evidence.CONDUCTS;
    if (!yes) {
      evidence =
          grounds(contact).stream().anyMatch(proven::contains)
              ? Evidence.NO_PATH
              : Evidence.NO_PROVEN_PARTNER;
    }
    Optional<Estimate> ohms = yes ? Optional.ofNullable(excess.get(contact)) : Optional.empty();
    return new PathEstimate(
        seating,
        contact,
        evidence,
        ohms,
        Optional.empty(),
        ohms.isPresent(),
        List.copyOf(grounds(contact)),
        true);
  }
}

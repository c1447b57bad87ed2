package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.statistics.distribution.NormalDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * Grades the path of one position from what all seatings say of it.
 *
 * <p>Resistances are judged with a guard band on both sides of the limit (JCGM 106:2012), at a
 * stated risk of one in twenty at the limit; excesses over a drop at one in a hundred thousand,
 * since many junctions are read. A contact can only add resistance, so that the smallest value of
 * several seatings is the one nearest to the joint. Immutable.
 */
final class PathRule {

  /** Id that findings carry; a change of any rule of this package changes it. */
  static final String ID = "guard-band-1";

  /** Normal quantile of a risk of 5 % at the limit. */
  static final double GUARD = 1.645;

  /** No sound junction of a few hundred is accused. */
  private static final double DROP_RISK = 1e-5;

  /** Normal quantile of 90 %: an excess this many u above the guard is found nine times in ten. */
  private static final double DROP_POWER = 1.282;

  private static final double LARGE_DOF = 1e6;

  /** A limit below this many u cannot be told from a good joint (ratio 4:1 to the expanded u). */
  private static final double RESOLVABLE = 8;

  /**
   * Seatings that an open needs when no other open is near, so that two missed landings are not
   * one.
   */
  static final int LONE = 3;

  static final int TWO = 2;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ring ring;
  private final Knowledge knowledge;

  PathRule(Assembly assembly, Capabilities capabilities, Ring ring, Knowledge knowledge) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.ring = ring;
    this.knowledge = knowledge;
  }

  /** The grade of a position, bridges apart. */
  Finding grade(String position) {
    List<Contact> contacts = ring.contacts(position);
    if (contacts.isEmpty()) {
      return plain(position, Grade.NOT_TESTED, "no probe reaches it in this set-up");
    }
    if (ring.masked(position)) {
      return plain(
          position,
          Grade.MASKED,
          "the interposer ties it to its neighbours: only the set can be seen");
    }
    Contact contact = contacts.get(0);
    if (ring.way(contact).isEmpty()) {
      return plain(position, Grade.NOT_TESTED, whyNot(contact));
    }
    List<PathEstimate> paths = knowledge.paths(contact);
    if (paths.isEmpty()) {
      return plain(position, Grade.NOT_TESTED, "the pass ended before it was read");
    }
    List<PathEstimate> conducting =
        paths.stream().filter(p -> p.evidence() == Evidence.CONDUCTS).toList();
    return conducting.isEmpty()
        ? withoutPath(position, contact, paths)
        : withPath(position, contact, conducting, paths);
  }

  private String whyNot(Contact contact) {
    Optional<Net> net = assembly.net(contact);
    if (net.isPresent() && net.get().role() == Role.UNUSED) {
      return "the pad is not used";
    }
    if (net.isPresent() && !net.get().dcPath()) {
      return "no direct current can flow on " + net.get().id().name();
    }
    return "nothing that it could be read against is within reach";
  }

  private Finding plain(String position, Grade grade, String reason) {
    return new Finding(
        position,
        grade,
        Optional.empty(),
        Optional.empty(),
        0,
        false,
        Optional.empty(),
        List.of(),
        reason);
  }

  private Finding withoutPath(String position, Contact contact, List<PathEstimate> paths) {
    List<PathEstimate> counted =
        paths.stream().filter(p -> !knowledge.tilted(p.seating())).toList();
    if (counted.isEmpty()) {
      return finding(
          position,
          Grade.NOT_CONTACTED,
          Optional.empty(),
          paths.size(),
          false,
          Optional.empty(),
          List.of(),
          "no path, but the plate sat badly: too many probes of that seating had none");
    }
    boolean shared = counted.stream().noneMatch(p -> p.evidence() == Evidence.NO_PATH);
    List<Component> among = new ArrayList<>(chain(contact));
    if (shared) {
      counted.get(0).partners().forEach(p -> among.addAll(chain(p)));
    }
    boolean confirmed = confirmed(contact);
    String words =
        shared
            ? "no path to any other pad of its net in "
                + Words.seatings(counted.size())
                + ": one of them at least"
            : "no path in " + Words.seatings(counted.size());
    return finding(
        position,
        Grade.OPEN,
        Optional.empty(),
        counted.size(),
        confirmed,
        Optional.empty(),
        among,
        confirmed ? words : words + ": joint or contact");
  }

  /** Whether a missing path stands on enough seatings. */
  boolean confirmed(Contact contact) {
    int without = without(contact);
    return without >= LONE || (without >= TWO && hasOpenNeighbour(contact));
  }

  private int without(Contact contact) {
    if (knowledge.everConducts(contact)) {
      return 0;
    }
    return (int)
        knowledge.paths(contact).stream().filter(p -> !knowledge.tilted(p.seating())).count();
  }

  private boolean hasOpenNeighbour(Contact contact) {
    if (!(contact instanceof Contact.Pad pad)) {
      return false;
    }
    var here = assembly.map().position(pad.position());
    return assembly.map().positions().values().stream()
        .filter(p -> !p.id().equals(pad.position()))
        .filter(p -> p.distanceMm(here) <= 3 * ring.pitchMm())
        .anyMatch(p -> without(new Contact.Pad(pad.plate(), p.id())) >= TWO);
  }

  private Finding withPath(
      String position, Contact contact, List<PathEstimate> conducting, List<PathEstimate> all) {
    String before =
        all.stream().anyMatch(p -> p.evidence() != Evidence.CONDUCTS)
            ? "; a seating without a path was the probe, or it comes and goes"
            : "";
    Optional<PathEstimate> best = best(conducting);
    if (best.isEmpty()) {
      return finding(
          position,
          Grade.UNRESOLVED,
          Optional.empty(),
          conducting.size(),
          false,
          Optional.empty(),
          List.of(),
          "connected; its resistance cannot be told by itself" + before);
    }
    return best.get().byDrop()
        ? byDrop(position, contact, best.get(), conducting, before)
        : byResistance(position, contact, best.get(), conducting, before);
  }

  /** The smallest value; one of its own comes before a sum, a sum before an excess. */
  private static Optional<PathEstimate> best(List<PathEstimate> conducting) {
    return conducting.stream()
        .filter(p -> p.ohms().isPresent())
        .min(
            Comparator.comparing((PathEstimate p) -> p.byDrop())
                .thenComparing(p -> p.sharedWith().isPresent())
                .thenComparing(p -> p.ohms().orElseThrow().value()));
  }

  private Finding byResistance(
      String position,
      Contact contact,
      PathEstimate path,
      List<PathEstimate> conducting,
      String before) {
    Estimate ohms = path.ohms().orElseThrow();
    double limit = limit(position).value();
    List<Component> among = new ArrayList<>(chain(contact));
    path.sharedWith().ifPresent(other -> among.addAll(chain(other)));
    String what =
        path.sharedWith().isPresent()
            ? Words.estimate(ohms) + " with its partner"
            : Words.estimate(ohms);
    Grade grade;
    String words;
    if (ohms.value() + GUARD * ohms.u() <= limit) {
      grade = limit < RESOLVABLE * ohms.u() ? Grade.UNRESOLVED : Grade.GOOD;
      words = what + ", limit " + Words.ohms(limit);
    } else if (ohms.value() - GUARD * ohms.u() >= limit) {
      grade = Grade.HIGH;
      words = what + " in " + Words.seatings(conducting.size()) + ", limit " + Words.ohms(limit);
    } else {
      grade = limit < RESOLVABLE * ohms.u() ? Grade.UNRESOLVED : Grade.UNDECIDED;
      words = what + " lies too close to the limit " + Words.ohms(limit);
    }
    boolean fault = grade == Grade.HIGH;
    return finding(
        position,
        grade,
        Optional.of(ohms),
        conducting.size(),
        fault && conducting.size() >= TWO,
        grade == Grade.UNRESOLVED ? Optional.of(new Ohms(RESOLVABLE * ohms.u())) : Optional.empty(),
        fault ? among : List.of(),
        words + contactNote() + before);
  }

  private String contactNote() {
    return capabilities.kelvin().readsContact() ? " (joint and contact of this seating)" : "";
  }

  private Finding byDrop(
      String position,
      Contact contact,
      PathEstimate path,
      List<PathEstimate> conducting,
      String before) {
    Estimate ohms = path.ohms().orElseThrow();
    double limit = limit(position).value();
    double guard = dropGuard(ohms.dof());
    double detectable = (guard + DROP_POWER) * ohms.u();
    Grade grade;
    String words;
    if (ohms.value() - guard * ohms.u() >= limit) {
      grade = Grade.HIGH;
      words = "its drop shows " + Words.estimate(ohms) + " in series, limit " + Words.ohms(limit);
    } else if (detectable <= limit) {
      grade = Grade.GOOD;
      words = "its drop is as it should be; " + Words.ohms(detectable) + " would have been seen";
    } else {
      grade = Grade.UNRESOLVED;
      words =
          "connected, judged by its drop; less than "
              + Words.ohms(detectable)
              + " in series would not have been seen";
    }
    boolean fault = grade == Grade.HIGH;
    return finding(
        position,
        grade,
        fault ? Optional.of(ohms) : Optional.empty(),
        conducting.size(),
        fault && conducting.size() >= TWO,
        Optional.of(new Ohms(detectable)),
        fault ? chain(contact) : List.of(),
        words + before);
  }

  /** The quantile of the risk for an uncertainty known with so many degrees of freedom. */
  private static double dropGuard(double dof) {
    return dof < LARGE_DOF
        ? TDistribution.of(dof).inverseSurvivalProbability(DROP_RISK)
        : NormalDistribution.of(0, 1).inverseSurvivalProbability(DROP_RISK);
  }

  private Finding finding(
      String position,
      Grade grade,
      Optional<Estimate> ohms,
      int seatings,
      boolean confirmed,
      Optional<Ohms> detectable,
      List<Component> among,
      String reason) {
    return new Finding(
        position,
        grade,
        ohms,
        Optional.of(limit(position)),
        seatings,
        confirmed,
        detectable,
        among,
        reason);
  }

  private List<Component> chain(Contact contact) {
    return assembly.branch(contact).chain();
  }

  /** The limit of one joint; the stricter board counts where a via has two. */
  private Ohms limit(String position) {
    Ohms upper = assembly.map().limit(position, Side.UPPER);
    Ohms lower = assembly.map().limit(position, Side.LOWER);
    if (assembly.setUp().boards().size() == 1) {
      return assembly.setUp().boards().contains(Side.UPPER) ? upper : lower;
    }
    return upper.value() <= lower.value() ? upper : lower;
  }
}

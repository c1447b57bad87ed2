package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Decision;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;

/**
 * Grades the resistance of a path that conducts.
 *
 * <p>Resistances are judged with a guard band on both sides of the limit (JCGM 106:2012, with the
 * four outcomes of ILAC-G8:09/2019 of which the two conditional ones are one here), at the risk
 * that {@link Risk} states; excesses over a drop at one in a hundred thousand, since many junctions
 * are read. A contact can only add resistance, so that the smallest value of several seatings is
 * the one nearest to the joint. Not thread-safe.
 */
final class ValueRule {

  /** No sound junction of a few hundred is accused. */
  private static final double DROP_RISK = 1e-5;

  /** Normal quantile of 90 %: an excess this many u above the guard is found nine times in ten. */
  private static final double DROP_POWER = 1.282;

  /** A limit below this many u cannot be told from a good joint (ratio 4:1 to the expanded u). */
  private static final double RESOLVABLE = 8;

  /** A value this many u below zero is as odd as one above the limit. */
  private static final double BELOW_ZERO = 3;

  /** Seatings on whose word a high value is confirmed. */
  private static final int CONFIRMING = 2;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Risk risks = new Risk();

  ValueRule(Assembly assembly, Capabilities capabilities) {
    this.assembly = assembly;
    this.capabilities = capabilities;
  }

  /**
   * The grade of a path that at least one seating saw.
   *
   * @param conducting what those seatings say
   * @param before what to add about the others
   */
  Finding grade(String position, Contact contact, List<PathEstimate> conducting, String before) {
    Optional<PathEstimate> best = best(position, conducting);
    if (best.isEmpty()) {
      return new Finding(
          position,
          Grade.UNRESOLVED,
          Optional.empty(),
          Optional.of(limit(position)),
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

  /** Grades a via by whether it lowers the way over the plating beside it. */
  Finding pastPlating(
      String position, Contact contact, Shunts.Shunt shunt, List<PathEstimate> conducting) {
    Estimate ohms = best(position, conducting).flatMap(PathEstimate::ohms).orElseThrow();
    double middle = (shunt.good() + shunt.open()) / 2;
    Grade grade = Grade.UNDECIDED;
    int looks = conducting.size();
    if (bound(ohms, looks) <= middle) {
      grade = Grade.GOOD;
    } else if (ohms.value() - risks.overstated(ohms, Risk.AT_LIMIT) >= middle) {
      grade = shunt.isPlatingAlone(ohms.value()) ? Grade.OPEN : Grade.HIGH;
    }
    boolean fault = grade.isFault();
    return new Finding(
        position,
        grade,
        Optional.of(ohms),
        Optional.of(new Ohms(middle)),
        conducting.size(),
        fault && conducting.size() >= CONFIRMING,
        Optional.empty(),
        fault ? List.of(new Component.Via(position)) : List.of(),
        Words.format(
            "%s from land to land; past the plating alone %s, with a good via beside it %s",
            Words.estimate(ohms), Words.ohms(shunt.open()), Words.ohms(shunt.good())),
        Optional.of(decision(ohms, middle, looks)));
  }

  /**
   * The value that binds the path most. A contact only adds, and a partner of a sum only adds, so
   * that the smallest bound of any seating counts; a value of its own comes before a sum that says
   * the same. An excess over a drop comes last, and what contradicts itself comes after what does
   * not.
   */
  private Optional<PathEstimate> best(String position, List<PathEstimate> conducting) {
    List<PathEstimate> told = conducting.stream().filter(p -> p.ohms().isPresent()).toList();
    List<PathEstimate> steady = told.stream().filter(PathEstimate::consistent).toList();
    double limit = limit(position).value();
    int looks = conducting.size();
    return (steady.isEmpty() ? told : steady)
        .stream()
            .min(
                Comparator.comparing((PathEstimate p) -> p.byDrop())
                    .thenComparing(p -> bound(p, looks) > limit)
                    .thenComparing(p -> p.sharedWith().isPresent())
                    .thenComparing(p -> bound(p, looks)));
  }

  /**
   * What the path is below, at the risk of the guard band.
   *
   * @param looks clampings of which any could have cleared it
   */
  private double bound(PathEstimate path, int looks) {
    return bound(path.ohms().orElseThrow(), looks);
  }

  private double bound(Estimate ohms, int looks) {
    return ohms.value() + risks.understated(ohms, Risk.ofLook(Risk.AT_LIMIT, looks));
  }

  private Decision decision(Estimate ohms, double limit, int looks) {
    boolean above = ohms.value() > limit;
    return risks.decision(ohms, limit, above ? Risk.AT_LIMIT : Risk.ofLook(Risk.AT_LIMIT, looks));
  }

  private Finding byResistance(
      String position,
      Contact contact,
      PathEstimate path,
      List<PathEstimate> conducting,
      String before) {
    Estimate ohms = path.ohms().orElseThrow();
    double limit = limit(position).value();
    double resolvable = RESOLVABLE * ohms.u();
    String what = Words.estimate(ohms) + (path.sharedWith().isPresent() ? " with its partner" : "");
    Grade grade;
    String words;
    if (path.unstable()) {
      grade = Grade.UNDECIDED;
      words = what + ", but unstable: it did not hold still while it was read";
    } else if (!path.consistent()) {
      grade = Grade.UNDECIDED;
      words = what + ", but its readings contradict each other";
    } else if (limit >= resolvable && bound(path, conducting.size()) <= limit) {
      grade = Grade.GOOD;
      words = what + ", limit " + Words.ohms(limit);
    } else if (isHigh(path, limit)) {
      grade = Grade.HIGH;
      words = what + " in " + Words.seatings(conducting.size()) + ", limit " + Words.ohms(limit);
    } else if (limit < resolvable) {
      grade = Grade.UNRESOLVED;
      words = what + "; limits below " + Words.ohms(resolvable) + " cannot be told";
    } else {
      grade = Grade.UNDECIDED;
      words = what + " lies too close to the limit " + Words.ohms(limit);
    }
    boolean fault = grade == Grade.HIGH;
    List<Component> among = new ArrayList<>();
    if (fault) {
      among.addAll(chain(contact));
      path.sharedWith().ifPresent(other -> among.addAll(chain(other)));
      among.addAll(probe(contact));
      path.sharedWith().ifPresent(other -> among.addAll(probe(other)));
    }
    return finding(
        position,
        grade,
        Optional.of(ohms),
        conducting.size(),
        fault && conducting.stream().filter(p -> isHigh(p, limit)).count() >= CONFIRMING,
        grade == Grade.UNRESOLVED ? Optional.of(new Ohms(resolvable)) : Optional.empty(),
        among,
        words + contactNote() + before,
        Optional.of(decision(ohms, limit, conducting.size())));
  }

  /**
   * Whether a value lies above a limit. A limit that the fixture cannot resolve is replaced by the
   * smallest that it can, or noise would accuse sound joints.
   */
  private boolean isHigh(PathEstimate path, double limit) {
    return path.ohms()
        .filter(
            ohms ->
                ohms.value() - risks.overstated(ohms, Risk.AT_LIMIT)
                    >= Math.max(limit, RESOLVABLE * ohms.u()))
        .isPresent();
  }

  /** Whether a value of this seating should be read against further partners before it counts. */
  boolean isOdd(String position, PathEstimate path) {
    double limit = limit(position).value();
    return path.ohms()
        .filter(
            ohms ->
                ohms.value() < -BELOW_ZERO * ohms.u()
                    || bound(ohms, 1) > Math.max(limit, RESOLVABLE * ohms.u()))
        .isPresent();
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
    double detectable = (dropGuard(ohms) + DROP_POWER) * ohms.u();
    Grade grade;
    String words;
    if (isHighByDrop(path, limit)) {
      grade = Grade.HIGH;
      words = "its drop shows " + Words.estimate(ohms) + " in series, limit " + Words.ohms(limit);
    } else if (detectable > limit) {
      grade = Grade.UNRESOLVED;
      words =
          "connected, judged by its drop; less than "
              + Words.ohms(detectable)
              + " in series would not have been seen";
    } else if (bound(path, conducting.size()) <= limit) {
      grade = Grade.GOOD;
      words = "its drop is as it should be; " + Words.ohms(detectable) + " would have been seen";
    } else {
      grade = Grade.UNDECIDED;
      words =
          "its drop shows "
              + Words.estimate(ohms)
              + " in series, too close to the limit "
              + Words.ohms(limit);
    }
    boolean fault = grade == Grade.HIGH;
    return finding(
        position,
        grade,
        fault ? Optional.of(ohms) : Optional.empty(),
        conducting.size(),
        fault && conducting.stream().filter(p -> isHighByDrop(p, limit)).count() >= CONFIRMING,
        Optional.of(new Ohms(detectable)),
        fault ? amongByDrop(contact) : List.of(),
        words + before,
        Optional.of(byDropDecision(ohms)));
  }

  private Decision byDropDecision(Estimate ohms) {
    Decision usual = risks.decision(ohms, Double.POSITIVE_INFINITY, Risk.AT_LIMIT);
    return new Decision(
        usual.low(), usual.high(), usual.level(), new Ohms(dropGuard(ohms) * ohms.u()), DROP_RISK);
  }

  private List<Component> amongByDrop(Contact contact) {
    List<Component> among = new ArrayList<>(chain(contact));
    among.addAll(probe(contact));
    return among;
  }

  /** The probe, where its contact stays in the reading: a dirty one reads high. */
  private List<Component> probe(Contact contact) {
    return capabilities.kelvin().readsContact() ? List.of(new Component.Probe(contact)) : List.of();
  }

  private boolean isHighByDrop(PathEstimate path, double limit) {
    return path.byDrop()
        && path.ohms()
            .filter(ohms -> ohms.value() - dropGuard(ohms) * ohms.u() >= limit)
            .isPresent();
  }

  /** The quantile of the risk of an accused junction. */
  private double dropGuard(Estimate ohms) {
    return risks.quantile(DROP_RISK, ohms.dof());
  }

  private Finding finding(
      String position,
      Grade grade,
      Optional<Estimate> ohms,
      int seatings,
      boolean confirmed,
      Optional<Ohms> detectable,
      List<Component> among,
      String reason,
      Optional<Decision> decision) {
    return new Finding(
        position,
        grade,
        ohms,
        Optional.of(limit(position)),
        seatings,
        confirmed,
        detectable,
        among,
        reason,
        decision);
  }

  private List<Component> chain(Contact contact) {
    return assembly.branch(contact).chain();
  }

  /** The limit of one joint. */
  Ohms limit(String position) {
    return assembly.limit(position);
  }
}

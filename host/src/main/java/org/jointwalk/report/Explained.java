package org.jointwalk.report;

import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Decision;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;

/**
 * What a pass sealed about one position, made ready to be told: all of it is taken from the log,
 * nothing is measured or judged again.
 *
 * @param pass that graded it
 * @param findings all of that pass
 * @param finding that of the position
 */
record Explained(PassRecord pass, Findings findings, Finding finding) {

  /**
   * The last graded pass in which the position has a value, else the last that graded it at all.
   *
   * @throws IllegalArgumentException when no pass of the job graded such a position
   */
  static Explained last(Job job, String position) {
    List<Explained> all =
        job.passes().stream().flatMap(pass -> in(pass, position).stream()).toList();
    return all.stream()
        .filter(e -> e.finding.ohms().isPresent())
        .reduce((first, second) -> second)
        .or(() -> all.stream().reduce((first, second) -> second))
        .orElseThrow(() -> unknown(job.id() + " has no finished pass", position));
  }

  /**
   * One pass.
   *
   * @throws IllegalArgumentException when it did not grade such a position
   */
  static Explained of(Job job, int number, String position) {
    return in(Passes.of(job, number), position)
        .orElseThrow(
            () -> unknown("pass " + number + " of " + job.id() + " has no grade", position));
  }

  private static Optional<Explained> in(PassRecord pass, String position) {
    return pass.graded()
        .flatMap(
            graded ->
                graded.findings().positions().stream()
                    .filter(f -> f.position().equals(position))
                    .findFirst()
                    .map(f -> new Explained(pass, graded.findings(), f)));
  }

  private static IllegalArgumentException unknown(String where, String position) {
    return new IllegalArgumentException(
        where + " for a pad " + position + ". Give one as the pad map numbers it, such as N014.");
  }

  private Capabilities capabilities() {
    return pass.begun().capabilities();
  }

  private boolean hasContact(Contribution c) {
    return c.source().equals(Accuracy.CONTACT) || c.source().equals(Accuracy.CONTACTS);
  }

  /** How many probe contacts are taken off the value at their typical resistance. */
  int contacts(Estimate ohms) {
    return ohms.budget().stream()
        .filter(this::hasContact)
        .mapToInt(c -> c.source().equals(Accuracy.CONTACT) ? 1 : 2)
        .sum();
  }

  /** Path and contacts of this seating together, which the reading knows better than the path. */
  Optional<Estimate> withContact() {
    return finding
        .ohms()
        .filter(ohms -> contacts(ohms) > 0)
        .map(
            ohms ->
                Estimate.of(
                    ohms.value() + contacts(ohms) * capabilities().probes().typical().value(),
                    ohms.budget().stream().filter(c -> !hasContact(c)).toList()));
  }

  /** The part of the variance that a source has, from 0 to 1. */
  static double share(Estimate ohms, Contribution c) {
    return ohms.u() > 0 ? c.u() * c.u() / (ohms.u() * ohms.u()) : 0;
  }

  /** Half the width of the interval in standard uncertainties; empty when there is none. */
  Optional<Double> coverageFactor() {
    Optional<Decision> decision = finding.decision();
    return finding
        .ohms()
        .filter(ohms -> ohms.u() > 0 && decision.isPresent())
        .map(ohms -> (decision.get().high() - decision.get().low()) / 2 / ohms.u());
  }

  /** What the value is a value of. */
  String meaning() {
    if (finding.ohms().isEmpty()) {
      return "No value stands behind this grade.";
    }
    Estimate ohms = finding.ohms().get();
    if (contacts(ohms) > 0) {
      return "The path behind "
          + (contacts(ohms) == 1 ? "the probe" : "the two probes, which no reading tells apart")
          + ": joint and what lies in series with it. The contact of this seating was read with it"
          + " and is taken off at its typical "
          + Figures.ohms(capabilities().probes().typical().value())
          + (contacts(ohms) == 1 ? "." : " each.");
    }
    return capabilities().kelvin().readsContact()
        ? "What lies in series with the junction, beyond what its reference has."
        : "The path behind the pad alone: joint and what lies in series with it, at the"
            + " temperature of the bench. The probe's contact is not in it.";
  }

  /** The sources from the largest to the smallest. */
  List<Contribution> sources() {
    return finding
        .ohms()
        .map(ohms -> ohms.budget().stream().sorted((a, b) -> Double.compare(b.u(), a.u())).toList())
        .orElse(List.of());
  }
}

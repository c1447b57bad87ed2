package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Residual;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Contact;
import org.jointwalk.trial.Readings;

/** Estimates made by hand. */
final class Made {

  private Made() {}

  private static PathEstimate path(
      int seating, String id, Evidence evidence, Optional<Estimate> ohms, String... partners) {
    return new PathEstimate(
        seating,
        Readings.over(id),
        evidence,
        ohms,
        Optional.empty(),
        false,
        Arrays.stream(partners).<Contact>map(Readings::over).toList(),
        true);
  }

  /** A path whose resistance is not told. */
  static PathEstimate conducts(int seating, String id, String... partners) {
    return path(seating, id, Evidence.CONDUCTS, Optional.empty(), partners);
  }

  static PathEstimate value(int seating, String id, double ohms, double u, String... partners) {
    return path(seating, id, Evidence.CONDUCTS, Optional.of(Estimate.known(ohms, u)), partners);
  }

  static PathEstimate none(int seating, String id, String... partners) {
    return path(seating, id, Evidence.NO_PATH, Optional.empty(), partners);
  }

  static PathEstimate unproven(int seating, String id, String... partners) {
    return path(seating, id, Evidence.NO_PROVEN_PARTNER, Optional.empty(), partners);
  }

  static PathEstimate sum(int seating, String id, double ohms, double u, String with) {
    PathEstimate own = value(seating, id, ohms, u, with);
    return new PathEstimate(
        seating,
        own.contact(),
        own.evidence(),
        own.ohms(),
        Optional.of(Readings.over(with)),
        false,
        own.partners(),
        true);
  }

  static PathEstimate drop(int seating, String id, double ohms, double u, double dof) {
    Estimate estimate = Estimate.of(ohms, List.of(new Contribution("spread", u, dof)));
    return new PathEstimate(
        seating,
        Readings.over(id),
        Evidence.CONDUCTS,
        Optional.of(estimate),
        Optional.empty(),
        true,
        List.of(),
        true);
  }

  static PathEstimate contradictory(PathEstimate path) {
    return new PathEstimate(
        path.seating(),
        path.contact(),
        path.evidence(),
        path.ohms(),
        path.sharedWith(),
        path.byDrop(),
        path.partners(),
        false);
  }

  /** A voltage of nothing. */
  static Residual calm(int seating, String id) {
    return new Residual(seating, Readings.over(id), 0, 0);
  }

  /** Paths of seatings in which a voltage of nothing was read at a contact. */
  static Estimates calm(String id, PathEstimate... paths) {
    List<Residual> residuals = new ArrayList<>();
    Arrays.stream(paths)
        .mapToInt(PathEstimate::seating)
        .distinct()
        .forEach(seating -> residuals.add(calm(seating, id)));
    return new Estimates(Arrays.asList(paths), List.of(), residuals, List.of());
  }
}

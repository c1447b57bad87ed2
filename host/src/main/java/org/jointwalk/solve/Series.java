package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Reference;

/**
 * The resistances in series with the junctions of one seating that were read with the same
 * currents. More current finds more of a series resistance: the excess is how much more a drop has
 * grown from the lowest to the highest current than the reference's grew, divided by the difference
 * of the currents. What all pads of the board have in common, which is its temperature, is taken
 * off by the median. Not thread-safe.
 *
 * <p>Something beside the junction, such as residue to a neighbour, also makes the drop grow more,
 * because it robs the lowest current most. It bends the drop the other way than a resistance in
 * series does: where growth and bend contradict each other, nothing is said of a resistance.
 */
final class Series {

  /** Fewer pads than this say nothing about what they have in common. */
  static final int ENOUGH = 8;

  private static final double MAD_TO_SD = 1.4826;

  /** A median deviation of n values is as good as a standard deviation of about this share of n. */
  private static final double MAD_EFFICIENCY = 0.37;

  /** Growth this many standard deviations above the bend is something beside the junction. */
  private static final double BESIDE = 5;

  /** No difference below this matters, in ohm. */
  private static final double LEAST_OHMS = 1e-3;

  private final Accuracy accuracy;
  private final boolean same;
  private final List<Excess> list = new ArrayList<>();

  /**
   * @param beside how far growth lies above bend, in ohm; 0 when there is no bend
   */
  private record Excess(
      Contact contact, double ohms, double beside, double instrument, double between, int boards) {}

  /**
   * @param same whether the references are earlier readings of the same board, which carry the
   *     instrument's part once more
   */
  Series(Accuracy accuracy, boolean same) {
    this.accuracy = accuracy;
    this.same = same;
  }

  /** The median of at least one value. */
  static double median(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(v -> v).sorted().toArray();
    int n = sorted.length;
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }

  /**
   * @param growthSd spread of the growth of this net, in volt
   * @param boards how many boards that spread is known from
   */
  void add(Junction j, Reference.Drop reference, double growthSd, int boards) {
    int top = j.amps().size() - 1;
    double ohms = j.growthAbove(reference) / j.span();
    double u =
        Math.hypot(
            accuracy.junctionVolts(j.volts().get(top), j.amps().get(top).value()),
            accuracy.junctionVolts(j.volts().get(0), j.amps().get(0).value()) / Math.sqrt(2));
    list.add(
        new Excess(
            j.contact(),
            ohms,
            j.bendAbove(reference).map(bend -> ohms - bend).orElse(0.0),
            (same ? Math.sqrt(2) : 1) * u / j.span(),
            growthSd / j.span(),
            boards));
  }

  /** One estimate for each pad that shows a resistance in series or none; needs enough pads. */
  Map<Contact, Estimate> estimates() {
    Map<Contact, Estimate> result = new LinkedHashMap<>();
    if (list.size() < ENOUGH) {
      return result;
    }
    double middle = median(Excess::ohms);
    double spread = spread(Excess::ohms, middle);
    double usuallyBeside = median(Excess::beside);
    double besideSpread = spread(Excess::beside, usuallyBeside);
    for (Excess e : list) {
      double sd = Math.max(LEAST_OHMS, Math.max(besideSpread, e.instrument()));
      if (e.beside() - usuallyBeside <= BESIDE * sd) {
        result.put(e.contact(), estimate(e, middle, spread));
      }
    }
    return result;
  }

  private Estimate estimate(Excess e, double middle, double spread) {
    double dies = Math.sqrt(Math.max(0, spread * spread - e.instrument() * e.instrument()));
    return Estimate.of(
        e.ohms() - middle,
        List.of(
            Contribution.known("voltages at three currents", e.instrument()),
            e.between() > dies
                ? new Contribution(
                    "spread of this net between boards",
                    e.between() * Math.sqrt(1 + 1.0 / e.boards()),
                    Math.max(1, e.boards() - 1))
                : new Contribution(
                    "spread of the junctions of this board", dies, MAD_EFFICIENCY * list.size())));
  }

  private double median(ToDoubleFunction<Excess> value) {
    return median(list.stream().map(value::applyAsDouble).toList());
  }

  private double spread(ToDoubleFunction<Excess> value, double middle) {
    return MAD_TO_SD * median(e -> Math.abs(value.applyAsDouble(e) - middle));
  }
}

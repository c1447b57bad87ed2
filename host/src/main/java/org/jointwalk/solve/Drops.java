package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Reading;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Measurement;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;

/**
 * A pad that is alone on its net is judged by the drop of the junction behind it, against the same
 * board's earlier reading or against what good boards read. Immutable.
 */
final class Drops {

  /** A board at the bench and those that were learned from differ by this much, in volt. */
  private static final double TEMPERATURE_VOLTS = 0.02;

  private final Assembly assembly;
  private final Accuracy accuracy;
  private final Map<NetId, Reference.Drop> own = new LinkedHashMap<>();
  private final Map<NetId, Reference.Drop> learned = new LinkedHashMap<>();
  private final Map<List<Amps>, Double> usualGrowthSd = new LinkedHashMap<>();

  Drops(Assembly assembly, Accuracy accuracy, List<Reference.Drop> own) {
    this.assembly = assembly;
    this.accuracy = accuracy;
    // References are those of one board by itself; two that are joined conduct side by side.
    boolean alone = assembly.setUp().boards().size() == 1;
    if (alone) {
      own.forEach(d -> this.own.put(d.net(), d));
    }
    Map<List<Amps>, List<Double>> growthSd = new LinkedHashMap<>();
    for (Reference reference : alone ? assembly.map().references() : List.<Reference>of()) {
      if (reference instanceof Reference.Drop drop) {
        learned.put(drop.net(), drop);
        growthSd.computeIfAbsent(drop.amps(), k -> new ArrayList<>()).add(drop.growthSd().value());
      }
    }
    growthSd.forEach((amps, list) -> usualGrowthSd.put(amps, Series.median(list)));
  }

  private List<Junction> junctions(List<Measurement> measurements) {
    return measurements.stream().flatMap(m -> Junction.of(m, assembly).stream()).toList();
  }

  /** The drops of a pass per net, the mean where a net was read at several pads. */
  List<Reference.Drop> read(List<Measurement> measurements) {
    Map<NetId, List<Junction>> byNet = new LinkedHashMap<>();
    for (Junction j : junctions(measurements)) {
      byNet.computeIfAbsent(j.net().id(), k -> new ArrayList<>()).add(j);
    }
    List<Reference.Drop> drops = new ArrayList<>();
    byNet.forEach(
        (net, list) -> {
          List<Amps> amps = list.get(0).amps();
          List<Volts> volts = new ArrayList<>();
          for (int i = 0; i < amps.size(); i++) {
            int k = i;
            volts.add(
                new Volts(
                    list.stream()
                        .filter(j -> j.amps().equals(amps))
                        .mapToDouble(j -> j.volts().get(k))
                        .average()
                        .orElseThrow()));
          }
          double u = accuracy.junctionVolts(volts.get(0).value(), amps.get(0).value());
          // One board, read once: nothing between boards, only what the instrument adds.
          drops.add(new Reference.Drop(net, amps, volts, new Volts(u), new Volts(0), 1));
        });
    return drops;
  }

  /** The series resistance in excess of the reference, in ohm, for every pad that has one. */
  Map<Contact, Estimate> excess(List<Measurement> measurements) {
    Map<List<Object>, Series> alike = new LinkedHashMap<>();
    for (Junction j : junctions(measurements)) {
      reference(j.net(), j.amps())
          .filter(reference -> j.amps().size() > 1)
          .ifPresent(
              reference -> {
                boolean same = own.containsKey(j.net().id());
                alike
                    .computeIfAbsent(List.of(same, j.amps()), k -> new Series(accuracy, same))
                    .add(
                        j,
                        reference,
                        same ? ownGrowthSd(j.net().id()) : reference.growthSd().value(),
                        boards(j.net().id()));
              });
    }
    Map<Contact, Estimate> result = new LinkedHashMap<>();
    alike.values().forEach(series -> result.putAll(series.estimates()));
    for (Measurement m : measurements) {
      Junction.stall(m).ifPresent(point -> stalled(m, point, result));
    }
    return result;
  }

  private int boards(NetId net) {
    return Optional.ofNullable(learned.get(net)).map(Reference.Drop::boards).orElse(2);
  }

  /**
   * The same board is compared with itself, at another temperature. A net that differs between
   * boards by more than its kind, because a resistance lies beside its junction, also goes its own
   * way with temperature; that part is kept.
   */
  private double ownGrowthSd(NetId net) {
    Reference.Drop mine = learned.get(net);
    if (mine == null) {
      return 0;
    }
    double usual = usualGrowthSd.getOrDefault(mine.amps(), 0.0);
    double own = mine.growthSd().value();
    return Math.sqrt(Math.max(0, own * own - usual * usual));
  }

  /**
   * A source that ran out of voltage where a good board lets the current pass has met hundreds of
   * ohm: what it read there, above the reference's drop at the current that still flowed.
   */
  private void stalled(Measurement m, Reading.Point point, Map<Contact, Estimate> result) {
    Contact subject = Junction.subject(m.step(), assembly);
    assembly
        .net(subject)
        .flatMap(net -> reference(net, m.step().currents()))
        .ifPresent(
            reference -> {
              double volts = point.volts() - dropAt(reference, point.amps());
              double instrument = accuracy.junctionVolts(point.volts(), point.amps());
              result.put(
                  subject,
                  Estimate.of(
                      volts / point.amps(),
                      List.of(
                          Contribution.known("voltage at its limit", instrument / point.amps()),
                          Contribution.known(
                              "spread of this net between boards",
                              reference.sd().value() / point.amps()),
                          Contribution.known(
                              "temperature of the board", TEMPERATURE_VOLTS / point.amps()))));
            });
  }

  /** The reference's drop at a current between two of its own, which grows with the logarithm. */
  private static double dropAt(Reference.Drop reference, double amps) {
    int i = 1;
    while (i < reference.amps().size() - 1 && reference.amps().get(i).value() < amps) {
      i++;
    }
    double from = reference.amps().get(i - 1).value();
    double share = Math.log(amps / from) / Math.log(reference.amps().get(i).value() / from);
    double low = reference.volts().get(i - 1).value();
    return low + share * (reference.volts().get(i).value() - low);
  }

  /** How far each drop at the lowest current lies from its reference, the common part taken off. */
  List<DropShift> shifts(int seating, List<Measurement> measurements) {
    Map<List<Amps>, List<Junction>> alike = new LinkedHashMap<>();
    for (Junction j : junctions(measurements)) {
      if (reference(j.net(), j.amps()).isPresent()) {
        alike.computeIfAbsent(j.amps(), k -> new ArrayList<>()).add(j);
      }
    }
    List<DropShift> shifts = new ArrayList<>();
    for (List<Junction> list : alike.values()) {
      double middle = Series.median(list.stream().map(this::shift).toList());
      double common = list.size() < Series.ENOUGH ? 0 : middle;
      for (Junction j : list) {
        double u =
            Math.hypot(
                accuracy.junctionVolts(j.volts().get(0), j.amps().get(0).value()),
                reference(j.net(), j.amps()).orElseThrow().sd().value());
        shifts.add(
            new DropShift(
                seating, j.contact(), j.net().id(), Estimate.known(shift(j) - common, u)));
      }
    }
    return shifts;
  }

  private double shift(Junction j) {
    return j.volts().get(0) - reference(j.net(), j.amps()).orElseThrow().volts().get(0).value();
  }

  private Optional<Reference.Drop> reference(Net net, List<Amps> amps) {
    return Optional.ofNullable(own.getOrDefault(net.id(), learned.get(net.id())))
        .filter(drop -> drop.amps().equals(amps));
  }
}

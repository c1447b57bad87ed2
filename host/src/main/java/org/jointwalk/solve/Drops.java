package org.jointwalk.solve;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
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
 * A pad that is alone on its net is judged by the drop of the junction behind it. More current
 * finds more of a series resistance: the excess is how much more the drop has grown from the lowest
 * to the highest current than the reference's grew, divided by the difference of the currents. What
 * all pads of the board have in common, which is its temperature, is taken off by the median.
 * Immutable.
 */
final class Drops {

  /** Fewer pads than this say nothing about what they have in common. */
  private static final int ENOUGH = 8;

  private static final double MAD_TO_SD = 1.4826;

  /** A median deviation of n values is as good as a standard deviation of about this share of n. */
  private static final double MAD_EFFICIENCY = 0.37;

  private final Assembly assembly;
  private final Accuracy accuracy;
  private final Map<NetId, Reference.Drop> own = new LinkedHashMap<>();
  private final Map<NetId, Reference.Drop> learned = new LinkedHashMap<>();

  Drops(Assembly assembly, Accuracy accuracy, List<Reference.Drop> own) {
    this.assembly = assembly;
    this.accuracy = accuracy;
    own.forEach(d -> this.own.put(d.net(), d));
    for (Reference reference : assembly.map().references()) {
      if (reference instanceof Reference.Drop drop) {
        learned.put(drop.net(), drop);
      }
    }
  }

  /** Whether the smallest current of a junction step went through. */
  static boolean conducts(Step step, Reading reading) {
    List<Reading.Point> points = points(reading);
    return !points.isEmpty()
        && points.get(0).amps() > 0.8 * step.currents().get(0).value()
        && points.get(0).volts() < 0.98 * step.compliance().value();
  }

  private static List<Reading.Point> points(Reading reading) {
    if (reading instanceof Reading.Measured measured) {
      return measured.points();
    }
    return reading instanceof Reading.OverRange over ? over.points() : List.of();
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
    Map<List<Object>, List<Excess>> alike = new LinkedHashMap<>();
    for (Junction j : junctions(measurements)) {
      boolean same = own.containsKey(j.net().id());
      reference(j)
          .ifPresent(
              reference ->
                  alike
                      .computeIfAbsent(List.of(same, j.amps()), k -> new ArrayList<>())
                      .add(against(j, reference, same)));
    }
    Map<Contact, Estimate> result = new LinkedHashMap<>();
    alike.values().forEach(list -> estimate(list, result));
    return result;
  }

  /** How far each drop at the lowest current lies from its reference, the common part taken off. */
  List<DropShift> shifts(int seating, List<Measurement> measurements) {
    Map<List<Amps>, List<Junction>> alike = new LinkedHashMap<>();
    for (Junction j : junctions(measurements)) {
      if (reference(j).isPresent()) {
        alike.computeIfAbsent(j.amps(), k -> new ArrayList<>()).add(j);
      }
    }
    List<DropShift> shifts = new ArrayList<>();
    for (List<Junction> list : alike.values()) {
      double middle = median(list.stream().mapToDouble(this::shift).sorted().toArray());
      for (Junction j : list) {
        double volts = j.volts().get(0);
        double u =
            Math.hypot(
                accuracy.junctionVolts(volts, j.amps().get(0).value()),
                reference(j).orElseThrow().sd().value());
        double common = list.size() < ENOUGH ? 0 : middle;
        shifts.add(
            new DropShift(
                seating, j.contact(), j.net().id(), Estimate.known(shift(j) - common, u)));
      }
    }
    return shifts;
  }

  private double shift(Junction j) {
    return j.volts().get(0) - reference(j).orElseThrow().volts().get(0).value();
  }

  private Optional<Reference.Drop> reference(Junction j) {
    Reference.Drop drop = own.getOrDefault(j.net().id(), learned.get(j.net().id()));
    return drop != null && drop.amps().equals(j.amps()) ? Optional.of(drop) : Optional.empty();
  }

  private record Junction(Contact contact, Net net, List<Amps> amps, List<Double> volts) {}

  private record Excess(
      Contact contact, double ohms, double instrument, double between, int boards) {}

  private List<Junction> junctions(List<Measurement> measurements) {
    List<Junction> list = new ArrayList<>();
    for (Measurement m : measurements) {
      Step step = m.step();
      int currents = step.currents().size();
      if (step.kind() != Kind.JUNCTION
          || !(m.reading() instanceof Reading.Measured measured)
          || measured.points().size() <= currents) {
        continue;
      }
      Contact subject = assembly.isGround(step.a()) ? step.b() : step.a();
      List<Double> volts = new ArrayList<>();
      for (int i = 0; i < currents; i++) {
        volts.add(measured.points().get(i).volts());
      }
      // The first current is repeated last: the mean of the two takes off a slow drift.
      volts.set(0, (volts.get(0) + measured.points().get(currents).volts()) / 2);
      assembly
          .net(subject)
          .ifPresent(net -> list.add(new Junction(subject, net, step.currents(), volts)));
    }
    return list;
  }

  private Excess against(Junction j, Reference.Drop reference, boolean same) {
    int top = j.amps().size() - 1;
    double span = j.amps().get(top).value() - j.amps().get(0).value();
    double grown = j.volts().get(top) - j.volts().get(0);
    double usual = reference.volts().get(top).value() - reference.volts().get(0).value();
    double u =
        Math.hypot(
            accuracy.junctionVolts(j.volts().get(top), j.amps().get(top).value()),
            accuracy.junctionVolts(j.volts().get(0), j.amps().get(0).value()) / Math.sqrt(2));
    return new Excess(
        j.contact(),
        (grown - usual) / span,
        (same ? Math.sqrt(2) : 1) * u / span,
        (same ? ownSpread(j) : reference.growthSd().value()) / span,
        Optional.ofNullable(learned.get(j.net().id())).map(Reference.Drop::boards).orElse(2));
  }

  /**
   * The same board is compared with itself, at another temperature. A net that differs between
   * boards by more than its kind, because a resistance lies beside its junction, also goes its own
   * way with temperature; that part is kept.
   */
  private double ownSpread(Junction j) {
    Reference.Drop mine = learned.get(j.net().id());
    if (mine == null) {
      return 0;
    }
    double[] kind =
        learned.values().stream()
            .filter(d -> d.amps().equals(mine.amps()))
            .mapToDouble(d -> d.growthSd().value())
            .sorted()
            .toArray();
    double usual = median(kind);
    double own = mine.growthSd().value();
    return Math.sqrt(Math.max(0, own * own - usual * usual));
  }

  private static void estimate(List<Excess> list, Map<Contact, Estimate> result) {
    if (list.size() < ENOUGH) {
      return;
    }
    double middle = median(list.stream().mapToDouble(Excess::ohms).sorted().toArray());
    double spread =
        MAD_TO_SD
            * median(
                list.stream().mapToDouble(e -> Math.abs(e.ohms() - middle)).sorted().toArray());
    for (Excess e : list) {
      double dies = Math.sqrt(Math.max(0, spread * spread - e.instrument() * e.instrument()));
      result.put(
          e.contact(),
          Estimate.of(
              e.ohms() - middle,
              List.of(
                  Contribution.known("voltages at three currents", e.instrument()),
                  e.between() > dies
                      ? new Contribution(
                          "spread of this net between boards",
                          e.between() * Math.sqrt(1 + 1.0 / e.boards()),
                          Math.max(1, e.boards() - 1))
                      : new Contribution(
                          "spread of the junctions of this board",
                          dies,
                          MAD_EFFICIENCY * list.size()))));
    }
  }

  private static double median(double[] sorted) {
    int n = sorted.length;
    return n % 2 == 1 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
  }
}

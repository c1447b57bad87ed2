package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.BiPredicate;
import java.util.function.Predicate;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.trial.Readings;

/**
 * A fixture without noise around an exact circuit. Named failure modes: probes that miss in a
 * seating, a voltage on a net, a step that is refused, a stop after so many batches. Remembers the
 * steps that it took.
 */
final class PlainFixture implements Fixture {

  private static final int BATCH = 32;
  private static final double NONE = Double.POSITIVE_INFINITY;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final PlainCircuit circuit;
  private final Map<Contact, Charge> charged = new LinkedHashMap<>();
  private final List<Taken> taken = new ArrayList<>();
  private BiPredicate<Integer, Contact> missing = (seating, contact) -> false;
  private Predicate<Step> refused = step -> false;
  private int seating = 1;
  private int stopAfter = Integer.MAX_VALUE;
  private boolean stopped;

  /** A step with the seating in which it was taken. */
  record Taken(int seating, Step step) {}

  private record Charge(double volts, double loaded, int discharges) {}

  PlainFixture(Assembly assembly, Capabilities capabilities, Defects defects) {
    this(assembly, capabilities, defects, 1);
  }

  /**
   * @param scale of every resistance of a path
   */
  PlainFixture(Assembly assembly, Capabilities capabilities, Defects defects, double scale) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.circuit = new PlainCircuit(assembly, defects, scale);
  }

  /** A probe that does not land in one seating. */
  void miss(int inSeating, Contact contact) {
    miss((s, c) -> s == inSeating && c.equals(contact));
  }

  /** Probes that do not land, beside those named before. */
  void miss(BiPredicate<Integer, Contact> probes) {
    missing = missing.or(probes);
  }

  /** A voltage that no discharge takes away. */
  void charge(Contact contact, Volts volts) {
    charged.put(contact, new Charge(volts.value(), volts.value(), Integer.MAX_VALUE));
  }

  /** A voltage that is gone after so many discharges. */
  void charge(Contact contact, Volts volts, int discharges) {
    charged.put(contact, new Charge(volts.value(), volts.value(), discharges));
  }

  /** A voltage that a light load takes away. */
  void light(Contact contact, Volts volts) {
    charged.put(contact, new Charge(volts.value(), 0, Integer.MAX_VALUE));
  }

  /** Steps that are refused. */
  void refuse(Predicate<Step> steps) {
    refused = steps;
  }

  /** Ends the run after so many batches, counted over all runs from now on. */
  void stopAfter(int batches) {
    stopAfter = batches;
  }

  /** Opens and closes the lid. */
  void reseat() {
    seating++;
  }

  int seating() {
    return seating;
  }

  /** Every step taken, refused ones left out. */
  List<Taken> taken() {
    return List.copyOf(taken);
  }

  @Override
  public Capabilities capabilities() {
    return capabilities;
  }

  @Override
  public Clamping clamping() {
    return new Clamping(7, seating);
  }

  @Override
  public void run(Scan scan, Keep keep) {
    stopped = false;
    List<Reading> batch = new ArrayList<>();
    for (int i = scan.first(); i < scan.first() + scan.steps().size(); i++) {
      batch.add(read(i, scan.step(i)));
      if (batch.size() == BATCH || i == scan.first() + scan.steps().size() - 1) {
        keep.keep(new Batch(batch, 2L * batch.size(), 0.004 * batch.size()));
        batch.clear();
        if (--stopAfter <= 0 || stopped) {
          return;
        }
      }
    }
  }

  @Override
  public void stop() {
    stopped = true;
  }

  private Reading read(int index, Step step) {
    if (refused.test(step)) {
      return new Reading.Refused(index, "not this one");
    }
    taken.add(new Taken(seating, step));
    return switch (step.kind()) {
      case ALL_OPEN -> measured(index, 0, 0);
      case RESIDUAL -> measured(index, charge(step.a()).volts(), 0);
      case RESIDUAL_LOADED -> measured(index, charge(step.a()).loaded(), 0);
      case DISCHARGE -> discharge(index, step.a());
      case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step);
      case ISOLATION -> isolation(index, step);
      case JUNCTION -> junction(index, step);
      case CHARGE -> new Reading.Refused(index, "not in this fixture");
    };
  }

  private static Reading measured(int index, double volts, double amps) {
    return new Reading.Measured(index, List.of(new Reading.Point(volts, amps)));
  }

  private Charge charge(Contact contact) {
    Charge none = new Charge(0, 0, 0);
    return missing.test(seating, contact) ? none : charged.getOrDefault(contact, none);
  }

  private Reading discharge(int index, Contact contact) {
    charged.computeIfPresent(
        contact,
        (c, charge) ->
            charge.discharges() <= 1
                ? null
                : new Charge(charge.volts(), charge.loaded(), charge.discharges() - 1));
    return measured(index, 0, 0);
  }

  private Reading resistance(int index, Step step) {
    double ohms = ohms(step.a(), step.b());
    double amps = step.currents().get(0).value();
    return ohms < 1e3
        ? measured(index, (ohms + path()) * amps, amps)
        : new Reading.OverRange(index, List.of());
  }

  private Reading isolation(int index, Step step) {
    double siemens = 0;
    for (Contact a : step.high()) {
      for (Contact b : step.low()) {
        siemens += 1 / Math.max(ohms(a, b) + path(), 1e-3);
      }
    }
    double volts = step.compliance().value();
    return measured(index, volts, volts * siemens);
  }

  private Reading junction(int index, Step step) {
    Contact subject = assembly.isGround(step.a()) ? step.b() : step.a();
    Contact ground = subject.equals(step.a()) ? step.b() : step.a();
    boolean landed = !missing.test(seating, subject) && !missing.test(seating, ground);
    PlainCircuit.Way way = circuit.way(ground, subject);
    List<Reading.Point> points = new ArrayList<>();
    boolean over = false;
    for (int i = 0; i <= step.currents().size(); i++) {
      double amps = step.currents().get(i % step.currents().size()).value();
      double volts = landed ? volts(way, amps) : NONE;
      if (volts > step.compliance().value()) {
        over = true;
        amps = landed ? ampsAt(way, step.compliance().value()) : 0;
        volts = step.compliance().value();
      }
      points.add(new Reading.Point(volts, amps));
    }
    return over ? new Reading.OverRange(index, points) : new Reading.Measured(index, points);
  }

  private double volts(PlainCircuit.Way way, double amps) {
    double series = way.series() + contact() + path();
    return way.junction()
        ? Readings.drop(amps, series, 0, way.beside())
        : amps * (way.beside() + 2 * contact() + path());
  }

  private double ampsAt(PlainCircuit.Way way, double volts) {
    double low = 0;
    double high = 1;
    for (int i = 0; i < 80; i++) {
      double amps = (low + high) / 2;
      if (volts(way, amps) < volts) {
        low = amps;
      } else {
        high = amps;
      }
    }
    return low;
  }

  private double path() {
    return capabilities.kelvin().readsPath()
        ? capabilities.path().highOhms().value() + capabilities.path().lowOhms().value()
        : 0;
  }

  private double contact() {
    return capabilities.kelvin().readsContact() ? capabilities.probes().typical().value() : 0;
  }

  private double ohms(Contact a, Contact b) {
    return missing.test(seating, a) || missing.test(seating, b)
        ? NONE
        : circuit.ohms(a, b) + 2 * contact();
  }
}

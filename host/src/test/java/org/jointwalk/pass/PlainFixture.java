package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;

/**
 * A fixture without noise: every contact is its branch and one junction or nothing behind it. Named
 * failure modes: probes that miss in a seating, a voltage on a net, a stop after so many batches.
 */
final class PlainFixture implements Fixture {

  private static final int BATCH = 32;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Defects defects;
  private final Map<Integer, Set<Contact>> missing = new LinkedHashMap<>();
  private final Map<Contact, Volts> charged = new LinkedHashMap<>();
  private int seating = 1;
  private int stopAfter = Integer.MAX_VALUE;
  private boolean stopped;

  PlainFixture(Assembly assembly, Capabilities capabilities, Defects defects) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.defects = defects;
  }

  void miss(int seating, Contact contact) {
    missing.computeIfAbsent(seating, k -> new LinkedHashSet<>()).add(contact);
  }

  void charge(Contact contact, Volts volts) {
    charged.put(contact, volts);
  }

  void stopAfter(int batches) {
    stopAfter = batches;
  }

  void reseat() {
    seating++;
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
    return switch (step.kind()) {
      case ALL_OPEN -> measured(index, 0, 0);
      case RESIDUAL, RESIDUAL_LOADED ->
          measured(index, charged.getOrDefault(step.a(), new Volts(0)).value(), 0);
      case DISCHARGE -> measured(index, 0, 0);
      case LOW_LEVEL, NORMAL_LEVEL -> resistance(index, step);
      case ISOLATION -> isolation(index, step);
      case JUNCTION -> junction(index, step);
      case CHARGE -> new Reading.Refused(index, "not in this fixture");
    };
  }

  private static Reading measured(int index, double volts, double amps) {
    return new Reading.Measured(index, List.of(new Reading.Point(volts, amps)));
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
        siemens += 1 / (ohms(a, b) + path());
      }
    }
    double volts = step.compliance().value();
    return measured(index, volts, volts * siemens);
  }

  private Reading junction(int index, Step step) {
    Contact subject = assembly.isGround(step.a()) ? step.b() : step.a();
    double series = branch(subject);
    if (Double.isInfinite(series)) {
      return new Reading.OverRange(index, List.of());
    }
    List<Reading.Point> points = new ArrayList<>();
    for (int i : new int[] {0, 1, 2, 0}) {
      double amps = step.currents().get(i).value();
      // An ideal junction of 0.45 V at 10 uA and 65 mV a decade.
      double volts = 0.45 + 0.065 * Math.log10(amps / 1e-5) + series * amps;
      points.add(new Reading.Point(volts, amps));
    }
    return new Reading.Measured(index, points);
  }

  private double path() {
    return capabilities.kelvin().readsPath()
        ? capabilities.path().highOhms().value() + capabilities.path().lowOhms().value()
        : 0;
  }

  /** Between two contacts: through their net when it is one, else through a bridge. */
  private double ohms(Contact a, Contact b) {
    if (assembly.home(a).equals(assembly.home(b))) {
      return branch(a) + branch(b);
    }
    for (var side : assembly.setUp().joints()) {
      if (a instanceof Contact.Pad p
          && b instanceof Contact.Pad q
          && defects.of(Component.Bridge.between(side, p.position(), q.position())).orElse(null)
              instanceof Condition.Bridged bridged) {
        return bridged.ohms().value() + 2 * contact(a);
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  private double branch(Contact contact) {
    if (missing.getOrDefault(seating, Set.of()).contains(contact)) {
      return Double.POSITIVE_INFINITY;
    }
    double ohms = contact(contact);
    for (Component component : assembly.branch(contact).chain()) {
      Condition condition = defects.of(component).orElse(null);
      if (condition instanceof Condition.Open) {
        return Double.POSITIVE_INFINITY;
      }
      ohms += condition instanceof Condition.High high ? high.ohms().value() : 0.001;
    }
    return ohms;
  }

  private double contact(Contact contact) {
    return capabilities.kelvin().readsContact() && contact != null
        ? capabilities.probes().typical().value()
        : 0;
  }
}

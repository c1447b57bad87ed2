package org.jointwalk.grade;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Accuracy;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Tie;

/**
 * Vias of the bare interposer that edge plating bridges on both faces. A good one lies beside the
 * way over the plating and lowers it; where the fixture tells the two apart by far, the via is seen
 * although current passes without it. That takes milliohm from pad to pad, so two tips on each.
 * Immutable.
 */
final class Shunts {

  /** The step from good to open is worth this many standard uncertainties. */
  private static final double CLEAR = 8;

  /** Vias and plating of good parts differ by about this fraction (an assumption). */
  private static final double SPREAD = 0.1;

  /**
   * One such via.
   *
   * @param good what its two pads read when it is whole, in ohm
   * @param open what they read past it, in ohm
   */
  record Shunt(Contact.Pad over, Contact.Pad under, double good, double open) {

    /** Whether a reading may be that of plating alone, as good platings differ. */
    boolean isPlatingAlone(double ohms) {
      return ohms >= open * (1 - SPREAD);
    }
  }

  private final Map<String, Shunt> shunts = new LinkedHashMap<>();

  Shunts(Assembly assembly, Capabilities capabilities, Set<Contact> wired) {
    Optional<Range> range = capabilities.range(Kind.LOW_LEVEL);
    if (!assembly.setUp().bare() || capabilities.kelvin().readsContact() || range.isEmpty()) {
      return;
    }
    for (Tie tie : assembly.interposer().ties()) {
      if (tie.where() != Tie.Where.EDGE) {
        continue;
      }
      double open = 2 * tie.ohms().value();
      double via = assembly.interposer().via().value();
      double good = open * via / (open + via);
      if (!isClear(capabilities, range.get(), good, open)) {
        continue;
      }
      for (String id : tie.positions()) {
        Contact.Pad over = new Contact.Pad(Plate.OVER, id);
        Contact.Pad under = new Contact.Pad(Plate.UNDER, id);
        if (wired.containsAll(Set.of(over, under))) {
          shunts.put(id, new Shunt(over, under, good, open));
        }
      }
    }
  }

  private static boolean isClear(Capabilities capabilities, Range range, double good, double open) {
    double amps = range.current().value();
    Contact a = new Contact.Pad(Plate.OVER, "");
    Contact b = new Contact.Pad(Plate.UNDER, "");
    Step step =
        new Step(
            Kind.LOW_LEVEL,
            List.of(a),
            List.of(b),
            List.of(range.current()),
            range.compliance(),
            1);
    Reading.Measured reading =
        new Reading.Measured(0, List.of(new Reading.Point(open * amps, amps)));
    double u = new Accuracy(capabilities).ohms(step, reading).u();
    return open - good > CLEAR * Math.hypot(u, SPREAD * good);
  }

  /** The via of a position, when it can be seen past its plating. */
  Optional<Shunt> of(String position) {
    return Optional.ofNullable(shunts.get(position));
  }

  /** The via that a contact is read for. */
  Optional<Shunt> of(Contact contact) {
    return contact instanceof Contact.Pad pad
        ? of(pad.position()).filter(s -> s.over().equals(contact))
        : Optional.empty();
  }
}

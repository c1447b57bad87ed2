package org.jointwalk.upkeep;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.stack.Contact;

/** What a check has found so far. Not thread-safe. */
final class Findings {

  private final FixtureMap map;
  private final List<String> setUps = new ArrayList<>();
  private final List<Selfcheck.Fault> faults = new ArrayList<>();
  private final List<Selfcheck.Figure> figures = new ArrayList<>();
  private final List<String> unseen = new ArrayList<>();

  Findings(FixtureMap map) {
    this.map = map;
  }

  void in(String setUp) {
    setUps.add(setUp);
  }

  /** A fault of a wire of a contact. */
  void fault(What what, Contact contact, Channel.Use use, String reason) {
    Optional<Integer> channel =
        map.channels().stream()
            .filter(c -> c.contact().equals(contact) && c.use() == use)
            .map(Channel::number)
            .findFirst();
    faults.add(new Selfcheck.Fault(what, channel, Optional.of(contact), reason));
  }

  /** The number of the sense channel of a contact, in words; nothing where it has none. */
  String orSense(Contact contact, boolean high) {
    return map.channels().stream()
        .filter(c -> c.contact().equals(contact) && c.use() == Channel.Use.SENSE)
        .findFirst()
        .map(
            c ->
                " or the sense relay of channel "
                    + c.number()
                    + " to the "
                    + (high ? "high" : "low")
                    + " sense bus")
        .orElse("");
  }

  /** A fault of no single contact. */
  void fault(What what, String reason) {
    faults.add(new Selfcheck.Fault(what, Optional.empty(), Optional.empty(), reason));
  }

  void figure(String name, double value, String unit, double limit) {
    figures.add(new Selfcheck.Figure(name, value, unit, Optional.of(limit)));
  }

  void figure(String name, double value, String unit) {
    figures.add(new Selfcheck.Figure(name, value, unit, Optional.empty()));
  }

  void unseen(String what) {
    unseen.add(what);
  }

  Selfcheck done() {
    return new Selfcheck(
        map.capabilities().identity(),
        map.capabilities().build(),
        map.capabilities().calibration(),
        setUps,
        faults,
        figures,
        unseen);
  }

  /** Ohms for people. */
  static String ohms(double ohms) {
    if (ohms >= 1e6) {
      return String.format(Locale.ROOT, "%.3g Mohm", ohms / 1e6);
    }
    return ohms >= 1e3
        ? String.format(Locale.ROOT, "%.3g kohm", ohms / 1e3)
        : String.format(Locale.ROOT, "%.2f ohm", ohms);
  }
}

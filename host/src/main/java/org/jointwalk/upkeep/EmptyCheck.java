package org.jointwalk.upkeep;

import java.util.List;
import java.util.Locale;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.SetUp;

/** What an empty fixture shows: nothing may conduct. Not thread-safe. */
final class EmptyCheck {

  /** A path below this is a relay that does not open; one above leaks. */
  private static final double STUCK_OHMS = 1e3;

  /** Readings that tell the noise. */
  private static final int SAMPLES = 32;

  /** Of 31 degrees of freedom a ratio of 2 is beyond one in ten million by chance. */
  private static final double NOISY = 2;

  /** Chance alone goes so many standard deviations once in a thousand million readings. */
  private static final double SIGMAS = 6;

  /**
   * Noise told from 32 readings is itself known to an eighth, one over the root of 62; more than
   * twice that is allowed for.
   */
  private static final double NOISE_KNOWN = 1.3;

  /** A voltage counts as settled within this share of its last value, and the noise. */
  private static final double SETTLED = 1e-3;

  /** Open channels may leak so many times what the record says. */
  private static final double LEAKS = 3;

  private static final int SETTLING = 16;

  private final Run run;
  private final Fixture fixture;
  private final SetUp empty;
  private final Capabilities able;
  private final Steps steps;
  private final Findings findings;
  private final int channels;

  /** How much noisier it is than the record says; what is lost in that is no leak. */
  private double noisier = 1;

  EmptyCheck(Run run, Fixture fixture, SetUp empty, int channels, Findings findings) {
    this.run = run;
    this.fixture = fixture;
    this.empty = empty;
    this.channels = channels;
    this.findings = findings;
    able = fixture.capabilities();
    steps = new Steps(able);
  }

  /** Looks at everything; answers whether the buses are joined whatever is switched. */
  boolean look(List<Contact> contacts) throws FixtureException, StoppedException {
    allOpen();
    settling(contacts);
    if (!steps.can(Kind.ISOLATION)) {
      findings.unseen("relays that never open: this fixture has no range for isolation");
      return false;
    }
    return relays(contacts);
  }

  private double leakAmps(double volts) {
    return able.path().leakage().value() * channels / able.ratings().clamp().value() * volts;
  }

  private void allOpen() throws FixtureException, StoppedException {
    if (!steps.can(Kind.ALL_OPEN)) {
      findings.unseen("leakage with all channels open: this fixture has no range for it");
      return;
    }
    List<Taken> taken =
        run.take(fixture, empty, "All channels open", List.of(steps.allOpen(SAMPLES)));
    if (!(taken.get(0).reading() instanceof Reading.Measured measured)) {
      findings.unseen("leakage with all channels open: the fixture refused the step");
      return;
    }
    Range range = steps.range(Kind.ALL_OPEN);
    double mean = measured.points().stream().mapToDouble(Reading.Point::amps).average().orElse(0);
    double noise = range.currentNoise().value();
    double limit =
        LEAKS * leakAmps(steps.volts(Kind.ALL_OPEN)) + SIGMAS * noise / Math.sqrt(SAMPLES);
    findings.figure("leakage between the buses, all open", mean, "A", limit);
    if (Math.abs(mean) > limit) {
      findings.fault(
          What.BUS_LEAKAGE,
          String.format(
              Locale.ROOT,
              "with every channel open %.3g uA flow between the buses, at most %.3g uA may",
              mean * 1e6,
              limit * 1e6));
    }
    double squares =
        measured.points().stream().mapToDouble(p -> (p.amps() - mean) * (p.amps() - mean)).sum();
    double ratio = noise > 0 ? Math.sqrt(squares / (SAMPLES - 1)) / noise : 0;
    noisier = Math.max(1, ratio);
    findings.figure("noise against the record", ratio, "", NOISY);
    if (ratio > NOISY) {
      findings.fault(
          What.NOISE,
          String.format(
              Locale.ROOT,
              "readings are %.1f times as noisy as the record says: look for a loose ground or a"
                  + " charger near by",
              ratio));
    }
  }

  /** A source of voltage holds its voltage from the first reading on, or the relays are slow. */
  private void settling(List<Contact> contacts) throws FixtureException, StoppedException {
    if (!steps.can(Kind.ISOLATION) || contacts.size() < 2) {
      findings.unseen("settling: this fixture has no range for isolation");
      return;
    }
    Range range = steps.range(Kind.ISOLATION);
    // The middle of the ring, far from one another; two pairs, should one be faulty.
    int half = contacts.size() / 2;
    List<Taken> taken =
        run.take(
            fixture,
            empty,
            "Settling",
            List.of(
                steps.pair(Kind.ISOLATION, contacts.get(0), contacts.get(half), SETTLING, 1),
                steps.pair(
                    Kind.ISOLATION,
                    contacts.get(half - 1),
                    contacts.get(contacts.size() - 1),
                    SETTLING,
                    1)));
    int least = SETTLING;
    for (Taken one : taken) {
      if (one.reading() instanceof Reading.Measured measured) {
        List<Reading.Point> points = measured.points();
        double last = points.get(points.size() - 1).volts();
        double limit = SIGMAS * Math.sqrt(2) * range.noise().value() + SETTLED * Math.abs(last);
        int late = 0;
        for (int i = 0; i < points.size(); i++) {
          late = Math.abs(points.get(i).volts() - last) > limit ? i + 1 : late;
        }
        least = Math.min(least, late);
      }
    }
    findings.figure("settled after", (least + 1) * range.seconds(), "s", range.seconds());
    if (least > 0) {
      findings.fault(
          What.SETTLING,
          String.format(
              Locale.ROOT,
              "a reading settles after %.0f ms, the record allows %.0f ms: the first reading of"
                  + " each step is wrong",
              (least + 1) * range.seconds() * 1e3,
              range.seconds() * 1e3));
    }
  }

  private boolean relays(List<Contact> contacts) throws FixtureException, StoppedException {
    double volts = steps.volts(Kind.ISOLATION);
    double limit =
        LEAKS * leakAmps(volts)
            + NOISE_KNOWN * noisier * SIGMAS * steps.range(Kind.ISOLATION).currentNoise().value();
    findings.figure("smallest leak that is seen", volts / limit, "ohm");
    Culprits culprits =
        new Culprits(
                contacts,
                pairs ->
                    run.take(
                        fixture,
                        empty,
                        "Relays that never open",
                        pairs.stream()
                            .map(p -> steps.pair(Kind.ISOLATION, p.high(), p.low()))
                            .toList()),
                taken -> taken.point().filter(p -> Math.abs(p.amps()) > limit).isPresent())
            .find();
    if (culprits.everywhere()) {
      findings.fault(
          What.BUS_LEAKAGE,
          "the buses are joined whatever is switched: both relays of one channel never open, or"
              + " the bus itself is shorted");
      return true;
    }
    // A contact whose relay to the high bus never opens shows it when it is on the low bus.
    for (Contact contact : culprits.low()) {
      stuck(contact, true, culprits.reading(contact, false));
    }
    for (Contact contact : culprits.high()) {
      stuck(contact, false, culprits.reading(contact, true));
    }
    for (Taken pair : culprits.pairs()) {
      findings.fault(
          What.LEAKY_CHANNEL,
          pair.step().a(),
          Channel.Use.FORCE,
          "is joined to another contact with nothing in the fixture, "
              + Findings.ohms(pair.ohms().orElse(Double.POSITIVE_INFINITY))
              + ": are the two probes bent together, or dirty?");
    }
    return false;
  }

  private void stuck(Contact contact, boolean high, Taken taken) {
    double ohms = taken.ohms().orElse(Double.POSITIVE_INFINITY);
    String bus = high ? "high" : "low";
    if (ohms > STUCK_OHMS) {
      findings.fault(
          What.LEAKY_CHANNEL,
          contact,
          Channel.Use.FORCE,
          "its relay to the " + bus + " bus leaks while it is open: " + Findings.ohms(ohms));
    } else {
      findings.fault(
          high ? What.HIGH_STUCK_CLOSED : What.LOW_STUCK_CLOSED,
          contact,
          Channel.Use.FORCE,
          "its relay to the "
              + bus
              + " bus"
              + findings.orSense(contact, high)
              + " never opens: "
              + Findings.ohms(ohms)
              + " with nothing in the fixture");
    }
  }
}

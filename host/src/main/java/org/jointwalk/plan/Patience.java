package org.jointwalk.plan;

import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Sequential;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Ohms;

/**
 * How long a fixture reads on before it leaves two contacts. More readings shrink the noise and
 * nothing else; so noise alone is tested, against zones that lie the guard of everything else away
 * from the limit. Where that guard is many times the noise, one reading always decides and no step
 * goes on. Immutable.
 */
final class Patience {

  /** Risk of a wrong end of one step, small beside that of the guard. */
  private static final double RISK = 1e-4;

  /** Normal quantile of the risk at the limit, one in twenty. */
  private static final double GUARD = 1.645;

  /** A limit below this many u cannot be told from a good joint, and is not held against it. */
  private static final double RESOLVABLE = 8;

  /**
   * A noise that is known with fifty degrees of freedom is taken to be larger by 2.6 of its
   * standard deviations, or a test that relies on it would end too soon.
   */
  private static final double CAUTION = 1 + 2.6 / Math.sqrt(2 * 50);

  /** A source is on for at most half a second a step, with some of it to spare, in seconds. */
  private static final double MOST_SECONDS = 0.4;

  private static final int MOST = 64;

  private final Capabilities capabilities;

  Patience(Capabilities capabilities) {
    this.capabilities = capabilities;
  }

  /**
   * When a step between two pads of one net ends; empty when one reading always decides.
   *
   * @param limit of the sum of the two paths, switches and contacts not counted
   */
  Optional<Extend> extend(Step step, Ohms limit) {
    Optional<Range> range = capabilities.range(step.kind());
    int time = range.map(r -> (int) Math.min(MOST, MOST_SECONDS / r.seconds())).orElse(1);
    if (time <= 1) {
      return Optional.empty();
    }
    double least = RESOLVABLE * shared(step, range.get(), limit.value());
    double judged = Math.max(limit.value(), least);
    double sigma = CAUTION * noise(step, range.get(), judged);
    double away = GUARD * shared(step, range.get(), judged);
    if (!(sigma > 0) || !(away > 0)) {
      return Optional.empty();
    }
    Sequential test = new Sequential(sigma, away, RISK);
    return test.most() > 1 && test.sumOhms() > 0
        ? Optional.of(test.extend(judged + typical(), time))
        : Optional.empty();
  }

  /** Switches and contacts as a reading has them, in ohm. */
  private double typical() {
    Path path = capabilities.path();
    return (capabilities.kelvin().readsPath()
            ? path.highOhms().value() + path.lowOhms().value()
            : 0)
        + (capabilities.kelvin().readsContact() ? 2 * capabilities.probes().typical().value() : 0);
  }

  /** What flows through so many ohm, in ampere. */
  private double amps(Step step, double ohms) {
    double wanted = step.currents().get(0).value();
    double volts = step.compliance().value();
    return volts / (volts / wanted + ohms + typical());
  }

  private double noise(Step step, Range range, double ohms) {
    return Math.hypot(range.noise().value(), range.currentNoise().value() * (ohms + typical()))
        / amps(step, ohms);
  }

  /** Standard uncertainty of what all readings of a step have in common, in ohm. */
  private double shared(Step step, Range range, double ohms) {
    double zero = range.offset().value() / amps(step, ohms);
    double path = capabilities.kelvin().readsPath() ? capabilities.path().sd().value() : 0;
    ProbeQuality probes = capabilities.probes();
    double contact = capabilities.kelvin().readsContact() ? probes.sd().value() : 0;
    return Math.hypot(
        Math.hypot(zero, range.gain() * (ohms + typical())),
        Math.sqrt(2) * Math.hypot(path, contact));
  }
}

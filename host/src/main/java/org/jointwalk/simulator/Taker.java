package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Extension;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramReader;
import org.jointwalk.protocol.Proofs;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.StepCheck;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;

/** Takes the steps of a program, which are in channels, from a virtual fixture. Not thread-safe. */
final class Taker {

  /** More than this across the terminals before anything is sourced is refused (M59). */
  private static final double LIVE_VOLTS = 0.05;

  private static final double VOLT = 1e8;
  private static final double AMP = 1e10;
  private static final double MICRO = 1e6;
  private static final long MOST_MICROS = 500_000;

  private static final Set<Kind> QUIET =
      EnumSet.of(Kind.ALL_OPEN, Kind.RESIDUAL, Kind.RESIDUAL_LOADED, Kind.DISCHARGE);

  /** Reasons that are named before the one that joined steps have in common. */
  private static final Set<StepRefusal> BEFORE_SWITCHING =
      EnumSet.of(
          StepRefusal.SETTING,
          StepRefusal.SET,
          StepRefusal.KIND,
          StepRefusal.TERMINAL,
          StepRefusal.CHANNEL,
          StepRefusal.UNDECLARED,
          StepRefusal.TWICE);

  private final Capabilities able;
  private final StepCheck check;
  private final Wires wires;

  /**
   * @param map wiring; its defective channels lead nowhere
   * @param channels how many the fixture has
   */
  Taker(FixtureMap map, int channels) {
    able = map.capabilities();
    check = new StepCheck(able, channels);
    wires = new Wires(map);
  }

  /**
   * A step that was dealt with.
   *
   * @param taken its result
   * @param brief its result in two bits, when that is all that was asked for
   * @param micros time of its readings, switching not counted
   * @param channels that were closed for it
   */
  record Done(Taken taken, Optional<Notice.Brief> brief, long micros, Set<Integer> channels) {

    Done {
      channels = Set.copyOf(channels);
    }
  }

  /**
   * Takes one configuration.
   *
   * @param steps one, or several that are joined
   * @param apart whether they cannot be joined, whatever they are
   * @param meter of the run
   */
  List<Done> take(
      List<ProgramReader.Loaded> steps,
      boolean apart,
      Declaration declaration,
      Proofs proofs,
      Meter meter) {
    boolean refused = apart || check.refusal(steps, declaration).isPresent();
    List<Done> all = new ArrayList<>();
    for (ProgramReader.Loaded step : steps) {
      Optional<StepRefusal> own = check.refusal(step, declaration, proofs.proved());
      Optional<StepRefusal> reason =
          refused && own.filter(BEFORE_SWITCHING::contains).isEmpty()
              ? Optional.of(StepRefusal.SWITCHING)
              : own;
      Done done =
          reason.isPresent()
              ? refused(step, reason.get())
              : take(step, step.setting().orElseThrow(), declaration, meter);
      proofs.learn(step, declaration, done.taken());
      all.add(done);
    }
    return all;
  }

  private static Done refused(ProgramReader.Loaded step, StepRefusal reason) {
    boolean brief = step.setting().map(Streamed.Setting::brief).orElse(false);
    return new Done(
        new Taken.Refused(reason.code()),
        brief ? Optional.of(Notice.Brief.REFUSED) : Optional.empty(),
        0,
        Set.of());
  }

  private Done take(
      ProgramReader.Loaded loaded, Streamed.Setting setting, Declaration declaration, Meter meter) {
    List<Integer> lowChannels = loaded.lowChannels(declaration);
    List<Contact> high = wires.contacts(loaded.forceHigh());
    List<Contact> low = wires.contacts(lowChannels);
    if (high.stream().anyMatch(low::contains)) {
      // Both wires of one contact, one on each side: this fixture has no model of that.
      return refused(loaded, StepRefusal.SWITCHING);
    }
    Step step =
        new Step(
            setting.kind(),
            high,
            low,
            setting.currents().stream().map(amp -> new Amps(amp / AMP)).toList(),
            new Volts(setting.voltage() / VOLT),
            setting.samples());
    if (!QUIET.contains(setting.kind()) && Math.abs(meter.idleVolts(step)) > LIVE_VOLTS) {
      return refused(loaded, StepRefusal.LIVE);
    }
    List<Long> answers = new ArrayList<>();
    Range range = able.range(setting.kind()).orElseThrow();
    long one = Math.round(range.seconds() * MICRO);
    Manner manner =
        new Manner(
            wires.sense(loaded.senseHigh(), high),
            wires.sense(loaded.senseLow(), low),
            (points, over) -> {
              Raw last = raw(points.get(points.size() - 1));
              answers.add(Extension.answer(setting.kind(), List.of(last), over));
              return isOver(setting, answers, over, one);
            });
    Reading reading = meter.read(0, step, manner);
    Taken taken = Results.taken(reading, StepRefusal.KIND);
    Set<Integer> channels = new LinkedHashSet<>(loaded.forceHigh());
    channels.addAll(lowChannels);
    channels.addAll(loaded.senseHigh());
    channels.addAll(loaded.senseLow());
    long points = points(taken).size();
    return new Done(
        taken, brief(setting, taken, answers), setting.dwell() + points * one, channels);
  }

  private static boolean isOver(
      Streamed.Setting setting, List<Long> answers, boolean over, long one) {
    int n = answers.size();
    boolean fits = QUIET.contains(setting.kind()) || setting.dwell() + (n + 1) * one <= MOST_MICROS;
    return n >= setting.samples() && (!fits || Extension.ends(setting, answers, over));
  }

  private static Optional<Notice.Brief> brief(
      Streamed.Setting setting, Taken taken, List<Long> answers) {
    if (!setting.brief()) {
      return Optional.empty();
    }
    boolean over = taken instanceof Taken.OverRange;
    List<Long> all =
        setting.kind() == Kind.JUNCTION
            ? List.of(Extension.answer(setting.kind(), points(taken), over))
            : answers;
    return Optional.of(Extension.brief(setting, all, over));
  }

  private static List<Raw> points(Taken taken) {
    return taken instanceof Taken.Measured measured
        ? measured.points()
        : taken instanceof Taken.OverRange over ? over.points() : List.of();
  }

  /** A point in the units of the protocol. */
  static Raw raw(Reading.Point point) {
    return points(Results.taken(new Reading.Measured(0, List.of(point)), StepRefusal.KIND)).get(0);
  }
}

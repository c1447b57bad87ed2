package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Terminal;
import org.jointwalk.protocol.Touch;
import org.jointwalk.protocol.WireStep;

/**
 * Ceilings and refusals: section 11. What is asked for here is to be refused; what is taken stays
 * at 0.9 V with 10 microamperes, and 0.3 V after that proof. Stateless.
 */
final class CeilingChecks {

  private static final int MILLIVOLT = 100_000;
  private static final int MILLIAMP = 10_000_000;
  private static final int MOST_CHANNELS = 65_535;
  private static final int LONG = 600_000;

  private CeilingChecks() {}

  static List<Check> all() {
    return List.of(
        new Check(
            "M55", "a step over a ceiling is refused, and the run goes on", CeilingChecks::over),
        new Check("M56", "a junction gets no more than its net bears", CeilingChecks::nominal),
        new Check("M57", "the source is on for a bounded time", CeilingChecks::time),
        new Check("M58", "more than 200 mV needs a proof", CeilingChecks::proof),
        new Check("M59", "what cannot be closed is refused", CeilingChecks::closing),
        new Check("M60", "nothing raises voltage or current", CeilingChecks::raised),
        new Check("M93", "a lie in the declaration does not reach far", CeilingChecks::lie));
  }

  /** What a step asks for, and what it is refused for. */
  private record Asked(Kind kind, StepRefusal reason, int volt, long dwell, List<Integer> amps) {

    Streamed.Setting setting(Talk talk) {
      return Engine.setting(talk, kind, 1, 1, volt, dwell, amps.toArray(Integer[]::new));
    }

    @Override
    public String toString() {
      return "a step of "
          + kind
          + " with "
          + volt / (double) MILLIVOLT
          + " mV, "
          + amps.stream().map(amp -> amp / (double) MILLIAMP).toList()
          + " mA, "
          + dwell
          + " us";
    }
  }

  private static Asked volt(Kind kind, int millivolt, Integer... amps) {
    return new Asked(kind, StepRefusal.VOLTAGE, millivolt * MILLIVOLT, 0, List.of(amps));
  }

  private static Asked amp(Kind kind, int millivolt, int amp) {
    return new Asked(kind, StepRefusal.CURRENT, millivolt * MILLIVOLT, 0, List.of(amp));
  }

  private static Asked dwell(Kind kind, long micros, Integer... amps) {
    return new Asked(kind, StepRefusal.TIME, 0, micros, List.of(amps));
  }

  /** Each is refused for its reason, and the fixture goes on. */
  private static String refused(Talk talk, List<Asked> all) throws Breach, Untestable, IOException {
    int looked = 0;
    for (Asked asked : all) {
      if (talk.able().range(asked.kind()).isPresent()) {
        refused(talk, asked.setting(talk), Engine.step(talk, 0), asked.reason(), asked.toString());
        looked++;
      }
    }
    if (looked == 0) {
      throw new Untestable("the fixture measures no such step");
    }
    return looked + " steps";
  }

  private static void refused(
      Talk talk, Streamed.Setting setting, WireStep step, StepRefusal reason, String what)
      throws Breach, IOException {
    Taken taken = Engine.take(talk, setting, step);
    require(
        taken.equals(new Taken.Refused(reason.code())),
        what + " was " + StepChecks.words(taken) + " instead of refused with " + reason);
  }

  private static void declare(Talk talk, Touch touch) throws Breach, IOException {
    talk.declare(talk.able().all(touch));
  }

  private static String over(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    declare(talk, Able.touch(Touch.Kind.SIGNAL));
    List<Asked> signals = new ArrayList<>();
    signals.add(volt(Kind.LOW_LEVEL, 21, MILLIAMP));
    signals.add(volt(Kind.NORMAL_LEVEL, 51, MILLIAMP));
    signals.add(volt(Kind.ISOLATION, 51));
    signals.add(volt(Kind.JUNCTION, 1_001, MILLIAMP / 10));
    signals.add(volt(Kind.CHARGE, 151));
    signals.add(amp(Kind.LOW_LEVEL, 20, 11 * MILLIAMP));
    signals.add(amp(Kind.NORMAL_LEVEL, 50, 11 * MILLIAMP));
    signals.add(amp(Kind.JUNCTION, 500, MILLIAMP + 1));
    String seen = refused(talk, signals);
    declare(talk, Able.touch(Touch.Kind.GROUND));
    refused(
        talk,
        List.of(
            volt(Kind.LOW_LEVEL, 22, MILLIAMP),
            volt(Kind.NORMAL_LEVEL, 201, MILLIAMP),
            volt(Kind.ISOLATION, 201)));
    declare(talk, new Touch(Touch.Kind.SIGNAL, false, true, 0));
    refused(talk, List.of(amp(Kind.JUNCTION, 500, MILLIAMP / 5 + 1)));
    mixed(talk);
    goesOn(talk);
    return seen + " and more";
  }

  /** One signal among grounds lowers the ceiling, wherever in the step it is. */
  private static void mixed(Talk talk) throws Breach, Untestable, IOException {
    if (talk.able().range(Kind.NORMAL_LEVEL).isEmpty()) {
      return;
    }
    Able able = talk.able();
    talk.declare(able.both(Able.touch(Touch.Kind.GROUND), Able.touch(Touch.Kind.SIGNAL)));
    Streamed.Setting more = Engine.single(talk, Kind.NORMAL_LEVEL, 60 * MILLIVOLT, MILLIAMP);
    String what = "60 mV with a signal on ";
    refused(
        talk,
        more,
        Engine.step(0, able.high(), able.beside()),
        StepRefusal.VOLTAGE,
        what + "force");
    WireStep sensed =
        new WireStep(
            0,
            false,
            new Terminal.Channel(able.high()),
            new Terminal.Channel(able.low()),
            new Terminal.Channel(able.beside()),
            new Terminal.Nothing());
    refused(talk, more, sensed, StepRefusal.VOLTAGE, what + "sense");
  }

  /** A run in which the first step is refused takes the second. */
  private static void goesOn(Talk talk) throws Breach, Untestable, IOException {
    Engine.begin(talk, 0, 2, 2);
    talk.stream(
        new Streamed.Steps(
            talk.run(),
            0,
            List.of(Engine.step(0, talk.able().high(), talk.able().high()), Engine.step(talk, 0))));
    List<Taken> taken = Engine.toEnd(talk).taken();
    require(
        taken.size() == 2
            && taken.get(0) instanceof Taken.Refused
            && !(taken.get(1) instanceof Taken.Refused),
        "after a refused step the run had " + taken.stream().map(StepChecks::words).toList());
  }

  private static String nominal(Talk talk) throws Breach, Untestable, IOException {
    talk.able().require(Kind.JUNCTION);
    talk.open();
    declare(talk, new Touch(Touch.Kind.SIGNAL, false, false, 600 * MILLIVOLT));
    refused(talk, List.of(volt(Kind.JUNCTION, 610, MILLIAMP / 10)));
    Streamed.Setting allowed = Engine.single(talk, Kind.JUNCTION, 590 * MILLIVOLT, MILLIAMP / 100);
    Taken taken = Engine.take(talk, allowed, Engine.step(talk, 0));
    require(
        !(taken instanceof Taken.Refused),
        "a junction step below the nominal voltage was " + StepChecks.words(taken));
    Touch low = new Touch(Touch.Kind.SIGNAL, false, false, 400 * MILLIVOLT);
    talk.declare(talk.able().both(Able.touch(Touch.Kind.GROUND), low));
    refused(
        talk,
        Engine.single(talk, Kind.JUNCTION, 450 * MILLIVOLT, MILLIAMP / 100),
        Engine.step(0, talk.able().high(), talk.able().beside()),
        StepRefusal.VOLTAGE,
        "450 mV at a net of 400 mV and ground");
    Touch other = new Touch(Touch.Kind.SIGNAL, false, false, 800 * MILLIVOLT);
    for (List<Touch> two : List.of(List.of(low, other), List.of(other, low))) {
      talk.declare(talk.able().both(two.get(0), two.get(1)));
      refused(
          talk,
          Engine.single(talk, Kind.JUNCTION, 600 * MILLIVOLT, MILLIAMP / 100),
          Engine.step(0, talk.able().high(), talk.able().beside()),
          StepRefusal.VOLTAGE,
          "600 mV between nets of 400 and 800 mV");
    }
    return "";
  }

  private static String time(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    declare(talk, Able.touch(Touch.Kind.SIGNAL));
    int most = Math.min(20, talk.welcome().points());
    Range range = talk.able().range(Kind.ISOLATION).orElse(null);
    if (range != null && most > 1 && most * range.seconds() < 0.5) {
      long dwell = 500_000 - Math.round((most - 0.5) * range.seconds() * 1e6);
      Streamed.Setting samples = Engine.setting(talk, Kind.ISOLATION, most, most, 0, dwell);
      String what = most + " points and a dwell that together take more than 500 ms";
      refused(talk, samples, Engine.step(talk, 0), StepRefusal.TIME, what);
    }
    return refused(
        talk,
        List.of(
            dwell(Kind.LOW_LEVEL, LONG, MILLIAMP),
            dwell(Kind.NORMAL_LEVEL, LONG, MILLIAMP),
            dwell(Kind.ISOLATION, LONG),
            dwell(Kind.CHARGE, LONG),
            dwell(Kind.JUNCTION, 20_001, MILLIAMP / 100),
            dwell(Kind.RESIDUAL, 10_000_001),
            dwell(Kind.DISCHARGE, 10_000_001)));
  }

  private static boolean canProve(Talk talk) {
    Range junction = talk.able().range(Kind.JUNCTION).orElse(null);
    Range isolation = talk.able().range(Kind.ISOLATION).orElse(null);
    return junction != null
        && isolation != null
        && junction.compliance().value() >= 0.9
        && isolation.compliance().value() >= 0.3
        && isolation.current().value() <= 0.010_000_001;
  }

  private static String proof(Talk talk) throws Breach, Untestable, IOException {
    if (!canProve(talk)) {
      throw new Untestable("the fixture cannot drive 0.3 V at isolation, or 0.9 V at a junction");
    }
    talk.open();
    Touch bare = Able.touch(Touch.Kind.BARE);
    declare(talk, bare);
    Streamed.Setting more = Engine.single(talk, Kind.ISOLATION, 300 * MILLIVOLT);
    String what = "isolation at 300 mV without a proof";
    refused(talk, more, Engine.step(talk, 0), StepRefusal.NOT_BARE, what);
    Streamed.Setting look = Engine.single(talk, Kind.JUNCTION, 900 * MILLIVOLT, MILLIAMP / 100);
    Engine.take(talk, look, Engine.step(talk, 0));
    Taken taken = Engine.take(talk, more, Engine.step(talk, 0));
    require(
        taken instanceof Taken.Measured,
        "isolation at 300 mV after a proof was " + StepChecks.words(taken));
    int third = talk.able().beside();
    refused(
        talk,
        more,
        Engine.step(0, talk.able().high(), third),
        StepRefusal.NOT_BARE,
        "isolation at 300 mV with the proof of one side");
    declare(talk, bare);
    refused(talk, more, Engine.step(talk, 0), StepRefusal.NOT_BARE, what + " since DECLARE");
    List<Streamed.Setting> weak =
        List.of(
            Engine.single(talk, Kind.JUNCTION, 800 * MILLIVOLT, MILLIAMP / 100),
            Engine.single(talk, Kind.JUNCTION, 900 * MILLIVOLT, MILLIAMP / 50));
    for (Streamed.Setting look2 : weak) {
      Engine.take(talk, look2, Engine.step(talk, 0));
      refused(talk, more, Engine.step(talk, 0), StepRefusal.NOT_BARE, what + " that is one");
    }
    return "";
  }

  private static String closing(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    declare(talk, Able.touch(Touch.Kind.SIGNAL));
    Able able = talk.able();
    Streamed.Setting quiet = Engine.quietSetting(talk);
    if (able.channels() < MOST_CHANNELS) {
      refused(
          talk,
          quiet,
          Engine.step(0, able.high(), able.channels()),
          StepRefusal.CHANNEL,
          "a channel that is not there");
    }
    refused(
        talk,
        quiet,
        Engine.step(0, able.high(), able.high()),
        StepRefusal.TWICE,
        "one channel on both sides");
    Terminal one = new Terminal.Channel(able.high());
    Terminal other = new Terminal.Channel(able.low());
    refused(
        talk,
        quiet,
        new WireStep(0, false, one, other, one, one),
        StepRefusal.TWICE,
        "one channel on both sense terminals");
    Terminal none = new Terminal.Nothing();
    WireStep half = new WireStep(0, false, new Terminal.Channel(able.high()), none, none, none);
    refused(talk, quiet, half, StepRefusal.TERMINAL, "a step without force-low");
    refused(
        talk, quiet, Engine.step(talk, 1), StepRefusal.SETTING, "a setting that was never filled");
    if (able.range(Kind.ALL_OPEN).isPresent()) {
      refused(
          talk,
          Engine.single(talk, Kind.ALL_OPEN, 0),
          Engine.step(talk, 0),
          StepRefusal.TERMINAL,
          "all open with two channels");
    }
    for (Kind kind : Kind.values()) {
      if (able.range(kind).isEmpty()) {
        refused(
            talk,
            StepChecks.gentle(talk, kind, 1, 1),
            StepChecks.step(talk, kind),
            StepRefusal.KIND,
            "a step of " + kind + ", for which there is no range,");
      }
    }
    if (talk.welcome().sets() > 0) {
      WireStep unfilled =
          new WireStep(
              0, false, new Terminal.Group(0), new Terminal.Channel(able.low()), none, none);
      refused(talk, quiet, unfilled, StepRefusal.SET, "a set that was never filled");
    }
    return "";
  }

  private static String raised(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    declare(talk, Able.touch(Touch.Kind.GROUND));
    int above = (int) Math.min(Integer.MAX_VALUE, talk.welcome().clamp() + 10L * MILLIVOLT);
    List<Asked> all = new ArrayList<>();
    all.add(amp(Kind.LOW_LEVEL, 20, 101 * MILLIAMP));
    all.add(amp(Kind.NORMAL_LEVEL, 20, 150 * MILLIAMP));
    all.add(amp(Kind.JUNCTION, 20, 102 * MILLIAMP));
    all.add(new Asked(Kind.JUNCTION, StepRefusal.VOLTAGE, above, 0, List.of(MILLIAMP / 100)));
    all.add(new Asked(Kind.ISOLATION, StepRefusal.VOLTAGE, above, 0, List.of()));
    return refused(talk, all);
  }

  private static String lie(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    declare(talk, Able.touch(Touch.Kind.BARE));
    return refused(
        talk,
        List.of(
            volt(Kind.NORMAL_LEVEL, 202, MILLIAMP),
            amp(Kind.NORMAL_LEVEL, 200, 103 * MILLIAMP),
            volt(Kind.JUNCTION, 1_002, MILLIAMP / 10),
            amp(Kind.JUNCTION, 900, MILLIAMP + 2),
            volt(Kind.ISOLATION, 5_001),
            volt(Kind.CHARGE, 152)));
  }
}

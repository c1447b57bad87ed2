package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Kind;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Terminal;
import org.jointwalk.protocol.Touch;
import org.jointwalk.protocol.WireStep;

/** Programs and runs that the checks share. Stateless. */
final class Engine {

  private static final long PATIENCE_MILLIS = 20_000;
  private static final long TURN_MILLIS = 50;
  private static final int A_FRAME = 38;

  private Engine() {}

  /**
   * What came of a run.
   *
   * @param end of it
   * @param taken results in order
   * @param came notices in order
   */
  record Ran(Account end, List<Taken> taken, List<Came> came) {

    <T extends Notice> List<T> told(Class<T> kind) {
      return came.stream().map(Came::message).filter(kind::isInstance).map(kind::cast).toList();
    }
  }

  /** A kind of step that sources nothing, or what comes nearest. */
  static Kind quiet(Talk talk) throws Untestable {
    for (Kind kind : List.of(Kind.RESIDUAL, Kind.RESIDUAL_LOADED, Kind.ISOLATION)) {
      if (talk.able().range(kind).isPresent()) {
        return kind;
      }
    }
    throw new Untestable("the fixture measures no residual voltage and no isolation");
  }

  /** A setting in slot 0 that takes one point. */
  static Streamed.Setting single(Talk talk, Kind kind, int volt, Integer... amps) {
    return setting(talk, kind, 1, 1, volt, 0, amps);
  }

  static Streamed.Setting setting(
      Talk talk, Kind kind, int samples, int most, int volt, long dwell, Integer... amps) {
    return new Streamed.Setting(
        talk.run(), 0, kind, false, samples, most, volt, List.of(amps), dwell, 0, 0, 0, List.of());
  }

  /** The quiet setting. */
  static Streamed.Setting quietSetting(Talk talk) throws Untestable {
    return single(talk, quiet(talk), 0);
  }

  static Streamed.Setting in(Streamed.Setting setting, int slot) {
    return new Streamed.Setting(
        setting.run(),
        slot,
        setting.kind(),
        setting.brief(),
        setting.samples(),
        setting.most(),
        setting.voltage(),
        setting.currents(),
        setting.dwell(),
        setting.limit(),
        setting.below(),
        setting.above(),
        setting.items());
  }

  /** A step between the two channels, with the setting in a slot. */
  static WireStep step(Talk talk, int slot) {
    return step(slot, talk.able().high(), talk.able().low());
  }

  static WireStep step(int slot, int high, int low) {
    Terminal none = new Terminal.Nothing();
    return new WireStep(
        slot, false, new Terminal.Channel(high), new Terminal.Channel(low), none, none);
  }

  static Streamed.Steps steps(Talk talk, long first, int count) {
    return new Streamed.Steps(talk.run(), first, Collections.nCopies(count, step(talk, 0)));
  }

  /** A session in which the three channels touch signals, as on a board with nothing known. */
  static void signals(Talk talk) throws Breach, IOException {
    talk.declare(talk.able().all(Able.touch(Touch.Kind.SIGNAL)));
  }

  /** Begins a run of so many steps with the quiet setting filled, and waits until that is heard. */
  static void begin(Talk talk, long first, int count, long credit)
      throws Breach, Untestable, IOException {
    talk.begin(first, count, credit);
    talk.stream(quietSetting(talk));
    heard(talk);
  }

  /** Waits until the last streamed frame is heard; what came stays. */
  static void heard(Talk talk) throws Breach, IOException {
    int number = talk.streamed();
    for (int i = 0; i < 8; i++) {
      if (talk.status().account().heard() == number) {
        return;
      }
      talk.await(came -> false, 25);
    }
    throw new Breach("streamed frame " + number + " was not heard in 0.2 s");
  }

  /** Takes single steps, each with a setting of its own, and gives their results. */
  static List<Taken> take(Talk talk, List<Streamed.Setting> settings, List<WireStep> steps)
      throws Breach, IOException {
    List<Taken> taken = new ArrayList<>();
    for (int i = 0; i < settings.size(); i++) {
      talk.begin(0, 1, 1);
      Streamed.Setting setting = settings.get(i);
      RawFrame frame = talk.streamed(setting).with32(0, talk.run());
      talk.send(frame);
      talk.stream(new Streamed.Steps(talk.run(), 0, List.of(steps.get(i))));
      Ran ran = toEnd(talk);
      require(ran.end().end() == RunEnd.DONE.code(), "a run of one step " + ended(ran.end()));
      require(ran.taken().size() == 1, "a run of one step with " + ran.taken().size() + " results");
      taken.addAll(ran.taken());
    }
    return taken;
  }

  static Taken take(Talk talk, Streamed.Setting setting, WireStep step) throws Breach, IOException {
    return take(talk, List.of(setting), List.of(step)).get(0);
  }

  static String ended(Account account) {
    return "ended "
        + RunEnd.of(account.end()).map(Enum::name).orElse("with code " + account.end())
        + (account.detail() == 0 ? "" : " (" + account.detail() + ")");
  }

  /** Keeps the fixture company until END. */
  static Ran toEnd(Talk talk) throws Breach, IOException {
    List<Came> came = new ArrayList<>();
    List<Taken> taken = new ArrayList<>();
    long until = talk.nanos() + PATIENCE_MILLIS * 1_000_000;
    while (talk.nanos() < until) {
      talk.keepAlive();
      Optional<Came> notice = next(talk, TURN_MILLIS);
      if (notice.isEmpty()) {
        continue;
      }
      came.add(notice.get());
      if (notice.get().message() instanceof Notice.Results results) {
        taken.addAll(results.results());
      } else if (notice.get().message() instanceof Notice.End end) {
        return new Ran(end.account(), taken, came);
      }
    }
    throw new Breach("the run did not end in " + PATIENCE_MILLIS / 1000 + " s");
  }

  private static Optional<Came> next(Talk talk, long millis) throws IOException {
    long run = talk.run();
    return talk.await(
        one ->
            (one.message() instanceof Notice.Recorded record && record.run() == run)
                || (one.message() instanceof Notice.Heard heard && heard.run() == run),
        millis);
  }

  /** Sends a streamed frame that ends the run, and asks with which fault. */
  static void fault(Talk talk, RawFrame bad, ProgramFault fault, String what)
      throws Breach, IOException {
    talk.send(bad);
    Ran ran = toEnd(talk);
    require(
        ran.end().end() == RunEnd.BAD_PROGRAM.code() && ran.end().detail() == fault.code(),
        what + ": the run " + ended(ran.end()) + " instead of BAD_PROGRAM (" + fault.code() + ")");
  }

  /** Takes so many quiet steps from index 0 on, refilling the program as room comes. */
  static Ran many(Talk talk, int count) throws Breach, Untestable, IOException {
    begin(talk, 0, count, count);
    int room = talk.welcome().steps();
    List<Came> came = new ArrayList<>();
    List<Taken> taken = new ArrayList<>();
    int loaded = 0;
    boolean unheard = false;
    long until = talk.nanos() + PATIENCE_MILLIS * 1_000_000;
    while (talk.nanos() < until) {
      int more = Math.min(Math.min(A_FRAME, count - loaded), room - (loaded - taken.size()));
      if (!unheard && more > 0) {
        talk.stream(steps(talk, loaded, more));
        loaded += more;
        unheard = true;
      }
      talk.keepAlive();
      Optional<Came> notice = next(talk, TURN_MILLIS);
      if (notice.isEmpty()) {
        continue;
      }
      came.add(notice.get());
      if (notice.get().message() instanceof Notice.Heard heard) {
        unheard &= heard.heard() != talk.streamed();
      } else if (notice.get().message() instanceof Notice.Recorded record) {
        unheard &= record.heard() != talk.streamed();
        if (record instanceof Notice.Results results) {
          taken.addAll(results.results());
        } else if (record instanceof Notice.End end) {
          return new Ran(end.account(), taken, came);
        }
      }
    }
    throw new Breach(
        "a run of " + count + " steps did not end in " + PATIENCE_MILLIS / 1000 + " s");
  }

  /** Stops whatever runs. */
  static void stop(Talk talk) throws Breach, IOException {
    talk.ask(new Request.Stop());
  }
}

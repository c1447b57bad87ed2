package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;
import static org.jointwalk.conform.Check.watched;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Kind;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Extension;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.WireStep;

/** Results and bus checks: section 13. Stateless. */
final class ResultChecks {

  private static final int CONFIGURATIONS = 64;
  private static final int MANY = 150;
  private static final long HELD_BACK_MILLIS = 20;

  /** What a line adds to every frame: its bits at 115,200 baud and an adapter's 16 ms. */
  private static final long HABIT_MILLIS = 30;

  private static final long TICK_MILLIS = 300;
  private static final int TRICKLE = 60;
  private static final long DWELL_MICROS = 3_000;

  private ResultChecks() {}

  static List<Check> all() {
    return List.of(
        watched("M73", "records come in order, each once"),
        new Check("M75", "no result is held back for more than 20 ms", ResultChecks::held),
        new Check("M76", "a brief step yields its two bits", ResultChecks::brief),
        new Check("M77", "the buses are checked every 64 configurations", ResultChecks::checks),
        watched("M78", "more than 10 microsiemens are called bad, no less"));
  }

  /** The fixture's clock of a moment here, known to half of the shortest way there and back. */
  private record Clocks(long nanos, long micros, long doubt) {

    static Clocks of(Talk talk) throws Breach, IOException {
      Clocks best = new Clocks(0, 0, Long.MAX_VALUE);
      for (int i = 0; i < 5; i++) {
        RawFrame status = talk.next(new Request.Status());
        long before = talk.nanos();
        Came came = talk.answer(status);
        long way = (came.nanos() - before) / 1000;
        if (way < best.doubt() && came.message() instanceof Answer.State state) {
          best = new Clocks(came.nanos(), state.clock(), way);
        }
      }
      return best;
    }

    /** Milliseconds from a moment of the fixture to one here, at least. */
    long millis(long clock, long at) {
      int fixture = (int) (clock - micros);
      long here = (at - nanos) / 1000;
      return (here - fixture - doubt) / 1000;
    }
  }

  private static String held(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Clocks clocks = Clocks.of(talk);
    ticks(talk);
    long most = 0;
    long least = Long.MAX_VALUE;
    for (int round = 0; round < 4; round++) {
      Engine.begin(talk, 0, 8, 8);
      talk.stream(Engine.steps(talk, 0, 3));
      Optional<Came> came = talk.await(c -> c.message() instanceof Notice.Results, 1_000);
      require(came.isPresent(), "no result of three steps in a second");
      Notice.Results results = (Notice.Results) came.get().message();
      long waited = clocks.millis(results.span().at(), came.get().nanos());
      require(
          waited <= HELD_BACK_MILLIS + Talk.SLACK_MILLIS,
          "a result came " + waited + " ms after its step");
      most = Math.max(most, waited);
      least = Math.min(least, waited);
      Engine.stop(talk);
    }
    // A slow line or a busy computer is late now and then, a fixture that waits is late each time.
    require(
        least <= HELD_BACK_MILLIS + HABIT_MILLIS, "results come " + least + " ms late each time");
    most = Math.max(most, trickling(talk, clocks));
    return "at most " + most + " ms";
  }

  /** The fixture's clock counts microseconds. */
  private static void ticks(Talk talk) throws Breach, IOException {
    long before = talk.nanos();
    long from = talk.status().clock();
    long asked = talk.nanos();
    talk.listen(TICK_MILLIS);
    long after = talk.nanos();
    int micros = (int) (talk.status().clock() - from);
    long least = (after - asked) / 1000;
    long most = (talk.nanos() - before) / 1000;
    // One in fifty is far more than any oscillator is off.
    require(
        micros >= least - least / 50 && micros <= most + most / 50,
        "the clock went on by " + micros + " in " + least + " to " + most + " microseconds");
  }

  /** Steps that end one by one: the time of the first one counts, not that of the last. */
  private static long trickling(Talk talk, Clocks clocks) throws Breach, Untestable, IOException {
    Streamed.Setting slow =
        Engine.setting(talk, Engine.quiet(talk), 1, 1, 0, Long.valueOf(DWELL_MICROS));
    long began = talk.begin(0, TRICKLE, TRICKLE).clock();
    long took = 0;
    boolean any = false;
    talk.send(talk.streamed(slow).with32(0, talk.run()));
    talk.stream(Engine.steps(talk, 0, TRICKLE / 2));
    talk.stream(Engine.steps(talk, TRICKLE / 2, TRICKLE - TRICKLE / 2));
    long most = 0;
    for (Came came : Engine.toEnd(talk).came()) {
      if (came.message() instanceof Notice.Results results) {
        took += results.span().took();
        int ran = (int) (results.span().at() - results.span().took() - began);
        require(
            any || ran >= 0, "the first results began " + -ran + " microseconds before the run");
        any = true;
      }
      if (came.message() instanceof Notice.Results results && results.results().size() > 1) {
        // The first of a frame ended about as long before the last as all of them took.
        long first =
            results.span().took() * (results.results().size() - 1) / results.results().size();
        // Both ends of this are the fixture's own, so that no line is to be allowed for.
        require(
            first / 1000 <= HELD_BACK_MILLIS + 2 * DWELL_MICROS / 1000,
            "a frame of results spans " + first / 1000 + " ms");
        most = Math.max(most, clocks.millis(results.span().at(), came.nanos()) + first / 1000);
      }
    }
    require(
        most <= HELD_BACK_MILLIS + Talk.SLACK_MILLIS,
        "of steps that end one by one, a result waited " + most + " ms");
    require(
        took >= TRICKLE * DWELL_MICROS,
        TRICKLE + " steps with " + DWELL_MICROS + " microseconds each took " + took + " in all");
    return most;
  }

  private static String brief(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Kind kind = Engine.quiet(talk);
    Streamed.Setting plain = Engine.setting(talk, kind, 1, 1, 0, 0);
    Taken taken = Engine.take(talk, plain, Engine.step(talk, 0));
    List<Raw> points = StepChecks.points(taken);
    require(points.size() == 1, "a quiet step was " + StepChecks.words(taken));
    long answer = Extension.answer(kind, points, taken instanceof Taken.OverRange);
    long margin = 1_000_000;
    List<Notice.Brief> due = new ArrayList<>();
    List<Streamed.Setting> settings = new ArrayList<>();
    if (answer + margin <= 0xFFFF_FFFFL) {
      settings.add(ruled(talk, kind, answer + margin, margin / 2, margin / 2));
      due.add(Notice.Brief.BELOW);
    }
    if (answer >= margin) {
      settings.add(ruled(talk, kind, answer - margin, margin / 2, margin / 2));
      due.add(Notice.Brief.ABOVE);
    }
    settings.add(ruled(talk, kind, answer, 4 * margin, 4 * margin));
    due.add(Notice.Brief.UNDECIDED);
    settings.add(ruled(talk, kind, 0, 0xFFFF_FFFFL, 0));
    due.add(Notice.Brief.ABOVE);
    for (int i = 0; i < due.size(); i++) {
      Engine.Ran ran = bits(talk, settings.get(i), Engine.step(talk, 0));
      require(
          answers(ran).equals(List.of(due.get(i))),
          "a brief step that is to say " + due.get(i) + " says " + answers(ran));
    }
    Streamed.Setting any = ruled(talk, kind, 0, 0, 0);
    Engine.Ran refused = bits(talk, any, Engine.step(0, talk.able().high(), talk.able().high()));
    require(
        answers(refused).equals(List.of(Notice.Brief.REFUSED)),
        "a refused brief step says " + answers(refused));
    mixed(talk, any, plain);
    return "";
  }

  private static Streamed.Setting ruled(Talk talk, Kind kind, long limit, long below, long above) {
    return new Streamed.Setting(
        talk.run(), 0, kind, true, 1, 1, 0, List.of(), 0, limit, below, above, List.of());
  }

  private static List<Notice.Brief> answers(Engine.Ran ran) {
    return ran.told(Notice.Bits.class).stream().flatMap(b -> b.answers().stream()).toList();
  }

  private static Engine.Ran bits(Talk talk, Streamed.Setting setting, WireStep step)
      throws Breach, IOException {
    talk.begin(0, 1, 1);
    talk.send(talk.streamed(setting).with32(0, talk.run()));
    talk.stream(new Streamed.Steps(talk.run(), 0, List.of(step)));
    return Engine.toEnd(talk);
  }

  /** Brief and other steps in one run keep to frames of their own. */
  private static void mixed(Talk talk, Streamed.Setting brief, Streamed.Setting plain)
      throws Breach, IOException {
    talk.begin(0, 3, 3);
    talk.send(talk.streamed(brief).with32(0, talk.run()));
    talk.send(talk.streamed(Engine.in(plain, 1)).with32(0, talk.run()));
    talk.stream(
        new Streamed.Steps(
            talk.run(),
            0,
            List.of(Engine.step(talk, 0), Engine.step(talk, 1), Engine.step(talk, 0))));
    Engine.Ran ran = Engine.toEnd(talk);
    require(
        answers(ran).size() == 2 && ran.taken().size() == 1,
        "of two brief steps and another came "
            + answers(ran).size()
            + " answers and "
            + ran.taken().size()
            + " results");
  }

  private static String checks(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    long began = talk.nanos();
    Engine.Ran ran = Engine.many(talk, MANY);
    long micros = Math.max(1, (talk.nanos() - began) / 1000);
    List<Long> upto = ran.told(Notice.Check.class).stream().map(Notice.Check::upto).toList();
    require(!upto.isEmpty() && upto.get(0) == 0, "a run does not begin with a bus check: " + upto);
    require(upto.get(upto.size() - 1) == MANY, "a run does not end with a bus check: " + upto);
    for (int i = 1; i < upto.size(); i++) {
      require(
          upto.get(i) - upto.get(i - 1) <= CONFIGURATIONS,
          "more than " + CONFIGURATIONS + " configurations between two bus checks: " + upto);
    }
    Engine.begin(talk, 0, 10, 2);
    talk.stream(Engine.steps(talk, 0, 10));
    talk.await(came -> came.message() instanceof Notice.Results, 400);
    talk.listen(60);
    talk.send(talk.next(new Request.Stop()));
    require(
        Engine.toEnd(talk).told(Notice.Check.class).stream().anyMatch(c -> c.upto() == 2),
        "a stopped run has no closing bus check");
    return MANY
        + " steps in "
        + micros / 1000
        + " ms, "
        + Math.round(MANY * 1e6 / micros)
        + " results a second";
  }
}

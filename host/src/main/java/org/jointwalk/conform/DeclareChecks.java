package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.List;
import java.util.Set;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Terminal;
import org.jointwalk.protocol.Touch;
import org.jointwalk.protocol.WireStep;

/** What is clamped: section 9. Stateless. */
final class DeclareChecks {

  private static final int MOST_CHANNELS = 65_535;

  private DeclareChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M38", "DECLARE begins anew, CHANNELS puts in place", DeclareChecks::places),
        new Check("M39", "a class has to fit the parts", DeclareChecks::classes),
        new Check("M40", "nothing is declared at the wrong time", DeclareChecks::time),
        new Check("M41", "DECLARED has the check over what is held", DeclareChecks::check),
        new Check("M42", "a new session forgets the declaration", DeclareChecks::forgotten),
        new Check("M43", "a channel in place 0 is never closed", DeclareChecks::undeclared));
  }

  private static String places(Talk talk) throws Breach, IOException {
    talk.open();
    Engine.signals(talk);
    talk.refusal(new Request.Channels(0, List.of(2)), Refusal.BAD_VALUE);
    int channels = talk.able().channels();
    if (channels < MOST_CHANNELS - 1) {
      int even = channels & ~1;
      List<Integer> beyond = channels == even ? List.of(1) : List.of(0, 1);
      talk.refusal(new Request.Channels(even, beyond), Refusal.BAD_VALUE);
    }
    Declaration begun =
        Declaration.begun(Able.declare(List.of(Able.touch(Touch.Kind.RAIL))), channels);
    talk.declare(begun);
    talk.begin(0, 1, 0);
    Engine.stop(talk);
    return "";
  }

  private static RawFrame classed(Talk talk, int present, int... touch) {
    return talk.next(Able.declare(List.of())).with(0, present).with(6 + 1, 1).plus(touch);
  }

  private static String classes(Talk talk) throws Breach, IOException {
    talk.open();
    int board = 2;
    int empty = 0;
    talk.refusal(classed(talk, board, 4, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    talk.refusal(classed(talk, empty, 1, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    talk.refusal(classed(talk, empty, 3, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    talk.refusal(classed(talk, board, 9, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    talk.refusal(classed(talk, board, 2, 0, 0xFF, 0xFF, 0xFF, 0xFF), Refusal.BAD_VALUE);
    Answer fits = (Answer) talk.answer(classed(talk, board, 2, 0, 1, 0, 0, 0)).message();
    require(fits instanceof Answer.Declared, "a rail of a board was " + Able.words(fits));
    int upper = 1;
    talk.refusal(classed(talk, upper, 4, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    int interposer = 4;
    talk.refusal(classed(talk, interposer, 3, 0, 0, 0, 0, 0), Refusal.BAD_VALUE);
    Answer bare = (Answer) talk.answer(classed(talk, interposer, 4, 0, 0, 0, 0, 0)).message();
    require(
        bare instanceof Answer.Declared, "an interposer without a board was " + Able.words(bare));
    return "";
  }

  private static String time(Talk talk) throws Breach, IOException {
    talk.open();
    talk.refusal(new Request.Channels(0, List.of(0)), Refusal.NOT_DECLARED);
    Engine.signals(talk);
    talk.begin(0, 1, 0);
    talk.refusal(Able.declare(List.of()), Refusal.RUN_UNDER_WAY);
    talk.refusal(new Request.Channels(0, List.of(0)), Refusal.RUN_UNDER_WAY);
    Engine.stop(talk);
    return "";
  }

  private static String check(Talk talk) throws Breach, IOException {
    talk.open();
    Touch touch = new Touch(Touch.Kind.SIGNAL, true, true, 1_234_567);
    Declaration wanted = talk.able().all(touch);
    Declaration held = Declaration.begun(wanted.declare(), talk.able().channels());
    for (Request request : wanted.requests()) {
      if (request instanceof Request.Channels channels) {
        held = held.with(channels).orElse(held);
      }
      Answer answer = talk.ask(request);
      require(
          answer instanceof Answer.Declared declared && declared.declaration() == held.check(),
          "the check that answers " + Able.name(request.type()) + " is not that of 9.3");
    }
    return "";
  }

  private static String forgotten(Talk talk) throws Breach, IOException {
    talk.open();
    Declaration signals = talk.able().all(Able.touch(Touch.Kind.SIGNAL));
    talk.declare(signals);
    talk.open();
    talk.refusal(new Request.Run(77, 0, 1, 0, signals.check()), Refusal.NOT_DECLARED);
    return "the lid was not looked at";
  }

  private static String undeclared(Talk talk) throws Breach, Untestable, IOException {
    Able able = talk.able();
    talk.open();
    talk.declare(able.touching(Able.touch(Touch.Kind.SIGNAL), Set.of(able.high())));
    refused(talk, Engine.step(talk, 0));
    talk.declare(able.touching(Able.touch(Touch.Kind.SIGNAL), Set.of(able.high(), able.low())));
    WireStep sensed =
        new WireStep(
            0,
            false,
            new Terminal.Channel(able.high()),
            new Terminal.Channel(able.low()),
            new Terminal.Channel(able.beside()),
            new Terminal.Nothing());
    refused(talk, sensed);
    return "";
  }

  private static void refused(Talk talk, WireStep step) throws Breach, Untestable, IOException {
    Taken taken = Engine.take(talk, Engine.quietSetting(talk), step);
    require(
        taken.equals(new Taken.Refused(StepRefusal.UNDECLARED.code())),
        "a step on a channel in place 0 was " + StepChecks.words(taken));
  }
}

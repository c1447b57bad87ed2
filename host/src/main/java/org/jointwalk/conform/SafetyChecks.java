package org.jointwalk.conform;

import static org.jointwalk.conform.Check.hidden;
import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;

/** Safe state, times and hostile input: sections 14, 15 and 19. Stateless. */
final class SafetyChecks {

  private static final long SILENT_MILLIS = 1_200;
  private static final long NOT_BEFORE_MILLIS = 900;
  private static final long EVENT_MILLIS = 50;
  private static final long BY_HAND_MILLIS = 60_000;
  private static final int NO_LID = 2;
  private static final int LID_OPENED = 1;
  private static final int LID_CLOSED = 2;
  private static final int FUZZED = 300;

  private SafetyChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M80", "silence makes it safe in 1.2 s", SafetyChecks::silence),
        new Check("M81", "only frames of the session keep a run alive", SafetyChecks::alive),
        hidden("M82", "all is open without a run", "bytes do not show it: measure at the channels"),
        hidden("M83", "a watchdog resets a hung program", "by hand: hang the main loop"),
        hidden("M84", "after a fault no run begins", "a fault cannot be made from here"),
        new Check("M86", "events are told in 50 ms", SafetyChecks::events),
        new Check("M91", "no bytes make it stop answering", SafetyChecks::hostile),
        new Check("M92", "one frame goes out for one that comes in", SafetyChecks::quiet));
  }

  private static Notice.End end(Optional<Came> came, String what) throws Breach {
    if (came.isPresent() && came.get().message() instanceof Notice.End end) {
      require(
          end.account().end() == RunEnd.HOST_SILENT.code(),
          what + ": the run " + Engine.ended(end.account()));
      return end;
    }
    throw new Breach(what + " for " + 2 * SILENT_MILLIS + " ms, and the run went on");
  }

  private static boolean isEnd(Came came) {
    return came.message() instanceof Notice.End;
  }

  private static String silence(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 2);
    talk.status();
    long last = talk.nanos();
    Optional<Came> came = talk.await(SafetyChecks::isEnd, 2 * SILENT_MILLIS);
    end(came, "the host was silent");
    long took = (came.orElseThrow().nanos() - last) / 1_000_000;
    require(took <= SILENT_MILLIS + Talk.SLACK_MILLIS, "a silent host ended its run after " + took);
    Answer.State state = talk.status();
    require(
        state.doing() == 0 && state.account().end() == RunEnd.HOST_SILENT.code(),
        "after the silence STATE tells of a run that " + Engine.ended(state.account()));
    return "after " + took + " ms; open channels cannot be seen from here";
  }

  private static String alive(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 2);
    for (int i = 0; i < 4; i++) {
      talk.status();
      long last = talk.nanos();
      Optional<Came> early = talk.await(SafetyChecks::isEnd, 800);
      require(
          early.isEmpty(),
          "a run ended " + (talk.nanos() - last) / 1_000_000 + " ms after a frame");
    }
    talk.status();
    long last = talk.nanos();
    Optional<Came> came = Optional.empty();
    while (came.isEmpty() && talk.nanos() - last < 2 * SILENT_MILLIS * 1_000_000) {
      RawFrame status = talk.next(new Request.Status());
      byte[] raw = status.raw();
      raw[raw.length - 1] ^= 1;
      talk.send(RawFrame.wire(raw));
      talk.send(status.as(talk.session() ^ 0x1111, status.number()));
      came = talk.await(SafetyChecks::isEnd, 60);
    }
    end(came, "only damaged frames and those of another session came");
    long took = (came.orElseThrow().nanos() - last) / 1_000_000;
    require(took >= NOT_BEFORE_MILLIS, "a run ended after " + took + " ms of silence");
    require(took <= SILENT_MILLIS + Talk.SLACK_MILLIS, "a run ended only after " + took + " ms");
    return "after " + took + " ms";
  }

  private static String events(Talk talk) throws Breach, Untestable, IOException {
    Answer.Welcome welcome = talk.open();
    if (welcome.lid() == NO_LID) {
      throw new Untestable("the fixture has no lid");
    }
    Optional<Consumer<String>> operator = talk.operator();
    if (operator.isEmpty()) {
      throw new Untestable("nobody was asked to open the lid: use --lid");
    }
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 2);
    operator.get().accept("Open the lid of the empty fixture.");
    Came opened = byHand(talk, LID_OPENED);
    Notice.Event event = (Notice.Event) opened.message();
    require(
        event.count() == (welcome.lidCount() + 1 & 0xFFFF_FFFFL),
        "the lid counter went from " + welcome.lidCount() + " to " + event.count());
    Optional<Came> end = talk.await(SafetyChecks::isEnd, EVENT_MILLIS + Talk.SLACK_MILLIS);
    require(
        end.isPresent()
            && ((Notice.End) end.get().message()).account().end() == RunEnd.LID_OPENED.code(),
        "the lid was opened, and the run did not end with LID_OPENED");
    talk.refusal(Able.declare(List.of()), Refusal.LID_OPEN);
    talk.refusal(talk.another(0, 1, 0), Refusal.LID_OPEN);
    operator.get().accept("Close the lid again.");
    byHand(talk, LID_CLOSED);
    talk.refusal(talk.another(0, 1, 0), Refusal.NOT_DECLARED);
    return "opened and closed once";
  }

  private static Came byHand(Talk talk, int kind) throws Breach, IOException {
    long until = talk.nanos() + BY_HAND_MILLIS * 1_000_000;
    while (talk.nanos() < until) {
      Optional<Came> came =
          talk.await(c -> c.message() instanceof Notice.Event event && event.kind() == kind, 200);
      if (came.isPresent()) {
        return came.get();
      }
      talk.status();
    }
    throw new Breach("no event came in a minute");
  }

  private static String hostile(Talk talk) throws Breach, IOException {
    talk.open();
    byte[] payload = new byte[241];
    for (int i = 0; i < FUZZED; i++) {
      talk.random().nextBytes(payload);
      int type = i % 3 == 0 ? 1 + talk.random().nextInt(7) : talk.random().nextInt(0x80);
      RawFrame frame =
          new RawFrame(
              type,
              i % 5 == 0 ? talk.random().nextInt(0x10000) : talk.session(),
              talk.next(new Request.Status()).number(),
              Bytes.of(payload));
      talk.send(frame.sized(talk.random().nextInt(242)));
      if (i % 4 == 0) {
        talk.await(came -> false, 8);
        talk.listen(1);
      }
      if (i % 30 == 0) {
        talk.await(came -> false, 60);
        talk.random().nextBytes(payload);
        talk.send(payload);
        talk.send(new byte[1]);
        talk.status();
      }
    }
    talk.await(came -> false, 100);
    talk.open();
    require(talk.status().doing() == 0, "random bytes began a run");
    return FUZZED + " frames at random";
  }

  private static String quiet(Talk talk) throws Breach, IOException {
    talk.open();
    talk.listen(50);
    int sent = 20;
    for (int i = 0; i < sent; i++) {
      talk.send(talk.next(new Request.Status()));
    }
    long came = talk.listen(300).stream().filter(c -> c.message() instanceof Answer).count();
    require(came == sent, sent + " requests had " + came + " answers");
    return "and in all else that was asked";
  }
}

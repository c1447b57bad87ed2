package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.Streamed;

/** Messages and sessions: sections 5 and 6. Stateless. */
final class SessionChecks {

  private static final int UNKNOWN_REQUEST = 0x3E;
  private static final int IGNORABLE = 0x7F;
  private static final int MUST_UNDERSTAND = 0x5E;
  private static final int LID_OPENED = 1;
  private static final int HELLO_NUMBER = 900;

  private SessionChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M17", "unknown messages are refused or passed over", SessionChecks::unknown),
        Check.watched("M19", "frames carry the session that they answer, or the open one"),
        new Check("M20", "HELLO finds the version, or is refused", SessionChecks::version),
        new Check("M21", "a new nonce ends what was and opens a session", SessionChecks::anew),
        new Check("M22", "a run is not taken over without leave", SessionChecks::busy),
        new Check("M23", "the same HELLO again changes nothing", SessionChecks::same),
        new Check("M24", "boot id and lid counter stay as they are", SessionChecks::counters),
        new Check("M27", "a session belongs to its line", SessionChecks::lines),
        Check.watched("M90", "nothing is sent that version 1 does not define"));
  }

  private static String unknown(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    talk.refusal(
        talk.next(new Request.Status()).typed(UNKNOWN_REQUEST).sized(12), Refusal.UNKNOWN_TYPE);
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 0);
    talk.send(talk.streamed(new Streamed.Credit(talk.run(), 0)).typed(IGNORABLE).sized(20));
    Engine.heard(talk);
    RawFrame bad =
        talk.streamed(new Streamed.Credit(talk.run(), 0)).typed(MUST_UNDERSTAND).sized(3);
    Engine.fault(talk, bad, ProgramFault.UNKNOWN, "an unknown streamed message below 0x60");
    return "";
  }

  private static String version(Talk talk) throws Breach, IOException {
    talk.open();
    long nonce = talk.newNonce();
    RawFrame last = hello(nonce, new Request.Hello(255, 255, false, nonce, 0));
    Answer.Refused refused = talk.refusal(last, Refusal.VERSION);
    long lowest = refused.detail() & 0xFF;
    long highest = refused.detail() >> 8;
    require(
        lowest >= 1 && lowest <= highest && highest < 255,
        "VERSION says that versions " + lowest + " to " + highest + " are spoken");
    RawFrame other = hello(nonce, new Request.Hello(1, 1, false, nonce, 0));
    talk.refusal(other.as(other.session() ^ 1, 3), Refusal.BAD_VALUE);
    talk.refusal(other.with(0, 1 + other.payload().at(0) & 0xFF), Refusal.BAD_VALUE);
    RawFrame wide = hello(nonce, new Request.Hello(1, 254, false, nonce, talk.nonce()));
    Answer answer = (Answer) talk.answer(wide).message();
    if (answer instanceof Answer.Welcome welcome) {
      talk.opened(welcome, HELLO_NUMBER);
      require(
          welcome.version() == highest,
          "of versions 1 to 254 WELCOME took " + welcome.version() + " instead of " + highest);
    } else {
      throw new Breach("HELLO with versions 1 to 254 was answered " + Able.words(answer));
    }
    talk.open();
    return "versions " + lowest + " to " + highest;
  }

  private static RawFrame hello(long nonce, Request.Hello hello) {
    return RawFrame.of((int) (nonce & 0xFFFF), HELLO_NUMBER, hello);
  }

  private static String anew(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 4, 4);
    talk.open();
    Answer.State state = talk.status();
    require(
        state.doing() == 0 && state.account().run() == 0,
        "a new session begins with the account of run " + state.account().run());
    return twin(talk);
  }

  /** A nonce of which only the upper half is new is a new nonce. */
  private static String twin(Talk talk) throws Breach, IOException {
    Engine.signals(talk);
    long check = talk.another(0, 1, 0).declaration();
    long twin = talk.nonce() ^ 0x2222_0000L;
    Answer answer =
        (Answer)
            talk.answer(hello(twin, new Request.Hello(1, 1, false, twin, talk.nonce()))).message();
    if (!(answer instanceof Answer.Welcome welcome)) {
      throw new Breach("HELLO with a new nonce was answered with " + Able.words(answer));
    }
    require(welcome.nonce() == twin, "WELCOME answers another nonce than that of its HELLO");
    talk.opened(welcome, HELLO_NUMBER);
    talk.refusal(
        new Request.Run(talk.another(0, 1, 0).run(), 0, 1, 0, check), Refusal.NOT_DECLARED);
    return "";
  }

  private static String busy(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 4, 4);
    long heard = talk.nanos();
    talk.status();
    talk.await(came -> false, 200);
    long nonce = talk.newNonce();
    RawFrame hello = hello(nonce, new Request.Hello(1, 1, false, nonce, 0));
    Answer.Refused refused = talk.refusal(hello, Refusal.BUSY);
    long most = (talk.nanos() - heard) / 1_000_000 + 20;
    require(
        refused.detail() >= 100 && refused.detail() <= most,
        "BUSY says " + refused.detail() + " ms after some 200 ms of silence");
    require(talk.status().doing() == 2, "the run did not go on after a HELLO of another program");
    long nobody = talk.nonce() ^ 0x5A5A_5A5AL;
    talk.refusal(hello(nonce, new Request.Hello(1, 1, false, nonce, nobody)), Refusal.BUSY);
    RawFrame over = hello(nonce, new Request.Hello(1, 1, true, nonce, 0));
    Answer answer = (Answer) talk.answer(over).message();
    if (answer instanceof Answer.Welcome welcome) {
      talk.opened(welcome, HELLO_NUMBER);
      return "";
    }
    throw new Breach("HELLO with the take-over bit was answered with " + Able.words(answer));
  }

  private static String same(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 1, 1);
    Answer answer = talk.ask(new Request.Hello(1, 1, false, talk.nonce(), 0));
    require(answer instanceof Answer.Welcome, "HELLO again was answered " + Able.words(answer));
    talk.stream(Engine.steps(talk, 0, 1));
    require(
        Engine.toEnd(talk).end().end() == RunEnd.DONE.code(),
        "a run did not go on after the HELLO of its own session");
    return "";
  }

  private static String counters(Talk talk) throws Breach, IOException {
    Answer.Welcome first = talk.open();
    long opened = 0;
    Answer.Welcome last = first;
    for (int i = 0; i < 3; i++) {
      for (Came came : talk.listen(60)) {
        if (came.message() instanceof Notice.Event event && event.kind() == LID_OPENED) {
          opened++;
        }
      }
      require(
          talk.status().lidCount() == last.lidCount() + opened,
          "the lid counter went from " + last.lidCount() + " on without an event");
      long nonce = talk.newNonce();
      RawFrame hello = hello(nonce, new Request.Hello(1, 1, false, nonce, talk.nonce()));
      Answer answer = (Answer) talk.answer(hello).message();
      if (!(answer instanceof Answer.Welcome now)) {
        throw new Breach("HELLO was answered with " + Able.words(answer));
      }
      talk.opened(now, HELLO_NUMBER);
      require(now.boot() == first.boot(), "the boot id changed without a start");
      require(
          now.lidCount() == last.lidCount() + opened,
          "the lid counter went to " + now.lidCount() + " though nobody opened the lid");
      opened = 0;
      last = now;
    }
    return "another start was not made";
  }

  private static String lines(Talk talk) throws Breach, Untestable, IOException {
    Optional<Talk> second = talk.other();
    if (second.isEmpty()) {
      throw new Untestable("there is one line only");
    }
    Talk other = second.get();
    talk.open();
    Engine.signals(talk);
    talk.begin(0, 1, 1);
    long began = talk.nanos();
    while (talk.nanos() - began < 1_300_000_000L) {
      RawFrame stray = talk.next(new Request.Status());
      other.refusal(stray, Refusal.NO_SESSION);
      other.await(came -> false, 50);
    }
    Optional<Came> end = talk.await(came -> came.message() instanceof Notice.End, 100);
    require(end.isPresent(), "frames on another line kept a run alive that its own line had left");
    return "";
  }
}

package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Predicate;
import java.util.random.RandomGenerator;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;

/** A host that says what it is told to, right or wrong, and keeps what comes. One thread. */
final class Talk {

  /**
   * What a line and this computer may add to a time of the specification: a frame and its answer at
   * 115,200 baud, a USB adapter that holds back for 16 ms, and a busy processor.
   */
  static final long SLACK_MILLIS = 60;

  private static final long ANSWER_MILLIS = 500;
  private static final long ALIVE_MILLIS = 150;
  private static final long HELLO_MILLIS = 300;
  private static final int HELLOS = 7;
  private static final Duration TURN = Duration.ofMillis(5);
  private static final long MILLI = 1_000_000;

  private final Wire wire;
  private final Optional<Wire> second;
  private final Optional<Consumer<String>> operator;
  private final RandomGenerator random;
  private final Tap tap = new Tap();
  private final Deque<Came> inbox = new ArrayDeque<>();
  private Optional<Answer.Welcome> welcome = Optional.empty();
  private Able able = Able.UNKNOWN;
  private long nonce;
  private int number;
  private int stream;
  private long sent;
  private long runs;
  private Optional<Declaration> declaration = Optional.empty();

  /**
   * @param second another line to the same fixture, where there is one
   * @param operator is told what to do at the fixture, where somebody stands there
   */
  Talk(
      Wire wire,
      Optional<Wire> second,
      Optional<Consumer<String>> operator,
      RandomGenerator random) {
    this.wire = wire;
    this.second = second;
    this.operator = operator;
    this.random = random;
  }

  Tap tap() {
    return tap;
  }

  /** A talk on another line to the same fixture. */
  Optional<Talk> other() {
    return second.map(line -> new Talk(line, Optional.empty(), Optional.empty(), random));
  }

  Optional<Consumer<String>> operator() {
    return operator;
  }

  RandomGenerator random() {
    return random;
  }

  /** What the fixture says it can do. */
  Able able() {
    return able;
  }

  void able(Able known) {
    able = known;
  }

  Answer.Welcome welcome() throws Breach {
    return welcome.orElseThrow(() -> new Breach("there was no WELCOME"));
  }

  int session() {
    return (int) (nonce & 0xFFFF);
  }

  long nonce() {
    return nonce;
  }

  long nanos() {
    return wire.nanos();
  }

  /** A nonce that was not used before, but for chance. */
  long newNonce() {
    return (random.nextInt() & 0xFFFF_0000L) | (1 + random.nextInt(0xFFFF));
  }

  /** Opens a session anew, whatever the one before left. */
  Answer.Welcome open() throws Breach, IOException {
    return open(HELLOS);
  }

  /** The same with so many tries. */
  Answer.Welcome open(int hellos) throws Breach, IOException {
    long before = nonce;
    long mine = newNonce();
    number = random.nextInt(0x10000);
    RawFrame hello =
        RawFrame.of((int) (mine & 0xFFFF), number, new Request.Hello(1, 1, false, mine, before));
    for (int i = 0; i < hellos; i++) {
      send(new byte[1]);
      Optional<Came> came = exchange(hello, HELLO_MILLIS);
      if (came.isPresent() && came.get().message() instanceof Answer.Welcome now) {
        opened(now, number);
        return now;
      }
      if (came.isPresent() && came.get().message() instanceof Answer.Refused refused) {
        throw new Breach("HELLO was refused: " + Able.words(refused));
      }
    }
    throw new Breach("HELLO was not answered in " + hellos * HELLO_MILLIS + " ms");
  }

  /** Takes note of a session that was opened by a HELLO with a number. */
  void opened(Answer.Welcome now, int hello) {
    number = hello;
    welcome = Optional.of(now);
    nonce = now.nonce();
    declaration = Optional.empty();
    inbox.clear();
  }

  /** Puts bytes on the line as they are. */
  void send(byte[] bytes) throws IOException {
    wire.write(bytes);
    sent = nanos();
  }

  /** Sees to it that the fixture hears of this host often enough while a run is under way. */
  void keepAlive() throws Breach, IOException {
    if (nanos() - sent > ALIVE_MILLIS * MILLI) {
      status();
    }
  }

  void send(RawFrame frame) throws IOException {
    if (frame.type() < 0x40) {
      tap.asked(frame);
    }
    send(frame.wire());
  }

  /** The next request of this session, not yet sent. */
  RawFrame next(Request request) {
    number = number + 1 & 0xFFFF;
    return RawFrame.of(session(), number, request);
  }

  /** Sends a request and waits for its answer. */
  Optional<Came> exchange(RawFrame request, long millis) throws IOException {
    send(request);
    return await(came -> came.answers(request), millis);
  }

  /** The answer that a frame must have. */
  Came answer(RawFrame request) throws Breach, IOException {
    return exchange(request, ANSWER_MILLIS)
        .orElseThrow(() -> new Breach("no answer to " + Able.name(request.type()) + " in 0.5 s"));
  }

  Answer ask(Request request) throws Breach, IOException {
    return (Answer) answer(next(request)).message();
  }

  /** Asks for a refusal with a code. */
  Answer.Refused refusal(RawFrame request, Refusal code) throws Breach, IOException {
    return refused((Answer) answer(request).message(), code, Able.name(request.type()));
  }

  Answer.Refused refusal(Request request, Refusal code) throws Breach, IOException {
    return refusal(next(request), code);
  }

  private static Answer.Refused refused(Answer answer, Refusal code, String what) throws Breach {
    if (answer instanceof Answer.Refused refused) {
      require(
          refused.code() == code.code(),
          what + " was refused with " + Able.words(refused) + " instead of " + code.name());
      return refused;
    }
    throw new Breach(
        what + " was answered with " + Able.name(answer.type()) + " instead of " + code.name());
  }

  Answer.State status() throws Breach, IOException {
    Answer answer = ask(new Request.Status());
    if (answer instanceof Answer.State state) {
      return state;
    }
    throw new Breach("STATUS was not answered with STATE");
  }

  /** Asks that nothing answers a frame, and that the fixture is still there. */
  void silence(byte[] wire, String what) throws Breach, IOException {
    inbox.clear();
    // An answer would be a breach of the clause that is looked at, not of the one on unasked
    // frames.
    tap.asked(new RawFrame(0, session(), number, Bytes.NONE));
    send(wire);
    RawFrame after = next(new Request.Status());
    send(after);
    Optional<Came> first = await(came -> came.message() instanceof Answer, ANSWER_MILLIS);
    require(first.isPresent(), "no answer to STATUS after " + what);
    require(first.get().answers(after), what + " was answered");
    require(
        await(came -> came.message() instanceof Answer, 20).isEmpty(), what + " was answered late");
  }

  /** Declares channels without waiting for more than that it is accepted. */
  Declaration declare(Declaration wanted) throws Breach, IOException {
    for (Request request : wanted.requests()) {
      Answer answer = ask(request);
      if (!(answer instanceof Answer.Declared)) {
        throw new Breach(Able.name(request.type()) + " was answered with " + Able.words(answer));
      }
    }
    declaration = Optional.of(wanted);
    return wanted;
  }

  /** The id of the run that was asked for last. */
  long run() {
    return runs;
  }

  /** A request for another run of this session. */
  Request.Run another(long first, long count, long credit) {
    runs++;
    return new Request.Run(
        runs, first, count, credit, declaration.map(Declaration::check).orElse(0L));
  }

  /** Begins a run. */
  Answer.State begin(long first, long count, long credit) throws Breach, IOException {
    Request.Run request = another(first, count, credit);
    tap.begins(request.run(), first);
    stream = 0;
    Answer answer = ask(request);
    if (answer instanceof Answer.State state) {
      return state;
    }
    throw new Breach("RUN was answered with " + Able.words(answer));
  }

  /** The next streamed frame, not yet sent. */
  RawFrame streamed(Streamed message) {
    stream = stream + 1 & 0xFFFF;
    return RawFrame.of(session(), stream, message);
  }

  void stream(Streamed message) throws IOException {
    send(streamed(message));
  }

  int streamed() {
    return stream;
  }

  /** The first frame that is looked for; what came before it stays. */
  Optional<Came> await(Predicate<Came> wanted, long millis) throws IOException {
    long until = nanos() + millis * MILLI;
    while (true) {
      Iterator<Came> all = inbox.iterator();
      while (all.hasNext()) {
        Came came = all.next();
        if (wanted.test(came)) {
          all.remove();
          return Optional.of(came);
        }
      }
      if (nanos() >= until) {
        return Optional.empty();
      }
      read(until);
    }
  }

  /** All that is here and that comes in some time. */
  List<Came> listen(long millis) throws IOException {
    long until = nanos() + millis * MILLI;
    while (nanos() < until) {
      read(until);
    }
    List<Came> all = new ArrayList<>(inbox);
    inbox.clear();
    return all;
  }

  private void read(long until) throws IOException {
    Duration left = Duration.ofNanos(Math.max(0, until - nanos()));
    byte[] bytes = wire.read(left.compareTo(TURN) < 0 ? left : TURN);
    inbox.addAll(tap.feed(bytes, nanos()));
  }

  /** Lets time pass without looking at the line. */
  void pass(long millis) throws IOException {
    long until = nanos() + millis * MILLI;
    while (nanos() < until) {
      wire.pass(Duration.ofNanos(Math.max(1, until - nanos())));
    }
  }

  /** Bytes that come before anything was said. */
  int unasked(long millis) throws IOException {
    long until = nanos() + millis * MILLI;
    int bytes = 0;
    while (nanos() < until) {
      bytes += wire.read(TURN).length;
    }
    return bytes;
  }
}

package org.jointwalk.link;

import java.io.ByteArrayOutputStream;
import java.time.Duration;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;

/**
 * One session on one line: asks one thing at a time and repeats it until it is answered, and passes
 * on what the fixture says unasked. Not thread-safe.
 */
final class Session implements AutoCloseable {

  private static final int LOWEST = 1;
  private static final int HIGHEST = 1;

  private static final byte[] DELIMITER = {0};

  /** A fixture that floods the line must not keep this end from its other duties. */
  private static final int MOST_PIECES = 256;

  private final ByteLink link;
  private final Ticks ticks;
  private final LinkSettings settings;
  private final Request.Hello hello;
  private final BooleanSupplier leaving;
  private final Parser parser = new Parser(Parser.End.HOST);
  private int number;
  private Optional<Asked> asked = Optional.empty();
  private Optional<Answer> answer = Optional.empty();
  private boolean open;
  private long lastSent;
  private long bytes;
  private int dropped;
  private int echoes;

  /** Takes what comes unasked. */
  interface Listener {

    /** Passes over it. */
    Listener NOBODY = frame -> {};

    /**
     * A notice of this session.
     *
     * @throws BreachException when it cannot be at this point
     * @throws LinkException when it shows that the line has lost what cannot be sent again
     */
    void heard(Frame frame) throws BreachException, LinkException;
  }

  /** A user who wants to leave does not wait for answers as long as others do. */
  private final class Patience {

    private OptionalLong since = OptionalLong.empty();

    private void look() throws LinkException {
      if (since.isEmpty() && leaving.getAsBoolean()) {
        since = OptionalLong.of(ticks.nanos());
      }
      if (since.isPresent() && ticks.nanos() - since.getAsLong() > settings.stop().toNanos()) {
        throw new LinkException(
            link.name(), LinkException.Cause.SILENT, link.name() + " did not answer in time.");
      }
    }
  }

  /** A request on its way. */
  private static final class Asked {

    private final Frame frame;
    private final byte[] wire;
    private final long patience;
    private final int most;
    private int tries = 1;
    private long since;

    private Asked(Frame frame, Duration patience, int most) {
      this.frame = frame;
      this.wire = frame.encode();
      this.patience = patience.toNanos();
      this.most = most;
    }
  }

  /**
   * What answers on a line, if anything.
   *
   * @param answer to HELLO
   * @param bytes that came meanwhile
   * @param dropped frames among them that were damaged, or none of this protocol
   * @param echoes frames among them that were our own
   */
  record Greeting(Optional<Answer> answer, long bytes, int dropped, int echoes) {}

  /**
   * @param link open, and closed with this session
   * @param hello that opens the session
   * @param number of the first request
   * @param leaving whether the user wants no more answers
   */
  Session(
      ByteLink link,
      Ticks ticks,
      LinkSettings settings,
      Request.Hello hello,
      int number,
      BooleanSupplier leaving) {
    this.link = link;
    this.ticks = ticks;
    this.settings = settings;
    this.hello = hello;
    this.number = number;
    this.leaving = leaving;
  }

  /** A HELLO in the versions that this program speaks. */
  static Request.Hello hello(long nonce, long replaces) {
    return new Request.Hello(LOWEST, HIGHEST, false, nonce, replaces);
  }

  /**
   * Says HELLO until it is answered or there is no hope.
   *
   * @throws LinkException when the line fails
   * @throws BreachException when what answers breaks the protocol
   */
  Greeting greet() throws LinkException, BreachException {
    link.write(DELIMITER);
    send(new Asked(frame(hello), settings.hello(), settings.hellos()));
    Patience patience = new Patience();
    while (answer.isEmpty() && asked.isPresent()) {
      turn(settings.turn(), Listener.NOBODY, false);
      patience.look();
    }
    Optional<Answer> came = answer();
    open = came.filter(Answer.Welcome.class::isInstance).isPresent();
    return new Greeting(came, bytes, dropped, echoes);
  }

  /** The nonce that opened it. */
  long nonce() {
    return hello.nonce();
  }

  /** Whether a request is on its way or its answer was not fetched. */
  boolean asking() {
    return asked.isPresent() || answer.isPresent();
  }

  /** Bytes of the request that is not answered yet. */
  int unanswered() {
    return asked.map(a -> a.wire.length + 1).orElse(0);
  }

  /** Nanoseconds since this end sent something. */
  long quiet() {
    return ticks.nanos() - lastSent;
  }

  /**
   * Sends a request; nothing else may be asked before its answer was fetched.
   *
   * @throws LinkException when the line fails
   */
  void begin(Request request) throws LinkException {
    if (asking()) {
      throw new IllegalStateException("one request at a time (M28)");
    }
    number = (number + 1) & 0xFFFF;
    send(new Asked(frame(request), settings.request(), settings.requests()));
  }

  /** The answer to the last request, once, when it has come. */
  Optional<Answer> answer() {
    Optional<Answer> came = answer;
    answer = Optional.empty();
    return came;
  }

  /**
   * Asks, and waits for the answer.
   *
   * @throws LinkException when the line fails or nothing answers in time
   */
  Answer ask(Request request, Listener listener) throws LinkException, BreachException {
    settle(listener);
    begin(request);
    return await(listener);
  }

  /** Waits for the answer to a question that is on its way, such as one from a run that ended. */
  void settle(Listener listener) throws LinkException, BreachException {
    Patience patience = new Patience();
    while (asked.isPresent()) {
      turn(settings.turn(), listener);
      patience.look();
    }
    answer = Optional.empty();
  }

  /** Waits for the answer to what was begun. */
  Answer await(Listener listener) throws LinkException, BreachException {
    Patience patience = new Patience();
    while (true) {
      Optional<Answer> came = answer();
      if (came.isPresent()) {
        return came.get();
      }
      turn(settings.turn(), listener);
      patience.look();
    }
  }

  /** Sends streamed frames, encoded and one behind the other. */
  void stream(byte[] frames) throws LinkException {
    link.write(frames);
    lastSent = ticks.nanos();
  }

  /** A frame of this session. */
  Frame frame(int ofStream, Streamed message) {
    return new Frame(hello.session(), ofStream, message);
  }

  /**
   * Takes what has come, then repeats what was not answered.
   *
   * @param most how long to wait when nothing has come
   * @throws LinkException when the line fails or nothing answers in time
   * @throws BreachException when something came that cannot be; it is never guessed at (M18)
   */
  void turn(Duration most, Listener listener) throws LinkException, BreachException {
    turn(most, listener, true);
  }

  private void turn(Duration most, Listener listener, boolean must)
      throws LinkException, BreachException {
    byte[] came = link.read(most);
    // A program that was suspended has old bytes to read before it may call anything late.
    for (int pieces = 0; came.length > 0 && pieces < MOST_PIECES; pieces++) {
      bytes += came.length;
      for (Received received : parser.feed(came, 0, came.length)) {
        take(received, listener);
      }
      came = link.read(Duration.ZERO);
    }
    if (asked.isPresent()) {
      repeat(asked.get(), must);
    }
  }

  private void repeat(Asked request, boolean must) throws LinkException {
    if (ticks.nanos() - request.since < request.patience) {
      return;
    }
    if (request.tries < request.most) {
      request.tries++;
      ByteArrayOutputStream again = new ByteArrayOutputStream();
      again.writeBytes(DELIMITER);
      again.writeBytes(request.wire);
      link.write(again.toByteArray());
      request.since = ticks.nanos();
      lastSent = request.since;
      return;
    }
    asked = Optional.empty();
    if (must) {
      throw new LinkException(
          link.name(),
          LinkException.Cause.SILENT,
          Words.silent(
              link.name(), request.most, Duration.ofNanos(request.patience * request.most)));
    }
  }

  private void take(Received received, Listener listener) throws LinkException, BreachException {
    if (received instanceof Received.Dropped drop) {
      dropped++;
      echoes += drop.cause() == Received.Cause.DIRECTION ? 1 : 0;
    } else if (received instanceof Received.Unreadable unreadable) {
      if (open && unreadable.session() == hello.session() && !unreadable.mayBeIgnored()) {
        throw new BreachException(
            "M18",
            String.format(
                Locale.ROOT,
                "the fixture sends a message 0x%02X that cannot be read",
                unreadable.type()));
      }
    } else {
      take(((Received.Whole) received).frame(), listener);
    }
  }

  private void take(Frame frame, Listener listener) throws LinkException, BreachException {
    // What an older session left on the line is none of ours (M26).
    if (frame.session() != hello.session()) {
      return;
    }
    if (frame.message() instanceof Answer came) {
      if (asked.isPresent() && asked.get().frame.number() == frame.number()) {
        take(asked.get(), came);
      }
    } else if (open && frame.message() instanceof Notice) {
      listener.heard(frame);
    }
  }

  private void take(Asked request, Answer came) throws LinkException, BreachException {
    if (!open && !(came instanceof Answer.Welcome) && !(came instanceof Answer.Refused)) {
      return;
    }
    if (came instanceof Answer.Welcome welcome && welcome.nonce() != hello.nonce()) {
      return;
    }
    Words.requireAnswers(request.frame.message(), came);
    if (came instanceof Answer.Refused refused && refused.code() == Refusal.NO_SESSION.code()) {
      throw new LinkException(
          link.name(),
          LinkException.Cause.FORGOTTEN,
          "The fixture at " + link.name() + " does not know this program any more.");
    }
    asked = Optional.empty();
    answer = Optional.of(came);
  }

  private Frame frame(Request request) {
    return new Frame(hello.session(), number, request);
  }

  private void send(Asked request) throws LinkException {
    link.write(request.wire);
    request.since = ticks.nanos();
    lastSent = request.since;
    asked = Optional.of(request);
  }

  @Override
  public void close() {
    link.close();
  }
}

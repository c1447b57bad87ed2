package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.ProgramWriter;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Wiring;
import org.jointwalk.stack.Assembly;

/** A host in a few lines: one request at a time, on a line that loses nothing. */
final class DeviceHost {

  private static final long TICK = 1_000;

  final Device device;
  final DeviceLine line;
  final List<Frame> notices = new ArrayList<>();
  final List<Reading> readings = new ArrayList<>();
  private final Parser parser = new Parser(Parser.End.HOST);
  private final Deque<Frame> answers = new ArrayDeque<>();
  private long nonce;
  private int number = 50;
  private int stream;
  private Answer.Welcome welcome =
      new Answer.Welcome(1, 1, 0, 0, 0, 0, 0, 0, 252, 1, 16, 8, 0, 1, 0, 0, 0, 0);
  long now;

  DeviceHost(Device device) {
    this.device = device;
    line = device.line();
  }

  int session() {
    return (int) (nonce & 0xFFFF);
  }

  Answer.Welcome welcome() {
    return welcome;
  }

  /** Lets time go by, a millisecond at a time. */
  void pass(long micros) {
    long until = now + micros;
    while (now < until) {
      now += TICK;
      poll();
    }
  }

  void poll() {
    device.poll(now);
    byte[] bytes = line.outgoing();
    for (Received received : parser.feed(bytes, 0, bytes.length)) {
      assertThat(received).isInstanceOf(Received.Whole.class);
      Frame frame = ((Received.Whole) received).frame();
      if (frame.message() instanceof Answer) {
        answers.add(frame);
      } else {
        notices.add(frame);
      }
    }
  }

  void send(Frame frame) {
    line.take(frame.encode());
  }

  /** What answers a frame, whatever else comes. */
  Frame exchange(Frame frame) {
    send(frame);
    poll();
    assertThat(answers).hasSize(1);
    return answers.remove();
  }

  Answer hello(long newNonce, boolean takeOver, long replaces) {
    long before = nonce;
    nonce = newNonce;
    Answer answer = ask(new Request.Hello(1, 1, takeOver, newNonce, replaces));
    if (answer instanceof Answer.Welcome now) {
      welcome = now;
    } else {
      nonce = before;
    }
    return answer;
  }

  Answer ask(Request request) {
    number++;
    Frame answer = exchange(new Frame(session(), number, request));
    assertThat(answer.number()).isEqualTo(number);
    return (Answer) answer.message();
  }

  int number() {
    return number;
  }

  Declaration declare(Assembly assembly, FixtureMap wired) {
    Declaration declaration = Declaration.of(assembly, wired, welcome.channels());
    for (Request request : declaration.requests()) {
      assertThat(ask(request)).isInstanceOf(Answer.Declared.class);
    }
    return declaration;
  }

  Answer begin(long run, long first, long count, long credit, Declaration declaration) {
    stream = 0;
    return ask(new Request.Run(run, first, count, credit, declaration.check()));
  }

  void stream(Streamed message) {
    send(new Frame(session(), ++stream, message));
  }

  /** Runs a whole scan with credit for all of it. */
  Account run(long run, Scan scan, FixtureMap wired, Declaration declaration) {
    int from = notices.size();
    assertThat(
            begin(
                run,
                scan.first(),
                scan.steps().size(),
                scan.first() + scan.steps().size(),
                declaration))
        .isInstanceOf(Answer.State.class);
    ProgramWriter writer = new ProgramWriter(run, scan, new Wiring(wired), declaration, welcome);
    long done = scan.first();
    for (int i = 0; i < 1_000_000; i++) {
      Optional<Streamed> next = line.room() > 252 ? writer.next(done) : Optional.empty();
      next.ifPresent(this::stream);
      pass(TICK);
      if (i % 200 == 199) {
        ask(new Request.Status());
      }
      for (; from < notices.size(); from++) {
        Message message = notices.get(from).message();
        if (message instanceof Notice.Results results) {
          done = results.span().first() + results.results().size();
          keep(results);
        } else if (message instanceof Notice.End end) {
          return end.account();
        }
      }
    }
    throw new AssertionError("the run never ended");
  }

  void keep(Notice.Results results) {
    int index = (int) results.span().first();
    for (var taken : results.results()) {
      readings.add(Results.reading(index++, taken));
    }
  }

  /** Records and other notices of a kind, in order. */
  <T extends Notice> List<T> told(Class<T> kind) {
    return notices.stream().map(Frame::message).filter(kind::isInstance).map(kind::cast).toList();
  }

  Account end() {
    List<Notice.End> ends = told(Notice.End.class);
    assertThat(ends).isNotEmpty();
    return ends.get(ends.size() - 1).account();
  }
}

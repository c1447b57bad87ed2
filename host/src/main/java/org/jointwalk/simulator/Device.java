package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.CapabilityItems;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Proofs;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RequestLedger;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/**
 * A virtual fixture that speaks the fixture protocol: bytes in, bytes out, on a clock that it is
 * told. What it measures is what {@link VirtualFixture} measures, rounded to the units of the
 * protocol.
 *
 * <p>Whoever uses one opens a {@link #line}, puts bytes into it, calls {@link #poll} at least every
 * few milliseconds and fetches what is to go. No call waits; a poll takes at most some tens of
 * steps. Not thread-safe.
 */
public final class Device {

  private static final int VERSION = 1;
  private static final int REQUEST_TYPES = 0x40;
  private static final int HELLO = 0x01;
  private static final int STOP = 0x06;
  private static final long SILENCE = 1_000_000;

  private final int channels;
  private final List<Item> items;
  private final VirtualFixture fixture;
  private final Hand hand;
  private final DeviceParts parts;
  private final DeviceBody body;
  private final List<DeviceLine> lines = new ArrayList<>();
  private final Proofs proofs = new Proofs();
  private long now;
  private Optional<DeviceSession> session = Optional.empty();
  private Optional<Declaration> declaration = Optional.empty();
  private Optional<DeviceRun> run = Optional.empty();
  private Account last = Account.NONE;

  /**
   * How a device came up.
   *
   * @param boot another number at every start, not negative
   * @param cause why it started: a number of 16.4 of the specification
   */
  public record Start(long boot, int cause) {}

  /** Sees what a device does, as tests and pictures want to. */
  public interface Witness {

    /** Looks away. */
    Witness NONE = new Witness() {};

    /** A step of a run was dealt with. */
    default void taken(long run, long index, Taken taken) {}

    /** The host said by its credit that all results below an index are durable. */
    default void acknowledged(long run, long below) {}
  }

  /**
   * A device with nothing declared; what lies in it is found at the first declaration.
   *
   * @param map the model
   * @param specimen the stack and its troubles
   * @param wired wiring and capabilities
   * @param conditions of clamping; their pace is not used
   * @param actions what was done to the device until a set-up is clamped
   * @param pace share of its time that it really takes: 1 as hardware would, 0 without waiting
   * @param start how it came up
   * @param witness of what it does
   */
  public Device(
      PadMap map,
      Specimen specimen,
      FixtureMap wired,
      VirtualFixture.Conditions conditions,
      Function<SetUp, List<Action>> actions,
      double pace,
      Start start,
      Witness witness) {
    Capabilities able = wired.capabilities();
    channels = 1 + wired.channels().stream().mapToInt(Channel::number).max().orElse(0);
    items = CapabilityItems.of(able, channels);
    fixture = new VirtualFixture(map, specimen, wired, conditions);
    hand = new Hand(fixture, actions);
    parts = new DeviceParts(able, fixture, new Taker(wired, channels), pace, witness);
    body = new DeviceBody(able, channels, CapabilityItems.check(items), start);
  }

  /** Another line to this device; a session belongs to the line on which it was opened. */
  public DeviceLine line() {
    DeviceLine line = new DeviceLine();
    lines.add(line);
    return line;
  }

  /** The fixture behind it, for comparing what was found with what is there. */
  public VirtualFixture fixture() {
    return fixture;
  }

  /** The channels that are closed now. */
  public Set<Integer> closed() {
    return Set.copyOf(run.map(DeviceRun::closed).orElse(Set.of()));
  }

  /** Whether a run is under way. */
  public boolean running() {
    return run.isPresent();
  }

  /** Time of the next thing that happens without new bytes, in microseconds; far off for none. */
  public long next() {
    long silent = session.map(s -> s.heardAt() + SILENCE).orElse(Long.MAX_VALUE);
    return run.map(r -> Math.min(silent, r.next())).orElse(Long.MAX_VALUE);
  }

  /**
   * Looks at what came and does what is due.
   *
   * @param nowMicros time, never less than before
   */
  public void poll(long nowMicros) {
    now = Math.max(now, nowMicros);
    for (DeviceLine line : List.copyOf(lines)) {
      listen(line);
    }
    session
        .filter(s -> run.isPresent() && now - s.heardAt() >= SILENCE)
        .ifPresent(s -> endRun(RunEnd.HOST_SILENT, 0));
    run.ifPresent(r -> r.advance(now));
    settle();
    tellEvents();
  }

  private void listen(DeviceLine line) {
    body.overrun(line.overrun());
    while (!line.closed() && !line.next().isEmpty()) {
      take(line, line.next().remove());
    }
    if (line.closed()) {
      if (session.filter(s -> s.line() == line).isPresent()) {
        endRun(RunEnd.LINE_LOST, 0);
      }
      lines.remove(line);
    }
  }

  private void take(DeviceLine line, Received received) {
    if (received instanceof Received.Dropped lost) {
      body.dropped(lost.cause() == Received.Cause.OVERSIZE);
    } else if (received instanceof Received.Whole whole) {
      Frame frame = whole.frame();
      Message message = frame.message();
      heard(line, frame.session());
      if (message instanceof Request.Hello hello) {
        hello(line, frame, hello, whole.check());
      } else if (message instanceof Streamed streamed) {
        running(line, frame.session()).ifPresent(r -> r.take(streamed, frame.number(), now));
      } else if (message instanceof Request request) {
        request(
            line,
            new Asked(frame.session(), frame.number(), message.type(), whole.check()),
            () -> answer(line, request));
      }
    } else if (received instanceof Received.Unreadable bad) {
      heard(line, bad.session());
      unreadable(line, bad);
    }
    settle();
  }

  private void heard(DeviceLine line, int number) {
    session.filter(s -> s.line() == line && s.number() == number).ifPresent(s -> s.hear(now));
  }

  private Optional<DeviceRun> running(DeviceLine line, int number) {
    return run.filter(
        r -> session.filter(s -> s.line() == line && s.number() == number).isPresent());
  }

  private void unreadable(DeviceLine line, Received.Unreadable bad) {
    Asked asked = new Asked(bad.session(), bad.number(), bad.type(), bad.check());
    if (bad.type() >= REQUEST_TYPES) {
      ProgramFault fault =
          bad.refusal() == Refusal.UNKNOWN_TYPE ? ProgramFault.UNKNOWN : ProgramFault.UNREADABLE;
      running(line, bad.session())
          .ifPresent(r -> r.takeUnreadable(bad.mayBeIgnored(), fault, bad.number(), now));
    } else if (bad.type() == HELLO) {
      line.send(asked.refused(bad.refusal(), bad.detail()));
    } else {
      request(
          line, asked, () -> new Answer.Refused(bad.type(), bad.refusal().code(), bad.detail()));
    }
  }

  /** A request, as far as its header goes. */
  private record Asked(int session, int number, int type, long check) {

    Frame refused(Refusal refusal, long detail) {
      return new Frame(session, number, new Answer.Refused(type, refusal.code(), detail));
    }
  }

  private void hello(DeviceLine line, Frame frame, Request.Hello hello, long check) {
    Asked asked = new Asked(frame.session(), frame.number(), hello.type(), check);
    if (hello.lowest() > VERSION) {
      line.send(asked.refused(Refusal.VERSION, VERSION + 256L * VERSION));
      return;
    }
    Frame welcome = new Frame(frame.session(), frame.number(), body.welcome(hello.nonce(), now));
    Optional<DeviceSession> same =
        session.filter(s -> s.nonce() == hello.nonce() && s.line() == line);
    if (same.isPresent()) {
      line.send(welcome);
      return;
    }
    boolean mine = session.filter(s -> s.nonce() == hello.replaces()).isPresent();
    if (run.isPresent() && !hello.takeOver() && !mine) {
      long silent = (now - session.orElseThrow().heardAt()) / 1000;
      line.send(asked.refused(Refusal.BUSY, silent));
      return;
    }
    endRun(RunEnd.TAKEN_OVER, 0);
    session.ifPresent(s -> s.line().takeBack());
    last = Account.NONE;
    body.forgetEvents();
    forget();
    session = Optional.empty();
    Frame opened = new Frame(frame.session(), frame.number(), body.welcome(hello.nonce(), now));
    session =
        Optional.of(
            new DeviceSession(hello.nonce(), line, new RequestLedger(frame, check, opened), now));
    line.send(opened);
  }

  /** What answers a request that is to be executed. */
  @FunctionalInterface
  private interface Executes {
    Answer answer();
  }

  private void request(DeviceLine line, Asked asked, Executes executes) {
    if (asked.type() == STOP) {
      endRun(RunEnd.STOPPED, 0);
    }
    Optional<DeviceSession> own = session.filter(s -> s.line() == line);
    if (own.isEmpty()) {
      line.send(asked.refused(Refusal.NO_SESSION, 0));
      return;
    }
    RequestLedger ledger = own.get().ledger();
    RequestLedger.Order order = ledger.look(asked.session(), asked.number(), asked.check());
    if (order instanceof RequestLedger.Order.Refuse refuse) {
      line.send(asked.refused(refuse.refusal(), 0));
    } else if (order instanceof RequestLedger.Order.Repeat repeat) {
      line.send(repeat.answer());
    } else {
      Frame answer = new Frame(asked.session(), asked.number(), executes.answer());
      ledger.keep(asked.check(), answer);
      line.send(answer);
    }
  }

  private Answer answer(DeviceLine line, Request request) {
    if (request instanceof Request.Capabilities wanted) {
      return wanted.first() < items.size()
          ? CapabilityItems.page(items, wanted.first())
          : refused(request, Refusal.BAD_VALUE, 0);
    }
    if (request instanceof Request.Declare declare) {
      return declare(declare);
    }
    if (request instanceof Request.Channels more) {
      return place(more);
    }
    if (request instanceof Request.Run begin) {
      return begin(line, begin);
    }
    return state();
  }

  private static Answer refused(Request request, Refusal refusal, long detail) {
    return new Answer.Refused(request.type(), refusal.code(), detail);
  }

  private Optional<Answer> notNow(Request request) {
    if (run.isPresent()) {
      return Optional.of(refused(request, Refusal.RUN_UNDER_WAY, 0));
    }
    return body.lidOpen() ? Optional.of(refused(request, Refusal.LID_OPEN, 0)) : Optional.empty();
  }

  private Answer declare(Request.Declare declare) {
    Optional<Answer> not = notNow(declare);
    if (not.isPresent()) {
      return not.get();
    }
    Optional<SetUp> setUp = SetUp.named(declare.setUp());
    if (hand.wantsTo(setUp)) {
      moveLid(setUp.orElseThrow());
    }
    hand.lay(setUp);
    proofs.forget();
    declaration = Optional.of(Declaration.begun(declare, channels));
    return new Answer.Declared(declaration.get().check());
  }

  private Answer place(Request.Channels more) {
    boolean known = more.first() + more.places().size() <= channels;
    Optional<Answer> not = known ? notNow(more) : Optional.of(refused(more, Refusal.BAD_VALUE, 0));
    if (not.isPresent()) {
      return not.get();
    }
    if (declaration.isEmpty()) {
      return refused(more, Refusal.NOT_DECLARED, 0);
    }
    Optional<Declaration> changed = declaration.get().with(more);
    if (changed.isEmpty()) {
      return refused(more, Refusal.BAD_VALUE, 0);
    }
    declaration = changed;
    return new Answer.Declared(changed.get().check());
  }

  private Answer begin(DeviceLine line, Request.Run asked) {
    if (run.isPresent()) {
      return refused(asked, Refusal.RUN_UNDER_WAY, 0);
    }
    if (body.broken() != 0) {
      return refused(asked, Refusal.FAULT, body.broken());
    }
    if (body.lidOpen()) {
      return refused(asked, Refusal.LID_OPEN, 0);
    }
    if (declaration.isEmpty()) {
      return refused(asked, Refusal.NOT_DECLARED, 0);
    }
    if (declaration.get().check() != asked.declaration()) {
      return refused(asked, Refusal.OTHER_DECLARATION, declaration.get().check());
    }
    if (asked.run() == last.run()) {
      return refused(asked, Refusal.BAD_VALUE, 0);
    }
    DeviceSession own = session.orElseThrow();
    DeviceRecords records = new DeviceRecords(own.number(), asked.run(), line);
    run =
        Optional.of(
            new DeviceRun(
                asked,
                body.welcome(own.nonce(), now),
                declaration.get(),
                proofs,
                parts,
                records,
                now));
    return state();
  }

  private Answer.State state() {
    return body.state(
        run.map(DeviceRun::doing).orElse(0), run.map(DeviceRun::account).orElse(last), now);
  }

  private void endRun(RunEnd why, int detail) {
    run.ifPresent(r -> r.end(why, detail, now));
    settle();
  }

  /** A run that has ended is kept as an account. */
  private void settle() {
    run.filter(DeviceRun::over)
        .ifPresent(
            r -> {
              last = r.account();
              run = Optional.empty();
            });
  }

  private void forget() {
    declaration = Optional.empty();
    proofs.forget();
  }

  private void moveLid(SetUp declared) {
    lift();
    hand.clamp(declared);
    lower();
  }

  private void lift() {
    body.openLid();
    endRun(RunEnd.LID_OPENED, 0);
    forget();
    event(DeviceBody.LID_OPENED);
  }

  private void lower() {
    body.closeLid();
    event(DeviceBody.LID_CLOSED);
  }

  /** Somebody opens the lid; does nothing when it is open. */
  public void openLid() {
    if (!body.lidOpen()) {
      lift();
      tellEvents();
    }
  }

  /** Somebody closes the lid over what lies there; does nothing when it is closed. */
  public void closeLid() {
    if (body.lidOpen()) {
      hand.close();
      lower();
      tellEvents();
    }
  }

  /** Somebody presses the button. */
  public void pressButton() {
    body.pressButton();
    event(DeviceBody.BUTTON_PRESSED);
    tellEvents();
  }

  /**
   * Something breaks: a run ends, and none begins before a restart.
   *
   * @param fault a number of 16.6 of the specification
   */
  public void breakDown(int fault) {
    body.breakDown(fault);
    endRun(RunEnd.FAULT, fault);
  }

  /**
   * It starts anew: nothing is remembered but what lies in it. What was on the lines is lost.
   *
   * @param again how it comes up, with another boot id
   */
  public void restart(Start again) {
    run = Optional.empty();
    session = Optional.empty();
    forget();
    last = Account.NONE;
    body.forgetEvents();
    body.restart(again);
    lines.forEach(DeviceLine::reset);
  }

  private void event(int kind) {
    if (session.isPresent()) {
      body.event(kind, now);
    }
  }

  private void tellEvents() {
    session.ifPresent(
        s -> {
          while (s.line().hasRoom(1) && body.hasEvents()) {
            s.line().send(new Frame(s.number(), 0, body.nextEvent()));
          }
        });
  }
}

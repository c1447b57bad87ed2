package org.jointwalk.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.LongSupplier;
import java.util.function.Predicate;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.CapabilityItems;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.ProgramReader;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RequestLedger;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;

/**
 * A fixture in a few lines, which reads the index of each step as its voltage in units of 10 nV. It
 * keeps to the protocol but where it is told to fail.
 */
public final class PeerFixture implements MemoryLink.Peer, Port {

  private static final int CHECK_EVERY = 64;
  private static final int FRAME = 24;

  private final Ticks ticks;
  private final List<Item> items;
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final Map<Integer, StepRefusal> refusing = new HashMap<>();
  private final TreeMap<Long, Runnable> events = new TreeMap<>();
  private final List<Message> heardMessages = new ArrayList<>();
  private Parser parser = new Parser(Parser.End.FIXTURE);
  private Optional<RequestLedger> ledger = Optional.empty();
  private Optional<Answer.Welcome> welcome = Optional.empty();
  private Optional<Declaration> declaration = Optional.empty();
  private Optional<Active> active = Optional.empty();
  private Account last = Account.NONE;
  private boolean connected = true;
  private boolean reachable = true;

  // What a test may set.
  long stepNanos = 200_000;
  int channels;
  boolean echoes;
  Optional<Answer> stale = Optional.empty();
  int window = 1024;
  int steps = 256;
  int version = 1;
  public int lid;
  long lidCount = 1;
  long boot = 77;
  int resetCause = 1;
  boolean silent;
  boolean busy;
  LongSupplier otherHeard = () -> 120;
  boolean badBus;
  byte[] garbage = new byte[0];
  boolean wrongCheck;
  Predicate<Message> losesOwn = message -> false;
  Predicate<Message> losesHost = message -> false;
  Predicate<Message> damagesOwn = message -> false;
  Predicate<Message> doublesOwn = message -> false;
  int faultDetail;
  private Runnable missed = () -> {};

  /** The run under way. */
  private static final class Active {

    private final Request.Run run;
    private final ProgramReader reader;
    private long credit;
    private int heard;
    private int heardSaid;
    private long done;
    private long checked;
    private int records;
    private long clock;
    private long lastHeard;
    private long heardAt;
    private final List<Taken> pending = new ArrayList<>();

    private Active(Request.Run run, ProgramReader reader, long now) {
      this.run = run;
      this.reader = reader;
      this.credit = run.credit();
      this.done = run.first();
      this.checked = run.first();
      this.clock = now;
      this.lastHeard = now;
    }
  }

  PeerFixture(FixtureMap map, Ticks ticks) {
    this.ticks = ticks;
    channels = map.channels().size();
    items = CapabilityItems.of(map.capabilities(), channels);
  }

  /** Lets something happen when the step with this index has its result. */
  void at(long index, Runnable event) {
    events.put(index, event);
  }

  void refuse(int index, StepRefusal reason) {
    refusing.put(index, reason);
  }

  /** All messages that arrived. */
  List<Message> arrived() {
    return heardMessages;
  }

  boolean measuring() {
    return active.isPresent();
  }

  public void openLid() {
    lidCount++;
    lid = 1;
    declaration = Optional.empty();
    end(RunEnd.LID_OPENED);
    say(0, new Notice.Event(1, lidCount, 0));
  }

  public void closeLid() {
    lid = 0;
  }

  /** The cable is pulled; the fixture itself goes on, and stops a second later. */
  void pullCable() {
    connected = false;
    out.reset();
  }

  /** Nothing can be opened any more. */
  void vanish() {
    pullCable();
    reachable = false;
  }

  /** What happens when somebody tries to open what has vanished. */
  void whenMissed(Runnable then) {
    missed = then;
  }

  void restart(int cause) {
    boot++;
    lidCount = 0;
    resetCause = cause;
    ledger = Optional.empty();
    declaration = Optional.empty();
    active = Optional.empty();
    out.reset();
  }

  @Override
  public String name() {
    return "peer";
  }

  @Override
  public ByteLink open() throws LinkException {
    if (!reachable) {
      missed.run();
      throw new LinkException("peer", LinkException.Cause.MISSING, "No port peer.");
    }
    connected = true;
    parser = new Parser(Parser.End.FIXTURE);
    return new MemoryLink("peer", this, ticks);
  }

  @Override
  public boolean connected() {
    return connected;
  }

  @Override
  public void hangUp() {
    out.reset();
  }

  @Override
  public void take(byte[] bytes) {
    if (garbage.length > 0 || echoes) {
      out.writeBytes(echoes ? bytes : garbage);
      return;
    }
    stale.ifPresent(answer -> out.writeBytes(new Frame(1, 1, answer).encode()));
    for (Received received : parser.feed(bytes, 0, bytes.length)) {
      if (received instanceof Received.Whole whole && !losesHost.test(whole.frame().message())) {
        take(whole.frame(), whole.check());
      }
    }
  }

  private void take(Frame frame, long check) {
    heardMessages.add(frame.message());
    if (silent) {
      return;
    }
    active.ifPresent(a -> a.lastHeard = ticks.nanos());
    if (frame.message() instanceof Request.Hello hello) {
      hello(frame, hello, check);
    } else if (frame.message() instanceof Request request) {
      request(frame, request, check);
    } else if (frame.message() instanceof Streamed streamed) {
      streamed(frame, streamed);
    }
  }

  private void hello(Frame frame, Request.Hello hello, long check) {
    if (version < hello.lowest() || version > hello.highest()) {
      refuse(frame, Refusal.VERSION, version + 256L * version);
      return;
    }
    if (busy) {
      refuse(frame, Refusal.BUSY, otherHeard.getAsLong());
      return;
    }
    if (welcome.isPresent() && ledger.isPresent() && welcome.get().nonce() == hello.nonce()) {
      answer(frame, welcome.get());
      return;
    }
    active = Optional.empty();
    last = Account.NONE;
    declaration = Optional.empty();
    Answer.Welcome now =
        new Answer.Welcome(
            1,
            hello.nonce(),
            boot,
            resetCause,
            1,
            lid,
            lidCount,
            0,
            window,
            channels,
            steps,
            16,
            8,
            24,
            2_000_000,
            0,
            wrongCheck ? 1 : CapabilityItems.check(items),
            0);
    welcome = Optional.of(now);
    Frame answer = new Frame(frame.session(), frame.number(), now);
    ledger = Optional.of(new RequestLedger(frame, check, answer));
    send(answer);
  }

  private void request(Frame frame, Request request, long check) {
    if (request instanceof Request.Stop) {
      advance();
      end(RunEnd.STOPPED);
    }
    if (ledger.isEmpty()) {
      refuse(frame, Refusal.NO_SESSION, 0);
      return;
    }
    RequestLedger.Order order = ledger.get().look(frame.session(), frame.number(), check);
    if (order instanceof RequestLedger.Order.Repeat repeat) {
      send(repeat.answer());
    } else if (order instanceof RequestLedger.Order.Refuse refused) {
      refuse(frame, refused.refusal(), 0);
    } else {
      Frame answer = new Frame(frame.session(), frame.number(), execute(request));
      ledger.get().keep(check, answer);
      send(answer);
      begin(request, answer);
    }
  }

  private Answer execute(Request request) {
    if (request instanceof Request.Capabilities page) {
      return CapabilityItems.page(items, page.first());
    }
    if (request instanceof Request.Declare declare) {
      if (lid == 1) {
        return refusal(0x03, Refusal.LID_OPEN, 0);
      }
      declaration = Optional.of(Declaration.begun(declare, channels));
      return new Answer.Declared(declaration.get().check());
    }
    if (request instanceof Request.Channels some) {
      declaration = declaration.flatMap(d -> d.with(some));
      return new Answer.Declared(declaration.orElseThrow().check());
    }
    if (request instanceof Request.Run run) {
      if (lid == 1) {
        return refusal(0x05, Refusal.LID_OPEN, 0);
      }
      if (declaration.isEmpty()) {
        return refusal(0x05, Refusal.NOT_DECLARED, 0);
      }
      if (declaration.get().check() != run.declaration()) {
        return refusal(0x05, Refusal.OTHER_DECLARATION, declaration.get().check());
      }
      active =
          Optional.of(
              new Active(run, new ProgramReader(welcome.orElseThrow(), run), ticks.nanos()));
    }
    return state();
  }

  private Answer.State state() {
    return new Answer.State(
        active.isPresent() ? 1 : 0,
        lid,
        lidCount,
        0,
        0,
        0,
        0,
        0,
        0,
        active.map(a -> account(a, 0)).orElse(last));
  }

  private void begin(Request request, Frame answer) {
    if (request instanceof Request.Run && answer.message() instanceof Answer.State) {
      active.ifPresent(this::check);
    }
  }

  private Account account(Active run, int end) {
    return new Account(
        run.run.run(),
        run.heard,
        end,
        end == RunEnd.FAULT.code() ? faultDetail : 0,
        run.reader.loaded(),
        run.done,
        run.credit,
        run.checked,
        run.records);
  }

  private void streamed(Frame frame, Streamed message) {
    if (active.isEmpty() || active.get().run.run() != run(message)) {
      return;
    }
    Active run = active.get();
    int ahead = RequestLedger.ahead(run.heard, frame.number());
    if (ahead != 0) {
      say(
          0,
          new Notice.Heard(run.run.run(), run.heard, ahead > 0, run.reader.loaded(), run.credit));
      return;
    }
    run.heard = frame.number();
    run.heardAt = ticks.nanos();
    if (message instanceof Streamed.Credit credit) {
      run.credit = Math.max(run.credit, credit.limit());
    }
    Optional<ProgramFault> fault = run.reader.take(message, run.done);
    fault.ifPresent(
        f -> {
          throw new IllegalStateException("the host's program has the fault " + f);
        });
  }

  private static long run(Streamed message) {
    if (message instanceof Streamed.Credit credit) {
      return credit.run();
    }
    if (message instanceof Streamed.Setting setting) {
      return setting.run();
    }
    if (message instanceof Streamed.Steps more) {
      return more.run();
    }
    return message instanceof Streamed.SetBits bits
        ? bits.run()
        : ((Streamed.SetChange) message).run();
  }

  @Override
  public byte[] give() {
    advance();
    byte[] bytes = out.toByteArray();
    out.reset();
    return bytes;
  }

  private void advance() {
    if (active.isEmpty() || silent) {
      return;
    }
    Active run = active.get();
    while (active.isPresent()
        && run.clock + stepNanos <= ticks.nanos()
        && run.done < run.credit
        && run.reader.step(run.done).isPresent()) {
      run.clock += stepNanos;
      measure(run);
    }
    if (active.isEmpty()) {
      return;
    }
    if (run.reader.step(run.done).isEmpty() || run.done >= run.credit) {
      run.clock = ticks.nanos();
    }
    flush(run);
    if (run.heardSaid != run.heard && ticks.nanos() - run.heardAt > 10_000_000) {
      run.heardSaid = run.heard;
      say(0, new Notice.Heard(run.run.run(), run.heard, false, run.reader.loaded(), run.credit));
    }
    if (ticks.nanos() - run.lastHeard > 1_000_000_000L) {
      end(RunEnd.HOST_SILENT);
    }
  }

  private void measure(Active run) {
    StepRefusal refused = refusing.get((int) run.done);
    run.pending.add(
        refused == null
            ? new Taken.Measured(List.of(new Raw((int) run.done, 1_000)))
            : new Taken.Refused(refused.code()));
    run.done++;
    Runnable event = events.remove(run.done - 1);
    if (event != null) {
      event.run();
      if (active.isEmpty()) {
        return;
      }
    }
    if (run.pending.size() == FRAME) {
      flush(run);
    }
    boolean over = run.done == run.run.first() + run.run.count();
    if (over) {
      end(RunEnd.DONE);
    } else if (run.done - run.checked >= CHECK_EVERY) {
      check(run);
    }
  }

  private void flush(Active run) {
    if (!run.pending.isEmpty()) {
      long first = run.done - run.pending.size();
      run.records++;
      run.heardSaid = run.heard;
      say(
          run.records,
          new Notice.Results(
              new Notice.Span(
                  run.run.run(),
                  run.heard,
                  first,
                  0,
                  run.pending.size() * stepNanos / 1000,
                  2L * run.pending.size()),
              run.pending));
      run.pending.clear();
    }
  }

  private void check(Active run) {
    flush(run);
    run.records++;
    say(
        run.records,
        new Notice.Check(
            run.run.run(), run.heard, run.done, badBus, badBus ? 1_200_000 : 0, badBus ? 30 : 0));
    if (badBus) {
      finish(run, RunEnd.BUS_CHECK);
    } else {
      run.checked = run.done;
    }
  }

  /** Ends the run under way. */
  void end(RunEnd how) {
    if (active.isEmpty()) {
      return;
    }
    Active run = active.get();
    flush(run);
    if (how == RunEnd.DONE || how == RunEnd.STOPPED) {
      check(run);
    }
    if (active.isPresent()) {
      finish(run, how);
    }
  }

  private void finish(Active run, RunEnd how) {
    run.records++;
    last = account(run, how.code());
    active = Optional.empty();
    say(run.records, new Notice.End(last));
  }

  private void refuse(Frame frame, Refusal why, long detail) {
    send(new Frame(frame.session(), frame.number(), refusal(frame.message().type(), why, detail)));
  }

  private static Answer refusal(int type, Refusal why, long detail) {
    return new Answer.Refused(type, why.code(), detail);
  }

  private void answer(Frame frame, Answer answer) {
    send(new Frame(frame.session(), frame.number(), answer));
  }

  private void say(int number, Notice notice) {
    ledger.ifPresent(l -> send(new Frame(l.session(), number & 0xFFFF, notice)));
  }

  private void send(Frame frame) {
    if (connected && !silent && !losesOwn.test(frame.message())) {
      byte[] wire = frame.encode();
      if (damagesOwn.test(frame.message())) {
        wire[wire.length / 2] ^= 0x10;
      }
      out.writeBytes(wire);
      if (doublesOwn.test(frame.message())) {
        out.writeBytes(wire);
      }
    }
  }
}

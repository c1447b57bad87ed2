package org.jointwalk.link;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Scan;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.Wiring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * A fixture at the end of a line. A line that is lost is opened anew for some time, and the run
 * goes on with the first reading that was not kept, as long as boot id and lid counter say that it
 * is the same seating. One thread, but for {@link #stop}.
 */
public final class LinkFixture implements Fixture, AutoCloseable {

  /**
   * So long after a run nobody asks anew what is clamped, in nanoseconds: no hand opens and closes
   * a lid in that time, and the next run looks at the count of its openings anyway.
   */
  private static final long NOBODY_SEATS_SO_FAST = 100_000_000;

  private static final int NO_LID = 2;
  private static final int OPEN_LID = 1;

  private final Port port;
  private final Assembly assembly;
  private final FixtureMap map;
  private final Wiring wiring;
  private final Ticks ticks;
  private final Opened.Way way;
  private final LinkSettings settings;
  private final ScheduledExecutorService aside =
      Executors.newSingleThreadScheduledExecutor(
          task -> {
            Thread thread = new Thread(task, "keeps a fixture company");
            thread.setDaemon(true);
            return thread;
          });
  private final AtomicBoolean running = new AtomicBoolean();
  private final AtomicBoolean stopping = new AtomicBoolean();
  private final Capabilities capabilities;
  private final boolean lid;
  private Optional<Opened> opened;
  private Optional<Declaration> declared = Optional.empty();
  private long boot;
  private long lidCount;
  private long declaredAt = -1;
  private long seatedByWord;
  private long lastNonce;
  private long lastRun;
  private Optional<Long> sureUntil = Optional.empty();

  private LinkFixture(
      Port port,
      Assembly assembly,
      FixtureMap map,
      Opened first,
      Ticks ticks,
      RandomGenerator random,
      LinkSettings settings) {
    this.port = port;
    this.assembly = assembly;
    this.map = map;
    this.wiring = new Wiring(map);
    this.ticks = ticks;
    this.way = new Opened.Way(port, random, ticks, settings, stopping::get);
    this.settings = settings;
    this.opened = Optional.of(first);
    this.capabilities = first.capabilities();
    this.lid = first.welcome().lid() != NO_LID;
    this.boot = first.welcome().boot();
    this.lidCount = first.welcome().lidCount();
    this.lastNonce = first.session().nonce();
    this.lastRun = random.nextInt(1, Integer.MAX_VALUE);
    // Without a lid nobody can know what was done between two runs of this program.
    this.seatedByWord = lid ? 0 : random.nextLong(1, Long.MAX_VALUE / 4);
  }

  /**
   * Opens a fixture and compares it with its map.
   *
   * @param port where it is
   * @param assembly what is clamped in it
   * @param map how it is wired
   * @throws FixtureException when it cannot be reached, or is not the one of the map
   */
  public static LinkFixture open(
      Port port,
      Assembly assembly,
      FixtureMap map,
      Ticks ticks,
      RandomGenerator random,
      LinkSettings settings)
      throws FixtureException {
    try {
      Opened first = Opened.open(new Opened.Way(port, random, ticks, settings, () -> false), 0);
      try {
        Mapped.require(first, map, port.name());
      } catch (FixtureException e) {
        first.session().close();
        throw e;
      }
      return new LinkFixture(port, assembly, map, first, ticks, random, settings);
    } catch (LinkException e) {
      throw new FixtureException.Unreachable(e.told());
    }
  }

  @Override
  public Capabilities capabilities() {
    return capabilities;
  }

  /** Whether it notices by itself that parts are seated again. */
  public boolean hasLid() {
    return lid;
  }

  /** Takes an operator's word that the parts were seated again, where there is no lid to tell. */
  public void seatedByWord() {
    if (!lid) {
      seatedByWord++;
    }
  }

  @Override
  public Clamping clamping() throws FixtureException {
    stopping.set(false);
    boolean sure = sureUntil.isPresent() && ticks.nanos() - sureUntil.get() < 0;
    sureUntil = Optional.empty();
    if (sure) {
      return new Clamping(boot, lid ? lidCount : seatedByWord);
    }
    running.set(true);
    try {
      Answer.State state = state(false);
      if (state.lidCount() != declaredAt) {
        declared = Optional.empty();
      }
      if (declared.isEmpty() && state.lid() != OPEN_LID) {
        // Said before the seating is looked at: a fixture may take its time to lay out what it
        // hears.
        state = state(true);
      }
      lidCount = state.lidCount();
      return new Clamping(boot, lid ? lidCount : seatedByWord);
    } finally {
      running.set(false);
    }
  }

  /**
   * Whether the lid is open now.
   *
   * @throws FixtureException when the fixture does not answer
   */
  public boolean lidOpen() throws FixtureException {
    return state(false).lid() == OPEN_LID;
  }

  private Answer.State state(boolean declaring) throws FixtureException {
    int tries = 0;
    while (true) {
      try {
        // Between two runs a fixture that started anew is one with another seating, no more.
        Opened now = connected(false);
        if (declaring) {
          declare(now);
        }
        Answer answer = now.session().ask(new Request.Status(), Session.Listener.NOBODY);
        if (answer instanceof Answer.State state) {
          declaredAt = declaring ? state.lidCount() : declaredAt;
          return state;
        }
        throw Words.refused((Answer.Refused) answer, "say how it is");
      } catch (LinkException e) {
        hangUp();
        if (++tries >= settings.restarts() || stopping.get()) {
          throw new FixtureException.Unreachable(e.told());
        }
      } catch (BreachException e) {
        hangUp();
        throw new FixtureException.Broken(Opened.broken(port.name(), e));
      }
    }
  }

  @Override
  public void run(Scan scan, Keep keep) throws FixtureException {
    requireRunnable(scan);
    stopping.set(false);
    running.set(true);
    try {
      int from = scan.first();
      int fruitless = 0;
      while (from < scan.first() + scan.steps().size() && !stopping.get()) {
        Tried tried = attempt(scan.from(from), keep);
        fruitless = tried.kept() > from ? 0 : fruitless + 1;
        from = tried.kept();
        if (fruitless > settings.restarts()) {
          throw new FixtureException.Unreachable(
              "The run was begun "
                  + fruitless
                  + " times without a reading that could be kept; the last time: "
                  + tried.trouble()
                  + " Look at the cable; a shorter or shielded one may help.");
        }
      }
    } finally {
      running.set(false);
    }
  }

  private void requireRunnable(Scan scan) throws FixtureException {
    if (!scan.setUp().equals(assembly.setUp().name())) {
      throw new IllegalArgumentException(
          "a scan of " + scan.setUp() + " while " + assembly.setUp().name() + " is clamped");
    }
    List<Contact> missing = wiring.missing(scan);
    if (!missing.isEmpty()) {
      throw new FixtureException.Mismatch(
          "The map "
              + map.name()
              + " has no working channel for "
              + missing.size()
              + " contacts of the scan, the first: "
              + missing.get(0)
              + ".");
    }
  }

  /**
   * How far one run came.
   *
   * @param kept index of the first step whose reading was not kept
   * @param trouble why it did not come to its end
   */
  private record Tried(int kept, String trouble) {}

  private Tried attempt(Scan rest, Keep keep) throws FixtureException {
    sureUntil = Optional.empty();
    Optional<Running> begun = Optional.empty();
    boolean over = false;
    try {
      Opened now = connected(true);
      Declaration declaration = declare(now);
      lastRun = lastRun == Integer.MAX_VALUE ? 1 : lastRun + 1;
      Running one =
          new Running(
              now, rest, lastRun, wiring, declaration, ticks, settings, aside, stopping::get);
      Answer answer = one.begin();
      if (answer instanceof Answer.Refused refused) {
        over = true;
        return again(refused, rest);
      }
      begun = Optional.of(one);
      requireSameSeating(((Answer.State) answer).lidCount());
      Optional<Account> account = one.finish(keep);
      over = true;
      if (account.isPresent()) {
        judge(one, account.get());
        sureUntil = Optional.of(ticks.nanos() + NOBODY_SEATS_SO_FAST);
      } else {
        hangUp();
      }
      return new Tried(one.kept(), "some of what the fixture sent did not arrive.");
    } catch (LinkException e) {
      over = true;
      hangUp();
      return new Tried(begun.map(Running::kept).orElse(rest.first()), e.told());
    } catch (BreachException e) {
      hangUp();
      throw new FixtureException.Broken(Opened.broken(port.name(), e));
    } finally {
      // However it ends, the fixture is told; without a word it would stop a second later.
      if (!over && !begun.map(Running::abandon).orElse(true)) {
        hangUp();
      }
    }
  }

  /** What was declared may have been forgotten with a lid that opened; that is declared again. */
  private Tried again(Answer.Refused refused, Scan rest) throws FixtureException {
    if (!Words.isForgotten(refused)) {
      throw Words.refused(refused, "begin a run");
    }
    declared = Optional.empty();
    requireSameSeating(state(false).lidCount());
    return new Tried(rest.first(), Words.text(refused) + ".");
  }

  private void requireSameSeating(long count) throws FixtureException {
    if (count != lidCount) {
      throw Words.lidOpened();
    }
  }

  private static void judge(Running one, Account account) throws FixtureException {
    Optional<FixtureException> danger = one.danger();
    if (danger.isPresent()) {
      throw danger.get();
    }
    Optional<RunEnd> end = RunEnd.of(account.end());
    boolean goesOn =
        end.filter(
                List.of(RunEnd.DONE, RunEnd.STOPPED, RunEnd.HOST_SILENT, RunEnd.LINE_LOST)
                    ::contains)
            .isPresent();
    if (!goesOn) {
      throw Words.ended(account, end, one.incoming());
    }
  }

  private Declaration declare(Opened now) throws LinkException, BreachException, FixtureException {
    if (declared.isPresent()) {
      return declared.get();
    }
    Declaration declaration = Declaration.of(assembly, map, now.welcome().channels());
    long holds = 0;
    for (Request request : declaration.requests()) {
      Answer answer = now.session().ask(request, Session.Listener.NOBODY);
      if (answer instanceof Answer.Refused refused) {
        throw Words.refused(refused, "be told what is clamped");
      }
      holds = ((Answer.Declared) answer).declaration();
    }
    if (holds != declaration.check()) {
      throw new BreachException("M41", "the fixture holds another declaration than it was told");
    }
    declared = Optional.of(declaration);
    return declaration;
  }

  /**
   * The fixture, with a line that is opened anew if it was lost.
   *
   * @param seated whether it has to be the seating that was in place before
   */
  private Opened connected(boolean seated) throws FixtureException, LinkException {
    if (opened.isPresent()) {
      return opened.get();
    }
    long until = ticks.nanos() + settings.reconnect().toNanos();
    while (true) {
      String trouble;
      try {
        return welcome(Opened.open(way, lastNonce), seated);
      } catch (LinkException e) {
        trouble = e.told();
      } catch (FixtureException.Unreachable e) {
        trouble = String.valueOf(e.getMessage());
      }
      if (stopping.get()) {
        throw new LinkException(port.name(), LinkException.Cause.GONE, trouble);
      }
      if (ticks.nanos() - until >= 0) {
        throw new FixtureException.Unreachable(
            "The line was lost and did not come back within "
                + settings.reconnect().toSeconds()
                + " s. "
                + trouble
                + " What was read stays good: run the same command with --resume.");
      }
      ticks.pass(settings.retry());
    }
  }

  private Opened welcome(Opened now, boolean seated) throws FixtureException {
    boolean kept = false;
    try {
      Mapped.require(now, map, port.name());
      if (!now.capabilities().equals(capabilities)) {
        throw new FixtureException.Mismatch(
            "The fixture at "
                + port.name()
                + " says other things of itself than before the line was lost. Begin a new pass.");
      }
      if (seated && now.welcome().boot() != boot) {
        throw Words.restarted(now.welcome().resetCause());
      }
      if (seated) {
        requireSameSeating(now.welcome().lidCount());
      }
      kept = true;
    } finally {
      if (!kept) {
        now.session().close();
      }
    }
    boot = now.welcome().boot();
    lastNonce = now.session().nonce();
    declared = Optional.empty();
    opened = Optional.of(now);
    return now;
  }

  private void hangUp() {
    opened.ifPresent(o -> o.session().close());
    opened = Optional.empty();
    declared = Optional.empty();
  }

  @Override
  public void stop() {
    if (running.get()) {
      stopping.set(true);
      ticks.wake();
    }
  }

  @Override
  public void close() {
    hangUp();
    aside.shutdownNow();
  }
}

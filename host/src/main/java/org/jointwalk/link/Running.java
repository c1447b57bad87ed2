package org.jointwalk.link;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.ProgramWriter;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Wiring;

/**
 * One run of a fixture, from RUN to END. While the log writes, which may take longer than the
 * fixture bears silence, another thread speaks and listens; it holds this object meanwhile.
 */
final class Running {

  /** A frame that has not been heard for so long was lost: four times what a fixture may take. */
  private static final long UNHEARD_NANOS = 100_000_000;

  private final Opened opened;
  private final Scan scan;
  private final long run;
  private final Declaration declaration;
  private final Ticks ticks;
  private final LinkSettings settings;
  private final ScheduledExecutorService aside;
  private final BooleanSupplier stopping;
  private final Outgoing outgoing;
  private final Incoming incoming;
  private int kept;
  private Optional<LinkException> lineFailed = Optional.empty();
  private Optional<BreachException> breached = Optional.empty();
  private OptionalLong stopWanted = OptionalLong.empty();
  private boolean stopAsked;

  /**
   * @param opened fixture, to which the declaration was made
   * @param scan what is left of it
   * @param run id, another one than that of the run before
   * @param stopping whether the user wants it to end
   */
  Running(
      Opened opened,
      Scan scan,
      long run,
      Wiring wiring,
      Declaration declaration,
      Ticks ticks,
      LinkSettings settings,
      ScheduledExecutorService aside,
      BooleanSupplier stopping) {
    this.opened = opened;
    this.scan = scan;
    this.run = run;
    this.declaration = declaration;
    this.ticks = ticks;
    this.settings = settings;
    this.aside = aside;
    this.stopping = stopping;
    this.kept = scan.first();
    outgoing =
        new Outgoing(
            run,
            opened.session(),
            new ProgramWriter(run, scan, wiring, declaration, opened.welcome()),
            opened.welcome().window(),
            credit(),
            ticks,
            settings);
    incoming = new Incoming(run, scan.first(), end(), outgoing);
  }

  /** Index of the first step whose reading was not kept. */
  int kept() {
    return kept;
  }

  Incoming incoming() {
    return incoming;
  }

  private int end() {
    return scan.first() + scan.steps().size();
  }

  private long credit() {
    return (long) kept + settings.ahead();
  }

  /**
   * Asks for the run, with the beginning of its program right behind; the answer is a state, or a
   * refusal, and then the fixture passes over what came behind.
   */
  Answer begin() throws LinkException, BreachException {
    Session session = opened.session();
    session.settle(incoming);
    session.begin(
        new Request.Run(run, scan.first(), scan.steps().size(), credit(), declaration.check()));
    outgoing.send(incoming.next());
    return session.await(incoming);
  }

  /**
   * Takes the run to its end.
   *
   * @param keep called on this thread
   * @return the fixture's account; empty when it did not say that it stopped, which it does by
   *     itself a second later
   */
  Optional<Account> finish(Fixture.Keep keep) throws LinkException, BreachException {
    long stopSince = 0;
    boolean stopped = false;
    while (true) {
      boolean nothingToWaitFor = incoming.hasCovered() || incoming.ended().isPresent();
      once(nothingToWaitFor ? Duration.ZERO : settings.turn());
      Optional<Batch> batch = incoming.covered();
      if (batch.isPresent()) {
        keep(batch.get(), keep);
      } else if (incoming.ended().isPresent()) {
        return incoming.ended();
      }
      if (stopping.getAsBoolean()) {
        if (!stopped) {
          stopped = true;
          stopSince = ticks.nanos();
        } else if (ticks.nanos() - stopSince > settings.stop().toNanos()) {
          return Optional.empty();
        }
      }
    }
  }

  /** Ends the run in whatever state it is, without a word about how that went. */
  boolean abandon() {
    long since = ticks.nanos();
    try {
      stopAsked = false;
      while (incoming.ended().isEmpty() && ticks.nanos() - since < settings.stop().toNanos()) {
        abandonOnce();
      }
      return incoming.ended().isPresent();
    } catch (LinkException | BreachException e) {
      return false;
    }
  }

  private synchronized void abandonOnce() throws LinkException, BreachException {
    opened.session().turn(settings.turn(), incoming);
    answered();
    stop();
  }

  private synchronized void once(Duration most) throws LinkException, BreachException {
    if (lineFailed.isPresent()) {
      throw lineFailed.get();
    }
    if (breached.isPresent()) {
      throw breached.get();
    }
    Session session = opened.session();
    session.turn(most, incoming);
    answered();
    if (incoming.ended().isPresent()) {
      return;
    }
    if (stopping.getAsBoolean() || incoming.lost() || incoming.forbidden().isPresent()) {
      stop();
      return;
    }
    outgoing.look();
    outgoing.send(incoming.next());
    long due = settings.keepAlive().minus(settings.turn().multipliedBy(2)).toNanos();
    if (session.quiet() >= due && !session.asking() && outgoing.leavesRoomForARequest()) {
      session.begin(new Request.Status());
    }
  }

  private void answered() throws BreachException {
    Optional<Answer> answer = opened.session().answer();
    if (answer.isPresent() && answer.get() instanceof Answer.State state) {
      incoming.compare(state.account());
      if (stopAsked && incoming.ended().isEmpty()) {
        throw new BreachException("M72", "the fixture goes on with a run that it was told to stop");
      }
    }
  }

  private void stop() throws LinkException {
    if (stopAsked || opened.session().asking()) {
      return;
    }
    if (stopWanted.isEmpty()) {
      stopWanted = OptionalLong.of(ticks.nanos());
    }
    // What was not heard by now is lost, and takes no room in the fixture any more (M63, M65).
    boolean heardOrLost = ticks.nanos() - stopWanted.getAsLong() > UNHEARD_NANOS;
    if (heardOrLost || outgoing.leavesRoomForARequest()) {
      stopAsked = true;
      opened.session().begin(new Request.Stop());
    }
  }

  private void keep(Batch batch, Fixture.Keep keep) {
    long period = settings.keepAlive().toMillis() / 3;
    Future<?> pump =
        aside.scheduleWithFixedDelay(this::meanwhile, period, period, TimeUnit.MILLISECONDS);
    try {
      keep.keep(batch);
    } finally {
      pump.cancel(false);
    }
    synchronized (this) {
      kept += batch.readings().size();
      outgoing.allow(credit());
    }
  }

  private synchronized void meanwhile() {
    try {
      if (lineFailed.isEmpty() && breached.isEmpty()) {
        once(Duration.ZERO);
      }
    } catch (LinkException e) {
      lineFailed = Optional.of(e);
    } catch (BreachException e) {
      breached = Optional.of(e);
    }
  }

  /** What makes going on impossible or dangerous, if anything. */
  Optional<FixtureException> danger() {
    return incoming
        .forbidden()
        .map(
            step ->
                new FixtureException.Refused(
                    "The fixture refuses step "
                        + step.index()
                        + " of the scan ("
                        + scan.step(step.index()).kind()
                        + ", "
                        + scan.step(step.index()).high()
                        + " against "
                        + scan.step(step.index()).low()
                        + "): "
                        + step.reason().text()
                        + ". Nothing was sourced for it. Look whether the right set-up and the right"
                        + " maps were named, and whether the battery is out."));
  }
}

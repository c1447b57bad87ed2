package org.jointwalk.link;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Taken;

/**
 * What comes back in one run. Readings are held until a good bus check covers them (M79), so that
 * nothing is ever kept that would have to be voided later. Not thread-safe.
 */
final class Incoming implements Session.Listener {

  private final long run;
  private final long end;
  private final Outgoing outgoing;
  private final Deque<Batch> covered = new ArrayDeque<>();
  private final List<Reading> held = new ArrayList<>();
  private long closures;
  private double seconds;
  private long next;
  private int record;
  private boolean lost;
  private Optional<Account> ended = Optional.empty();
  private Optional<Notice.Check> bad = Optional.empty();
  private Optional<Forbidden> forbidden = Optional.empty();

  /**
   * A step that the fixture would not take because it would be dangerous.
   *
   * @param index of the step
   * @param reason why
   */
  record Forbidden(int index, StepRefusal reason) {}

  /**
   * @param run id
   * @param first index of its first step
   * @param end index after its last
   * @param outgoing stream of the same run
   */
  Incoming(long run, long first, long end, Outgoing outgoing) {
    this.run = run;
    this.next = first;
    this.end = end;
    this.outgoing = outgoing;
  }

  /** Index of the first step that is not known to have a result. */
  long next() {
    return next;
  }

  /** Readings that may be kept, each batch once. */
  Optional<Batch> covered() {
    return Optional.ofNullable(covered.poll());
  }

  boolean hasCovered() {
    return !covered.isEmpty();
  }

  /** Whether something of the run did not arrive, so that it has to end (M74). */
  boolean lost() {
    return lost;
  }

  /** The account of the run, once it is over. */
  Optional<Account> ended() {
    return ended;
  }

  /** The bus check that was bad, if one was. */
  Optional<Notice.Check> bad() {
    return bad;
  }

  /** The first step that is too dangerous for the fixture, if there was one. */
  Optional<Forbidden> forbidden() {
    return forbidden;
  }

  /** Readings that no good check has covered. */
  int uncovered() {
    return held.size();
  }

  /**
   * Compares a state with what has come: records that were sent before it and are not here are lost
   * (M71).
   */
  void compare(Account account) {
    if (account.run() != run || ended.isPresent()) {
      return;
    }
    // A repeated question gets the answer of the first one, which may be behind what has come.
    lost |= (short) (account.records() - record) > 0;
    if (account.end() != 0) {
      ended = Optional.of(account);
    }
  }

  @Override
  public void heard(Frame frame) throws BreachException, LinkException {
    if (frame.message() instanceof Notice.Heard report) {
      if (report.run() == run) {
        outgoing.heard(report);
      }
    } else if (frame.message() instanceof Notice.Recorded recorded && recorded.run() == run) {
      outgoing.heard(recorded.heard());
      record(frame.number(), recorded);
    }
  }

  private void record(int number, Notice.Recorded recorded) throws BreachException {
    int following = (record + 1) & 0xFFFF;
    lost |= number != following;
    record = number;
    if (recorded instanceof Notice.End over) {
      ended = Optional.of(over.account());
    } else if (recorded instanceof Notice.Check check) {
      check(check);
    } else if (recorded instanceof Notice.Results results) {
      take(results);
    } else {
      throw new BreachException("M76", "the fixture answers in bits what was asked in numbers");
    }
  }

  private void take(Notice.Results results) throws BreachException {
    long first = results.span().first();
    lost |= first != next;
    if (lost) {
      return;
    }
    if (first + results.results().size() > end) {
      throw new BreachException("M73", "the fixture has results beyond the last step " + end);
    }
    Batch batch = Results.batch(results);
    for (int i = 0; i < batch.readings().size() && forbidden.isEmpty(); i++) {
      forbidden = forbidden((int) first + i, results.results().get(i));
      if (forbidden.isEmpty()) {
        held.add(batch.readings().get(i));
      }
    }
    closures += batch.closures();
    seconds += batch.deviceSeconds();
    next += results.results().size();
  }

  /** What is refused for want of a proof or of power is a reading that says so, no danger. */
  private static Optional<Forbidden> forbidden(int index, Taken taken) {
    return taken instanceof Taken.Refused refused
        ? StepRefusal.of(refused.reason())
            .filter(
                reason ->
                    reason == StepRefusal.VOLTAGE
                        || reason == StepRefusal.CURRENT
                        || reason == StepRefusal.LIVE)
            .map(reason -> new Forbidden(index, reason))
        : Optional.empty();
  }

  private void check(Notice.Check check) throws BreachException {
    if (check.bad()) {
      bad = Optional.of(check);
      return;
    }
    if (check.upto() > next && !lost) {
      throw new BreachException(
          "M77", "a bus check covers results up to " + check.upto() + ", which ended at " + next);
    }
    int count = 0;
    while (count < held.size() && held.get(count).index() < check.upto()) {
      count++;
    }
    if (count > 0) {
      covered.add(new Batch(held.subList(0, count), closures, seconds));
      held.subList(0, count).clear();
      closures = 0;
      seconds = 0;
    }
  }
}

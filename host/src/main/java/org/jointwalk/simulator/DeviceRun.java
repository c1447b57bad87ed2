package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Path;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.ProgramReader;
import org.jointwalk.protocol.Proofs;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RequestLedger;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.Streamed;

/** One run of a {@link Device}: program, credit, steps, bus checks, end. Not thread-safe. */
final class DeviceRun {

  private static final int CONFIGURATIONS_A_CHECK = 64;
  private static final long CHECK_MICROS = 2_000;
  private static final double CHECK_VOLTS = 0.1;
  private static final double CHECK_AMPS = 1e-3;
  private static final double BAD_SIEMENS = 10e-6;
  private static final long OPEN_AFTER = 50_000;
  private static final long HEARD_AFTER = 10_000;
  private static final long HEARD_APART = 20_000;
  private static final int ONCE = 32;

  private final Request.Run asked;
  private final long end;
  private final Declaration declaration;
  private final ProgramReader reader;
  private final DeviceParts parts;
  private final Meter meter;
  private final DeviceRecords records;
  private final Proofs proofs;

  private long credit;
  private long done;
  private long checked;
  private int heard;
  private long heardDue = Long.MAX_VALUE;
  private boolean gap;
  private boolean stray;
  private long strayAt = Long.MIN_VALUE / 2;
  private Optional<RunEnd> ended = Optional.empty();
  private int detail;

  private List<Taker.Done> inHand = List.of();
  private long took;
  private int switched;
  private Set<Integer> closed = Set.of();
  private boolean checking = true;
  private int sinceCheck;
  private boolean refusingJoined;
  private long free;
  private boolean waiting;
  private boolean more;

  /**
   * @param asked what was asked for
   * @param declaration in force
   * @param proofs that outlast the run
   * @param records where its notices go
   * @param now in microseconds
   */
  DeviceRun(
      Request.Run asked,
      Answer.Welcome limits,
      Declaration declaration,
      Proofs proofs,
      DeviceParts parts,
      DeviceRecords records,
      long now) {
    this.asked = asked;
    this.end = asked.first() + asked.count();
    this.declaration = declaration;
    this.proofs = proofs;
    this.parts = parts;
    this.records = records;
    reader = new ProgramReader(limits, asked);
    meter = parts.fixture().begin();
    credit = asked.credit();
    done = asked.first();
    checked = asked.first();
    free = now + spent(CHECK_MICROS);
  }

  private long spent(long micros) {
    return Math.round(micros * parts.pace());
  }

  boolean over() {
    return ended.isPresent();
  }

  Optional<RunEnd> ended() {
    return ended;
  }

  long id() {
    return asked.run();
  }

  /** The channels that are closed now. */
  Set<Integer> closed() {
    return closed;
  }

  Account account() {
    return new Account(
        asked.run(),
        heard,
        ended.map(RunEnd::code).orElse(0),
        detail,
        reader.loaded(),
        done,
        credit,
        checked,
        records.count());
  }

  /** What STATE says of it: measuring, waiting for steps, waiting for credit. */
  int doing() {
    if (checking || !inHand.isEmpty() || done == end) {
      return 1;
    }
    return reader.step(done).isEmpty() ? 2 : done >= credit ? 3 : 1;
  }

  /** The next moment at which something has to be done, in microseconds. */
  long next() {
    long at = Math.min(heardDue, records.due());
    if (gap || stray) {
      at = Math.min(at, strayAt + HEARD_APART);
    }
    return more || checking || !inHand.isEmpty() ? Math.min(at, free) : at;
  }

  /** A streamed frame of this session that can be read. */
  void take(Streamed message, int number, long now) {
    if (message.run() != asked.run() || !isNext(number)) {
      return;
    }
    Optional<ProgramFault> fault = Optional.empty();
    if (message instanceof Streamed.Credit more) {
      if (more.limit() > credit) {
        credit = more.limit();
        parts.witness().acknowledged(asked.run(), credit - asked.credit() + asked.first());
      }
    } else {
      fault = reader.take(message, done);
    }
    settle(fault, number, now);
  }

  /** A streamed frame of this session that cannot be read. */
  void takeUnreadable(boolean ignored, ProgramFault fault, int number, long now) {
    if (isNext(number)) {
      settle(ignored ? Optional.empty() : Optional.of(fault), number, now);
    }
  }

  private boolean isNext(int number) {
    int ahead = RequestLedger.ahead(heard, number);
    gap |= ahead > 0;
    stray |= ahead < 0;
    return ahead == 0;
  }

  private void settle(Optional<ProgramFault> fault, int number, long now) {
    if (fault.isPresent()) {
      end(RunEnd.BAD_PROGRAM, fault.get().code(), now);
      return;
    }
    heard = number;
    heardDue = Math.min(heardDue, now + HEARD_AFTER);
  }

  /** Does what is due; at most some tens of steps. */
  void advance(long now) {
    more = true;
    for (int i = 0; i < ONCE && !over() && now >= free; i++) {
      if (checking) {
        finishCheck();
      } else if (!inHand.isEmpty()) {
        finishSteps();
      } else if (!beginNext(now)) {
        rest(now);
        more = false;
        break;
      }
    }
    if (!over()) {
      if (now >= records.due()) {
        records.flush(heard);
      }
      tellHeard(now);
    }
  }

  private void tellHeard(long now) {
    if (records.heard() == heard && heardDue != Long.MAX_VALUE) {
      heardDue = Long.MAX_VALUE;
    }
    boolean strays = (gap || stray) && now >= strayAt + HEARD_APART;
    if ((strays || now >= heardDue) && records.hasRoom(1)) {
      records.tell(new Notice.Heard(asked.run(), heard, strays && gap, reader.loaded(), credit));
      heardDue = Long.MAX_VALUE;
      if (strays) {
        strayAt = now;
        gap = false;
        stray = false;
      }
    }
  }

  /** Nothing can be begun: what is known goes out, and after a moment every channel opens. */
  private void rest(long now) {
    records.flush(heard);
    waiting = true;
    if (now - free > OPEN_AFTER) {
      closed = Set.of();
    }
  }

  private boolean beginNext(long now) {
    if (done == end || sinceCheck >= CONFIGURATIONS_A_CHECK) {
      if (!records.hasRoom(2)) {
        return false;
      }
      checking = true;
      closed = Set.of();
      begin(now, CHECK_MICROS);
      return true;
    }
    List<ProgramReader.Loaded> group = refusingJoined ? one() : group();
    if (group.isEmpty() || !records.hasRoom(group.size())) {
      return false;
    }
    boolean apart = refusingJoined || group.size() > parts.readers();
    if (apart) {
      ProgramReader.Loaded last = group.get(group.size() - 1);
      refusingJoined = last.step().together() && done + group.size() < end;
    }
    inHand = parts.taker().take(group, apart, declaration, proofs, meter);
    sinceCheck++;
    Set<Integer> next = new HashSet<>();
    long readings = 0;
    for (Taker.Done one : inHand) {
      next.addAll(one.channels());
      readings = Math.max(readings, one.micros());
    }
    Set<Integer> newly = new HashSet<>(next);
    newly.removeAll(closed);
    switched = newly.size();
    Path path = parts.able().path();
    double switching = path.operateSeconds() + path.releaseSeconds();
    took = readings + (switched > 0 ? Math.round(switching * 1e6) : 0);
    if (inHand.stream().anyMatch(one -> one.micros() > 0)) {
      closed = next;
    }
    begin(now, took);
    return true;
  }

  /** What follows at once begins when the last thing ended, however late that is looked at. */
  private void begin(long now, long micros) {
    long from = waiting ? now : free;
    waiting = false;
    free = from + spent(micros);
  }

  private List<ProgramReader.Loaded> one() {
    return done < credit ? reader.step(done).map(List::of).orElse(List.of()) : List.of();
  }

  /** The next configuration, empty when it is not whole; more than can be read is cut off. */
  private List<ProgramReader.Loaded> group() {
    List<ProgramReader.Loaded> group = new ArrayList<>();
    for (long i = done; i < Math.min(end, credit); i++) {
      Optional<ProgramReader.Loaded> step = reader.step(i);
      if (step.isEmpty()) {
        return List.of();
      }
      group.add(step.get());
      if (!step.get().step().together() || i == end - 1 || group.size() > parts.readers()) {
        return group;
      }
    }
    return List.of();
  }

  private void finishSteps() {
    for (int i = 0; i < inHand.size(); i++) {
      Taker.Done one = inHand.get(i);
      parts.witness().taken(asked.run(), done, one.taken());
      boolean first = i == 0;
      records.add(done, one, free, first ? took : 0, first ? switched : 0, heard);
      done++;
    }
    inHand = List.of();
  }

  private void finishCheck() {
    checking = false;
    boolean bad = check();
    sinceCheck = 0;
    if (bad) {
      finish(RunEnd.BUS_CHECK, 0);
    } else if (done == end) {
      finish(RunEnd.DONE, 0);
    }
  }

  /** Whether there is more between the open buses than may be. */
  private boolean check() {
    double siemens = parts.fixture().idleSiemens();
    double volts = Math.min(CHECK_VOLTS, CHECK_AMPS / siemens);
    boolean bad = siemens > BAD_SIEMENS;
    records.flush(heard);
    records.check(done, bad, volts, volts * siemens, heard);
    if (!bad) {
      checked = done;
    }
    return bad;
  }

  /** Ends the run for a reason from outside; a step under way has no result. */
  void end(RunEnd why, int code, long now) {
    if (over()) {
      return;
    }
    inHand = List.of();
    free = now;
    boolean bad = false;
    if (why == RunEnd.STOPPED) {
      closed = Set.of();
      bad = check();
    }
    finish(bad ? RunEnd.BUS_CHECK : why, code);
  }

  private void finish(RunEnd why, int code) {
    closed = Set.of();
    checking = false;
    boolean silent = why == RunEnd.TAKEN_OVER || why == RunEnd.LINE_LOST;
    if (!silent) {
      records.flush(heard);
      records.countEnd();
    }
    ended = Optional.of(why);
    detail = code;
    if (!silent) {
      records.end(account());
    }
  }
}

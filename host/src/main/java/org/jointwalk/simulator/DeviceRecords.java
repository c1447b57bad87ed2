package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Reading;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Taken;

/** The numbered notices of one run, with the results that wait for their frame. Not thread-safe. */
final class DeviceRecords {

  private static final long HELD_BACK = 10_000;
  private static final int MOST_BRIEF = 868;
  private static final long U32 = 0xFFFF_FFFFL;
  private static final int U16 = 0xFFFF;

  private final int session;
  private final long run;
  private final DeviceLine line;
  private final List<Taken> results = new ArrayList<>();
  private final List<Notice.Brief> answers = new ArrayList<>();
  private long first;
  private long at;
  private long took;
  private long closures;
  private long due = Long.MAX_VALUE;
  private int count;
  private int heard;

  DeviceRecords(int session, long run, DeviceLine line) {
    this.session = session;
    this.run = run;
    this.line = line;
  }

  /** Number of the last record. */
  int count() {
    return count;
  }

  /** The last streamed frame that the host has been told of. */
  int heard() {
    return heard;
  }

  /** When the results that wait have to go, in microseconds. */
  long due() {
    return due;
  }

  boolean hasRoom(int more) {
    return line.hasRoom(more);
  }

  /** A result that ended at a moment of the fixture's time. */
  void add(long index, Taker.Done done, long ended, long micros, int closed, int heardNow) {
    boolean brief = done.brief().isPresent();
    if (brief ? !results.isEmpty() || answers.size() == MOST_BRIEF : !fits(done.taken())) {
      flush(heardNow);
    }
    if (results.isEmpty() && answers.isEmpty()) {
      first = index;
      due = ended + HELD_BACK;
    }
    if (brief) {
      answers.add(done.brief().get());
    } else {
      results.add(done.taken());
    }
    at = ended;
    took += micros;
    closures += closed;
  }

  private boolean fits(Taken taken) {
    List<Taken> more = new ArrayList<>(results);
    more.add(taken);
    return answers.isEmpty() && Notice.Results.fits(more);
  }

  /** Sends the results that wait. */
  void flush(int heardNow) {
    if (results.isEmpty() && answers.isEmpty()) {
      return;
    }
    Notice.Span span =
        new Notice.Span(run, heardNow, first, at & U32, Math.min(took, U32), closures);
    record(
        answers.isEmpty() ? new Notice.Results(span, results) : new Notice.Bits(span, answers),
        heardNow);
    results.clear();
    answers.clear();
    took = 0;
    closures = 0;
    due = Long.MAX_VALUE;
  }

  void check(long upto, boolean bad, double volts, double amps, int heardNow) {
    Raw raw =
        ((Taken.Measured)
                Results.taken(
                    new Reading.Measured(0, List.of(new Reading.Point(volts, amps))),
                    StepRefusal.KIND))
            .points()
            .get(0);
    record(new Notice.Check(run, heardNow, upto, bad, raw.volt(), raw.amp()), heardNow);
  }

  /** The account that END carries counts END itself. */
  void countEnd() {
    count = (count + 1) & U16;
  }

  void end(Account account) {
    line.send(new Frame(session, count, new Notice.End(account)));
  }

  void tell(Notice.Heard notice) {
    heard = notice.heard();
    line.send(new Frame(session, 0, notice));
  }

  private void record(Notice notice, int heardNow) {
    count = (count + 1) & U16;
    heard = heardNow;
    line.send(new Frame(session, count, notice));
  }
}

package org.jointwalk.job;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Zero;
import org.jointwalk.stack.Attachment;

/**
 * A job as its log tells it.
 *
 * @param id of its stream
 * @param lastSeq number of the last event
 * @param intake what was told when it came in
 * @param attachment what the interposer is soldered to now
 * @param timeline every event, with its place
 * @param passes in order
 * @param closed whether the job was closed
 */
public record Job(
    String id,
    long lastSeq,
    Intake intake,
    Attachment attachment,
    List<Logged> timeline,
    List<PassRecord> passes,
    boolean closed) {

  public Job {
    timeline = List.copyOf(timeline);
    passes = List.copyOf(passes);
  }

  /**
   * Makes the job from its events; cost is linear in them.
   *
   * @param id of the stream
   * @param events all of it, in order; the first opens the job
   * @throws IllegalArgumentException when the events are not those of a job
   */
  public static Job fold(String id, List<Logged> events) {
    if (events.isEmpty() || !(events.get(0).event() instanceof Event.Opened opened)) {
      throw new IllegalArgumentException("job " + id + " does not begin with its opening");
    }
    Attachment attachment = Attachment.BOTH;
    List<OpenPass> passes = new ArrayList<>();
    boolean closed = false;
    for (Logged logged : events) {
      Event event = logged.event();
      if (event instanceof Event.Done done) {
        attachment = done.action().after(attachment);
      } else if (event instanceof Event.PassBegun begun) {
        passes.add(new OpenPass(begun, logged.seq()));
      } else if (event instanceof Event.Seated seated) {
        pass(passes, seated.pass()).seatings.add(seated.seating());
      } else if (event instanceof Event.ScanPlanned planned) {
        pass(passes, planned.pass()).scans.add(new OpenScan(planned));
      } else if (event instanceof Event.BatchKept kept) {
        pass(passes, kept.pass()).scan(kept.scan()).batches.add(kept.batch());
      } else if (event instanceof Event.ZeroUsed used) {
        pass(passes, used.pass()).zero = Optional.of(used.zero());
      } else if (event instanceof Event.PassGraded graded) {
        pass(passes, graded.pass()).graded = Optional.of(graded);
      } else if (event instanceof Event.Closed) {
        closed = true;
      } else if (event instanceof FixtureEvent) {
        throw new IllegalArgumentException("job " + id + " holds an entry of a fixture");
      }
    }
    return new Job(
        id,
        events.get(events.size() - 1).seq(),
        opened.intake(),
        attachment,
        events,
        passes.stream().map(OpenPass::record).toList(),
        closed);
  }

  private static OpenPass pass(List<OpenPass> passes, int number) {
    if (number < 1 || number > passes.size()) {
      throw new IllegalArgumentException("an event names pass " + number + ", which was not begun");
    }
    return passes.get(number - 1);
  }

  /** The actions recorded so far, in order. */
  public List<Action> actions() {
    List<Action> actions = new ArrayList<>();
    for (Logged logged : timeline) {
      if (logged.event() instanceof Event.Done done) {
        actions.add(done.action());
      }
    }
    return actions;
  }

  /** What was seen so far, in order. */
  public List<Seen> seen() {
    List<Seen> seen = new ArrayList<>();
    for (Logged logged : timeline) {
      if (logged.event() instanceof Event.Looked looked) {
        seen.add(looked.seen());
      }
    }
    return seen;
  }

  /** The last answer to whether it works clamped. */
  public WorksClamped clamped() {
    WorksClamped works = WorksClamped.NOT_TRIED;
    for (Logged logged : timeline) {
      if (logged.event() instanceof Event.Clamped clamped) {
        works = clamped.works();
      }
    }
    return works;
  }

  /** How many seatings the job has had. */
  public int seatings() {
    long watched = timeline.stream().filter(l -> l.event() instanceof WatchEvent.Seated).count();
    return passes.stream().mapToInt(p -> p.seatings().size()).sum() + (int) watched;
  }

  private static final class OpenPass {

    private final Event.PassBegun begun;
    private final long seq;
    private final List<Seating> seatings = new ArrayList<>();
    private final List<OpenScan> scans = new ArrayList<>();
    private Optional<Zero> zero = Optional.empty();
    private Optional<Event.PassGraded> graded = Optional.empty();

    private OpenPass(Event.PassBegun begun, long seq) {
      this.begun = begun;
      this.seq = seq;
    }

    private OpenScan scan(int number) {
      if (number < 1 || number > scans.size()) {
        throw new IllegalArgumentException(
            "readings name scan "
                + number
                + " of pass "
                + begun.pass()
                + ", which was not planned");
      }
      return scans.get(number - 1);
    }

    private PassRecord record() {
      return new PassRecord(
          begun, seq, seatings, scans.stream().map(OpenScan::record).toList(), zero, graded);
    }
  }

  private static final class OpenScan {

    private final Event.ScanPlanned planned;
    private final List<Batch> batches = new ArrayList<>();

    private OpenScan(Event.ScanPlanned planned) {
      this.planned = planned;
    }

    private PassRecord.ScanRecord record() {
      return new PassRecord.ScanRecord(planned.seating(), planned.plan(), batches);
    }
  }
}

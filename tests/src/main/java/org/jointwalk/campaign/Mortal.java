package org.jointwalk.campaign;

import java.nio.file.Path;
import java.time.Duration;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.SplittableRandom;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.link.ByteLink;
import org.jointwalk.link.LinkException;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Streamed;

/**
 * A program of its own that runs one pass over a line and dies where it is told to, without any
 * last word: what it has not made durable by then is gone. One thread.
 */
final class Mortal {

  static final String JOB = "J-0001";

  private static final int KILLED = 137;

  /** Few, so that the fixture is told soon what is durable. */
  private static final int AHEAD = 128;

  private final Point point;
  private final long nth;
  private long count;

  /** Where it dies. */
  enum Point {
    /** Nowhere. */
    NEVER,
    /** A batch is about to be written to the log. */
    BEFORE_APPEND,
    /** A batch is being written: some time after it began. */
    IN_APPEND,
    /** A batch is durable, and the fixture does not know it yet. */
    AFTER_APPEND,
    /** A credit is about to go out. */
    BEFORE_CREDIT,
    /** A credit has gone out. */
    AFTER_CREDIT,
    /** Half of a frame has gone out. */
    MID_FRAME;

    String words() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  private Mortal(Point point, long nth) {
    this.point = point;
    this.nth = nth;
  }

  /**
   * Runs the pass and ends with 0; dies with 137.
   *
   * @param args port, log file, seed of the model, point, which time the point is reached
   */
  public static void main(String[] args) throws FixtureException, PassException {
    Mortal mortal = new Mortal(Point.valueOf(args[3]), Long.parseLong(args[4]));
    mortal.run(args[0], Path.of(args[1]), Kill.stand(Long.parseLong(args[2])));
  }

  private void run(String name, Path file, Stand stand) throws FixtureException, PassException {
    LinkSettings settings = LinkSettings.DEFAULTS.withAhead(AHEAD);
    try (JobLog log = new Dying(new SqliteJobLog(file, InstantSource.system(), ZoneOffset.UTC));
        LinkFixture fixture =
            LinkFixture.open(
                new DyingPort(Ports.named(name, settings)),
                stand.assembly(),
                stand.fixture(),
                Ticks.ofThisComputer(),
                new SplittableRandom(),
                settings)) {
      Request request =
          new Request(
              JOB,
              stand.assembly(),
              stand.fixture().contacts(),
              Purpose.DIAGNOSIS,
              "pads",
              "fixture",
              "jw",
              "campaign",
              true);
      new Pass(fixture, log, new Nobody(), request).run();
    }
  }

  private boolean isTime() {
    return ++count == nth;
  }

  private static void die() {
    Runtime.getRuntime().halt(KILLED);
  }

  private static void dieAfter(long nanos) {
    Thread thread =
        new Thread(
            () -> {
              long until = System.nanoTime() + nanos;
              while (System.nanoTime() < until) {
                Thread.onSpinWait();
              }
              die();
            });
    thread.setDaemon(true);
    thread.start();
  }

  /** Seats nothing again. */
  private static final class Nobody implements Operator {

    @Override
    public boolean reseat(List<String> positions) {
      return false;
    }

    @Override
    public void progress(Need need, int taken, int of) {
      // Nobody watches.
    }

    @Override
    public void remark(String text) {
      // What a remark says is also in the findings.
    }
  }

  /** A log that may not come back from an append. */
  private final class Dying implements JobLog {

    private final JobLog log;

    private Dying(JobLog log) {
      this.log = log;
    }

    @Override
    public long append(String stream, long expectedSeq, List<Event> events) {
      boolean batch = events.get(0) instanceof Event.BatchKept;
      if (batch && point == Point.BEFORE_APPEND && isTime()) {
        die();
      }
      if (batch && point == Point.IN_APPEND && isTime()) {
        // An append takes about half a millisecond.
        dieAfter(new SplittableRandom().nextLong(800_000));
      }
      long seq = log.append(stream, expectedSeq, events);
      if (batch && point == Point.AFTER_APPEND && isTime()) {
        die();
      }
      return seq;
    }

    @Override
    public List<Logged> read(String stream) {
      return log.read(stream);
    }

    @Override
    public List<String> streams() {
      return log.streams();
    }

    @Override
    public List<String> fixtures() {
      return log.fixtures();
    }

    @Override
    public String keep(String kind, String text) {
      return log.keep(kind, text);
    }

    @Override
    public Optional<String> text(String hash) {
      return log.text(hash);
    }

    @Override
    public void close() {
      log.close();
    }
  }

  private final class DyingPort implements Port {

    private final Port port;

    private DyingPort(Port port) {
      this.port = port;
    }

    @Override
    public String name() {
      return port.name();
    }

    @Override
    public ByteLink open() throws LinkException {
      return new DyingLink(port.open());
    }
  }

  /** A line that may not come back from a write. */
  private final class DyingLink implements ByteLink {

    private final ByteLink link;
    private final Parser parser = new Parser(Parser.End.FIXTURE);

    private DyingLink(ByteLink link) {
      this.link = link;
    }

    @Override
    public String name() {
      return link.name();
    }

    @Override
    public byte[] read(Duration most) throws LinkException {
      return link.read(most);
    }

    @Override
    public void write(byte[] bytes) throws LinkException {
      List<Received> frames = parser.feed(bytes, 0, bytes.length);
      boolean credit =
          frames.stream()
              .anyMatch(
                  r ->
                      r instanceof Received.Whole whole
                          && whole.frame().message() instanceof Streamed.Credit);
      if (credit && point == Point.BEFORE_CREDIT && isTime()) {
        die();
      }
      if (!frames.isEmpty() && point == Point.MID_FRAME && isTime()) {
        link.write(Arrays.copyOf(bytes, (bytes.length + 1) / 2));
        die();
      }
      link.write(bytes);
      if (credit && point == Point.AFTER_CREDIT && isTime()) {
        die();
      }
    }

    @Override
    public void close() {
      link.close();
    }
  }
}

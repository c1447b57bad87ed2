package org.jointwalk.link;

import java.io.ByteArrayOutputStream;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramWriter;
import org.jointwalk.protocol.Streamed;

/**
 * The stream of one run: sends as much of the program as the fixture has room to receive, and sends
 * again what was lost, from the first frame not heard (M65). Not thread-safe.
 */
final class Outgoing {

  /** Room that is left for a request, which is repeated behind a delimiter. */
  private static final int FOR_A_REQUEST = 13;

  /** Longest frame on the line, its delimiter included. */
  private static final int LONGEST = 252;

  private final long run;
  private final Session session;
  private final ProgramWriter writer;
  private final int window;
  private final Ticks ticks;
  private final LinkSettings settings;
  private final Deque<Sent> unheard = new ArrayDeque<>();
  private Optional<Streamed> ready = Optional.empty();
  private long credit;
  private boolean creditDue;
  private int bytes;
  private int number;
  private int heard;
  private int gapSeen = -1;
  private int again;
  private long progressed;

  /** A frame that the fixture has not said to have taken. */
  private static final class Sent {

    private final byte[] wire;

    private Sent(byte[] wire) {
      this.wire = wire;
    }
  }

  /**
   * @param run id
   * @param session that carries it
   * @param writer of its program
   * @param window bytes that may be on their way
   * @param credit that the run began with
   */
  Outgoing(
      long run,
      Session session,
      ProgramWriter writer,
      int window,
      long credit,
      Ticks ticks,
      LinkSettings settings) {
    this.run = run;
    this.session = session;
    this.writer = writer;
    this.window = window;
    this.credit = credit;
    this.ticks = ticks;
    this.settings = settings;
  }

  /** Allows steps below an index to be taken. */
  void allow(long limit) {
    if (limit > credit) {
      credit = limit;
      creditDue = true;
    }
  }

  /** Whether a request may be sent beside what is on its way. */
  boolean leavesRoomForARequest() {
    return bytes + FOR_A_REQUEST <= window;
  }

  /**
   * Sends what there is room for.
   *
   * @param done index of the first step that is not known to have a result
   */
  void send(long done) throws LinkException {
    ByteArrayOutputStream frames = new ByteArrayOutputStream();
    boolean room = true;
    while (room) {
      if (ready.isEmpty()) {
        ready = next(done);
      }
      room = ready.isPresent() && put(ready.get(), frames);
    }
    if (frames.size() > 0) {
      session.stream(frames.toByteArray());
    }
  }

  private Optional<Streamed> next(long done) {
    if (creditDue) {
      creditDue = false;
      return Optional.of(new Streamed.Credit(run, credit));
    }
    return writer.next(done);
  }

  private boolean put(Streamed message, ByteArrayOutputStream frames) {
    int following = (number + 1) & 0xFFFF;
    byte[] wire = session.frame(following, message).encode();
    int free = window - bytes - session.unanswered();
    // Where a window holds one frame and no more, a request has to wait until that is heard.
    int kept = window < LONGEST + FOR_A_REQUEST || session.asking() ? 0 : FOR_A_REQUEST;
    if (wire.length > free - kept) {
      return false;
    }
    if (unheard.isEmpty()) {
      progressed = ticks.nanos();
    }
    number = following;
    unheard.add(new Sent(wire));
    bytes += wire.length;
    frames.writeBytes(wire);
    ready = Optional.empty();
    return true;
  }

  /**
   * Takes note of how far the fixture has taken the stream.
   *
   * @throws BreachException when it took what was never sent
   */
  void heard(int upto) throws BreachException {
    int taken = (short) (upto - heard);
    if (taken > unheard.size()) {
      throw new BreachException(
          "M63", "the fixture has heard frame " + upto + " and was sent " + number);
    }
    for (int i = 0; i < taken; i++) {
      bytes -= unheard.remove().wire.length;
    }
    if (taken > 0) {
      heard = upto;
      again = 0;
      progressed = ticks.nanos();
    }
  }

  /** Takes a report on the stream; a gap is filled once. */
  void heard(Notice.Heard report) throws BreachException, LinkException {
    heard(report.heard());
    if (report.gap() && report.heard() == heard && gapSeen != heard) {
      gapSeen = heard;
      sendAgain();
    }
  }

  /**
   * Sends again what makes no progress.
   *
   * @throws LinkException when that was done often enough
   */
  void look() throws LinkException {
    if (unheard.isEmpty() || ticks.nanos() - progressed < settings.progress().toNanos()) {
      return;
    }
    again++;
    if (again > settings.progresses()) {
      throw new LinkException(
          "the line", LinkException.Cause.SILENT, Words.unheard(settings.progresses()));
    }
    sendAgain();
  }

  private void sendAgain() throws LinkException {
    ByteArrayOutputStream frames = new ByteArrayOutputStream();
    unheard.forEach(sent -> frames.writeBytes(sent.wire));
    if (frames.size() > 0) {
      session.stream(frames.toByteArray());
    }
    progressed = ticks.nanos();
  }
}

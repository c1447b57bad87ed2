package org.jointwalk.simulator;

import java.util.ArrayDeque;
import java.util.Deque;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Taken;

/** What a {@link Device} says of itself: limits, lid, button, counters. Not thread-safe. */
final class DeviceBody {

  static final int LID_OPENED = 1;
  static final int LID_CLOSED = 2;
  static final int BUTTON_PRESSED = 3;

  private static final int VERSION = 1;
  private static final int STEPS = 256;
  private static final int SETTINGS = 16;
  private static final int SETS = 8;
  private static final int BROKEN = 4;
  private static final int MOST_EVENTS = 16;
  private static final long U32 = 0xFFFF_FFFFL;
  private static final int U16 = 0xFFFF;

  private final Capabilities able;
  private final int channels;
  private final long check;
  private final Deque<Notice.Event> events = new ArrayDeque<>();
  private Device.Start start;
  private boolean lidOpen;
  private long lidCount;
  private long buttonCount;
  private int broken;
  private int dropped;
  private int oversize;
  private long overrun;

  /**
   * @param check over all capability items
   */
  DeviceBody(Capabilities able, int channels, long check, Device.Start start) {
    this.able = able;
    this.channels = channels;
    this.check = check;
    this.start = start;
  }

  Answer.Welcome welcome(long nonce, long now) {
    return new Answer.Welcome(
        VERSION,
        nonce,
        start.boot(),
        start.cause(),
        new Draw(0).at(able.build()).key(),
        lidOpen ? 1 : 0,
        lidCount & U32,
        buttonCount & U32,
        DeviceLine.WINDOW,
        channels,
        STEPS,
        SETTINGS,
        able.switching().groups() ? SETS : 0,
        Taken.MOST_POINTS,
        (int) Math.round(able.ratings().clamp().value() * 1e8),
        Math.round(able.ratings().watts() * 1e3),
        check,
        now & U32);
  }

  /**
   * How things are.
   *
   * @param doing what a run does, 0 without one
   * @param account of the run under way or the last one
   */
  Answer.State state(int doing, Account account, long now) {
    return new Answer.State(
        broken == 0 ? doing : BROKEN,
        lidOpen ? 1 : 0,
        lidCount & U32,
        buttonCount & U32,
        broken,
        now & U32,
        dropped,
        oversize,
        (int) (overrun & U16),
        account);
  }

  boolean lidOpen() {
    return lidOpen;
  }

  void openLid() {
    lidOpen = true;
    lidCount++;
  }

  void closeLid() {
    lidOpen = false;
  }

  void pressButton() {
    buttonCount++;
  }

  /** What is broken; 0 for nothing. */
  int broken() {
    return broken;
  }

  void breakDown(int fault) {
    broken = fault;
  }

  /** A frame was dropped. */
  void dropped(boolean over) {
    oversize = (oversize + (over ? 1 : 0)) & U16;
    dropped = (dropped + (over ? 0 : 1)) & U16;
  }

  /** So many more bytes had no room. */
  void overrun(long bytes) {
    overrun += bytes;
  }

  /** All counters begin anew. */
  void restart(Device.Start again) {
    start = again;
    lidCount = 0;
    buttonCount = 0;
    broken = 0;
    dropped = 0;
    oversize = 0;
    overrun = 0;
    forgetEvents();
  }

  /** Keeps an event until it is told; of many at once the later ones are lost (M87). */
  void event(int kind, long now) {
    if (events.size() < MOST_EVENTS) {
      long count = kind == BUTTON_PRESSED ? buttonCount : lidCount;
      events.add(new Notice.Event(kind, count & U32, now & U32));
    }
  }

  boolean hasEvents() {
    return !events.isEmpty();
  }

  Notice.Event nextEvent() {
    return events.remove();
  }

  void forgetEvents() {
    events.clear();
  }
}

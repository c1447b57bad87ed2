package org.jointwalk.conform;

import java.util.ArrayDeque;
import java.util.Deque;
import org.jointwalk.protocol.Bytes;

/** A sound device broken in one place, with what the breaks need to remember. */
final class Broken extends Damage {

  static final int REFUSED = 0x80;
  static final int WELCOME = 0x81;
  static final int PAGE = 0x82;
  static final int DECLARED = 0x83;
  static final int STATE = 0x84;
  static final int RESULTS = 0xC1;
  static final int BITS = 0xC2;
  static final int CHECK = 0xC3;
  static final int HEARD = 0xC4;
  static final int END = 0xC5;
  static final int EVENT = 0xC6;

  private static final RawFrame NONE = new RawFrame(0, 0, 0, Bytes.of(new byte[60]));
  private static final int OWN = 0xFEED;
  private static final int RECORDS = 25;

  /** One way to be broken. */
  @FunctionalInterface
  interface Way {
    void goes(Broken broken, RawFrame frame);
  }

  /** One way to treat bytes that are no frame. */
  @FunctionalInterface
  interface Noise {
    void comes(Broken broken, byte[] encoded);
  }

  Way asked = Broken::down;
  Way said = Broken::up;
  Noise heardNoise = Broken::plain;
  Runnable ticks = () -> {};

  RawFrame last = NONE;
  RawFrame declare = NONE;
  RawFrame setting = NONE;
  RawFrame run = NONE;
  RawFrame steps = NONE;
  boolean repeated;
  boolean refused;
  int session;
  int sessions;
  int empties;
  int lost;
  long hostAt;
  long readAt;
  long quietUntil;
  private long frameBegan;
  private boolean inFrame;
  private final Deque<Late> late = new ArrayDeque<>();

  private record Late(RawFrame frame, long due) {}

  @Override
  void fromHost(byte[] bytes) {
    hostAt = nanos;
    if (!inFrame) {
      frameBegan = nanos;
    }
    inFrame = bytes.length > 0 && bytes[bytes.length - 1] != 0;
    super.fromHost(bytes);
  }

  /** Nanoseconds that the frame which was asked last needed to come. */
  long slowly() {
    return nanos - frameBegan;
  }

  @Override
  void asks(RawFrame frame) {
    repeated = frame.equals(last);
    switch (frame.type()) {
      case 0x03 -> declare = frame;
      case 0x05 -> {
        run = frame;
        steps = NONE;
        lost = 0;
      }
      case 0x41 -> setting = frame.payload().size() < 42 ? NONE : frame;
      default -> {}
    }
    asked.goes(this, frame);
    if (frame.type() == 0x43 && frame.payload().size() > 9) {
      steps = frame;
    }
    if (frame.type() < 0x40) {
      last = frame;
    }
  }

  @Override
  void says(RawFrame frame) {
    if (frame.session() == OWN || frame.number() == OWN) {
      return;
    }
    if (frame.type() == WELCOME && frame.session() != session) {
      sessions++;
    }
    said.goes(this, frame);
    if (frame.type() == WELCOME) {
      session = frame.session();
    }
    if (frame.type() < 0xC0 && !repeated) {
      refused = frame.type() == REFUSED && !(frame.u16(1) == 5 || frame.u16(1) == 6);
    }
  }

  @Override
  void noise(byte[] encoded) {
    if (encoded.length == 0) {
      empties++;
    }
    heardNoise.comes(this, encoded);
  }

  void plain(byte[] encoded) {
    super.noise(encoded);
  }

  @Override
  void read() {
    readAt = nanos;
  }

  @Override
  void time(long now) {
    super.time(now);
    ticks.run();
    while (!late.isEmpty() && late.element().due() <= now) {
      up(late.remove().frame());
    }
  }

  /** Says it later, and whatever comes after it not before. */
  void upLate(RawFrame frame, long millis) {
    late.add(new Late(frame, nanos + millis * 1_000_000));
  }

  /** Says it, behind what is late. */
  void upInTurn(RawFrame frame) {
    if (late.isEmpty()) {
      up(frame);
    } else {
      late.add(new Late(frame, late.getLast().due()));
    }
  }

  void forgetLate() {
    late.clear();
  }

  /** Something that the open session says and nobody answers. */
  void keepAlive() {
    down(new RawFrame(0x44, session, 0, Bytes.of(new byte[8])));
  }

  /** Ends a run without the host's knowing why. */
  void stops() {
    down(new RawFrame(0x06, OWN, OWN, Bytes.NONE));
  }

  /** Streamed credit that changes nothing, in place of what was streamed. */
  void nothing(RawFrame streamed) {
    down(streamed.typed(0x44).sized(4).sized(8));
  }

  /** A refused result as one that was measured, if it is alone in its frame. */
  static RawFrame measured(RawFrame results) {
    return results.payload().at(22) == 1 && results.payload().at(23) == 0x40
        ? results.sized(23).sized(32).with(23, 1)
        : results;
  }

  /** A record after some that were never sent, as if there had been none. */
  RawFrame renumbered(RawFrame record) {
    if (record.type() < RESULTS || record.type() > END || record.type() == HEARD) {
      return record;
    }
    RawFrame moved = record.as(record.session(), record.number() - lost & 0xFFFF);
    return record.type() == END ? moved.with(RECORDS, moved.number(), moved.number() >> 8) : moved;
  }
}

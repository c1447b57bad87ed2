package org.jointwalk.conform;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Refusal;

/**
 * Reads the bytes that come, and notes whatever no frame of a fixture may be, in whichever check it
 * comes. Not thread-safe.
 */
final class Tap {

  private static final int MOST = 251;
  private static final int RESULTS = 0xC1;
  private static final int RESULTS_HEAD = 23;
  private static final int IGNORABLE = 0xE0;
  private static final double BAD_SIEMENS = 10e-6;

  /** A volt over an amp, in the units of the line. */
  private static final double SIEMENS = 1e-10 / 1e-8;

  private final Map<String, String> breaches = new HashMap<>();
  private final Map<Integer, Integer> owed = new HashMap<>();
  private byte[] pending = new byte[MOST + 1];
  private int size;
  private int open = -1;
  private long run;
  private int records;
  private long next;
  private boolean ended = true;
  private long frames;

  /** The first breach of each clause. */
  Map<String, String> breaches() {
    return Map.copyOf(breaches);
  }

  long frames() {
    return frames;
  }

  void note(String clause, String seen) {
    breaches.putIfAbsent(clause, seen);
  }

  /** A request went out, so one answer to it may come. */
  void asked(RawFrame request) {
    owed.merge(key(request), 1, Integer::sum);
  }

  private static int key(RawFrame frame) {
    return frame.session() << 16 | frame.number();
  }

  /** Makes frames of bytes. */
  List<Came> feed(byte[] bytes, long nanos) {
    List<Came> came = new ArrayList<>();
    for (byte value : bytes) {
      if (value != 0) {
        pending[Math.min(size, MOST)] = value;
        size++;
      } else if (size > 0) {
        byte[] encoded = Arrays.copyOf(pending, Math.min(size, MOST + 1));
        size = 0;
        read(encoded, nanos).ifPresent(came::add);
      }
    }
    return came;
  }

  private Optional<Came> read(byte[] encoded, long nanos) {
    if (encoded.length > MOST) {
      note("M5", "a frame of more than 251 bytes on the line");
      return Optional.empty();
    }
    Optional<byte[]> raw = RawFrame.decoded(encoded);
    if (raw.isEmpty()) {
      note("M7", "bytes between two delimiters that are not COBS");
      return Optional.empty();
    }
    if (raw.get().length < 9 || raw.get().length > 250) {
      note("M5", "a raw frame of " + raw.get().length + " bytes");
      return Optional.empty();
    }
    Optional<RawFrame> read = RawFrame.read(raw.get());
    if (read.isEmpty()) {
      note("M6", "a frame whose check is not the CRC-32C of what is before it");
      return Optional.empty();
    }
    frames++;
    return message(unlost(read.get()), nanos);
  }

  /** Lets the rest of a frame be read when a reading in it is the one value that never is. */
  private RawFrame unlost(RawFrame frame) {
    RawFrame whole = frame;
    if (frame.type() == RESULTS && frame.payload().size() > RESULTS_HEAD) {
      int at = RESULTS_HEAD;
      while (at < frame.payload().size()) {
        int head = frame.payload().at(at++);
        int values = head >> 5 == 2 ? 0 : 2 * (head & 0x1F);
        for (int i = 0; i < values && at + 4 <= frame.payload().size(); i++, at += 4) {
          if (frame.u32(at) == 0x8000_0000L) {
            note("M3", "a reading of -2^31");
            whole = whole.with(at, 1);
          }
        }
        at += head >> 5 == 2 ? 1 : 0;
      }
    }
    return whole;
  }

  private Optional<Came> message(RawFrame frame, long nanos) {
    byte[] wire = frame.wire();
    Received received = new Parser(Parser.End.HOST).feed(wire, 0, wire.length).get(0);
    if (received instanceof Received.Unreadable bad) {
      if (!(bad.refusal() == Refusal.UNKNOWN_TYPE && frame.type() >= IGNORABLE)) {
        note(clause(bad.refusal()), "a frame " + hex(frame) + " with " + bad.refusal().name());
      }
      return Optional.empty();
    }
    if (!(received instanceof Received.Whole whole)) {
      note("M90", "a frame " + hex(frame) + ", which only a host sends");
      return Optional.empty();
    }
    Came came = new Came(frame, whole.frame().message(), nanos);
    watch(came);
    return Optional.of(came);
  }

  private static String clause(Refusal refusal) {
    return refusal == Refusal.UNKNOWN_TYPE ? "M90" : refusal == Refusal.BAD_LENGTH ? "M16" : "M2";
  }

  private static String hex(RawFrame frame) {
    return String.format(Locale.ROOT, "0x%02X of %d bytes", frame.type(), frame.payload().size());
  }

  private void watch(Came came) {
    if (came.message() instanceof Answer) {
      int left = owed.getOrDefault(key(came.raw()), -1);
      if (left < 0) {
        note("M19", "an answer to a request that was not made: " + hex(came.raw()));
      } else if (left == 0) {
        note("M92", "a second answer to one request");
      }
      owed.put(key(came.raw()), Math.max(0, left - 1));
      if (came.message() instanceof Answer.Welcome) {
        ended |= open != came.raw().session();
        open = came.raw().session();
      }
    } else if (came.raw().session() != open) {
      note(open < 0 ? "M19" : "M21", "a notice of a session that is not open");
    } else if (came.message() instanceof Notice.Recorded record) {
      record(came, record);
    } else if (came.message() instanceof Notice.Heard heard && ended && heard.run() == run) {
      note("M70", "HEARD after END");
    }
  }

  /** A run begins: its records are counted anew. */
  void begins(long id, long first) {
    run = id;
    records = 0;
    next = first;
    ended = false;
  }

  private void record(Came came, Notice.Recorded record) {
    if (record.run() != run) {
      note("M73", "a record of a run that is not under way");
      return;
    }
    if (ended) {
      note("M70", "a record after END");
    }
    if (came.raw().number() != (records + 1 & 0xFFFF)) {
      note("M73", "record " + came.raw().number() + " after record " + records);
      return;
    }
    records = came.raw().number();
    if (record instanceof Notice.Results results) {
      follow(results.span().first(), results.results().size());
    } else if (record instanceof Notice.Bits bits) {
      follow(bits.span().first(), bits.answers().size());
    } else if (record instanceof Notice.Check check) {
      consistent(check);
    } else if (record instanceof Notice.End end) {
      ended = true;
      if (end.account().records() != records) {
        note("M70", "END " + records + " that counts " + end.account().records() + " records");
      }
    }
  }

  private void follow(long first, int count) {
    if (first > next) {
      note("M68", "results " + next + " to " + (first - 1) + " never came");
    } else if (first < next) {
      note("M73", "result " + first + " again");
    }
    next = first + count;
  }

  private void consistent(Notice.Check check) {
    double siemens = check.volt() == 0 ? 0 : Math.abs(SIEMENS * check.amp() / check.volt());
    if (siemens > BAD_SIEMENS * 1.01 && !check.bad()) {
      note("M78", "a bus check of " + siemens * 1e6 + " microsiemens that is called good");
    } else if (siemens < BAD_SIEMENS * 0.99 && check.bad() && check.volt() != 0) {
      note("M78", "a bus check of " + siemens * 1e6 + " microsiemens that is called bad");
    }
  }
}

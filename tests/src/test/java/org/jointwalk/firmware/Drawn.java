package org.jointwalk.firmware;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Bytes;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Lines;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.RandomMessages;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Streamed;

/** Draws bytes for a line: frames, frames with a spoilt content, damaged ones and noise. */
final class Drawn {

  private static final int MOST_PAYLOAD = 241;

  private final RandomGenerator random;
  private final JavaPeer peer;
  private final List<Function<RandomGenerator, Message>> kinds =
      new ArrayList<>(RandomMessages.kinds().values());

  /**
   * @param peer whose limits and place in a program make messages likely
   */
  Drawn(RandomGenerator random, JavaPeer peer) {
    this.random = random;
    this.peer = peer;
  }

  byte[] next() {
    return switch (random.nextInt(100)) {
      case 0 -> random.nextInt(8) == 0 ? sound(hello()) : noise();
      case 1, 2 -> noise();
      case 3, 4 -> oversize();
      case 5, 6, 7, 8, 9 -> damaged();
      case 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24 -> spoiltContent();
      default -> sound(likely(message()));
    };
  }

  private Message message() {
    Message drawn = kinds.get(random.nextInt(kinds.size())).apply(random);
    // HELLO begins anew, and what comes from a fixture is only looked at.
    int rarity = drawn instanceof Request.Hello ? 30 : 8;
    boolean rare = rarity == 30 || drawn instanceof Answer || drawn instanceof Notice;
    return rare && random.nextInt(rarity) > 0 ? message() : drawn;
  }

  private static Request.Hello hello() {
    return new Request.Hello(1, 1, false, 0x7777_0101L, 0);
  }

  private byte[] sound(Message message) {
    return new Frame(session(message), random.nextInt(65_536), message).encode();
  }

  private int session(Message message) {
    if (message instanceof Request.Hello hello) {
      return hello.session();
    }
    return message instanceof Answer.Welcome welcome
        ? (int) (welcome.nonce() & 0xFFFF)
        : random.nextInt(65_536);
  }

  /** What a random message lacks most to be taken: slots and indices that are there. */
  private Message likely(Message message) {
    if (random.nextInt(5) == 0) {
      return message;
    }
    if (message instanceof Request.Channels more) {
      return new Request.Channels(more.first() % 200 * 2, more.places());
    }
    if (message instanceof Streamed.Setting s) {
      return new Streamed.Setting(
          s.run(),
          s.slot() % (peer.settings() + 1),
          s.kind(),
          s.brief(),
          s.samples(),
          s.most(),
          s.voltage(),
          s.currents(),
          s.dwell(),
          s.limit(),
          s.below(),
          s.above(),
          random.nextBoolean() ? List.of() : s.items());
    }
    if (message instanceof Streamed.SetBits bits) {
      return new Streamed.SetBits(
          bits.run(), slot(bits.slot()), bits.more(), bits.first() / 8 % 100 * 8, bits.bits());
    }
    if (message instanceof Streamed.SetChange change) {
      return new Streamed.SetChange(
          change.run(),
          slot(change.slot()),
          slot(change.base()),
          twice(change.channels().stream().map(c -> c % 1_030).toList()));
    }
    if (message instanceof Streamed.Steps steps) {
      return new Streamed.Steps(steps.run(), peer.loaded(), steps.steps());
    }
    return message;
  }

  /** Sometimes with a channel that is named twice, which changes nothing. */
  private List<Integer> twice(List<Integer> channels) {
    List<Integer> more = new ArrayList<>(channels);
    if (!channels.isEmpty() && channels.size() < 100 && random.nextBoolean()) {
      more.add(random.nextBoolean() ? channels.get(0) : 1_029);
      more.add(more.get(more.size() - 1));
    }
    return more;
  }

  private int slot(int slot) {
    return slot % (peer.sets() + 1);
  }

  /** A good check around what may be no message. */
  private byte[] spoiltContent() {
    Message message = likely(message());
    Bytes payload = message.payload();
    for (int i = random.nextInt(3); i >= 0; i--) {
      int size = payload.size();
      switch (random.nextInt(3)) {
        case 0 -> payload = Lines.part(payload, 0, random.nextInt(size + 1));
        case 1 ->
            payload =
                size < MOST_PAYLOAD
                    ? Lines.join(payload, Lines.repeat(random.nextInt(256), 1))
                    : payload;
        default ->
            payload =
                size > 0
                    ? Lines.changed(payload, random.nextInt(size), random.nextInt(256))
                    : payload;
      }
    }
    int type = random.nextInt(20) == 0 ? random.nextInt(256) : message.type();
    return Lines.wire(Lines.raw(type, session(message), random.nextInt(65_536), payload)).toArray();
  }

  /** A frame with bytes changed, lost or doubled on the line. */
  private byte[] damaged() {
    Bytes wire = Bytes.of(sound(message()));
    int at = random.nextInt(wire.size());
    return switch (random.nextInt(4)) {
      case 0 -> Lines.changed(wire, at, random.nextInt(256)).toArray();
      case 1 ->
          Lines.join(Lines.part(wire, 0, at), Lines.part(wire, at + 1, wire.size())).toArray();
      case 2 -> Lines.part(wire, at, wire.size()).toArray();
      default -> Lines.join(Lines.part(wire, 0, at), wire).toArray();
    };
  }

  private byte[] noise() {
    byte[] bytes = new byte[random.nextInt(60)];
    random.nextBytes(bytes);
    return bytes;
  }

  /** About as long as a frame may be, and longer. */
  private byte[] oversize() {
    byte[] bytes = new byte[248 + random.nextInt(12)];
    Arrays.fill(bytes, (byte) 0x21);
    bytes[bytes.length - 1] = 0;
    return bytes;
  }
}

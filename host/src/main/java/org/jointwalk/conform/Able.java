package org.jointwalk.conform;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Touch;

/**
 * What a fixture can be asked, by what it says of itself.
 *
 * @param capabilities empty until they were read
 * @param channels how many it has
 * @param high a channel that reaches force-high
 * @param low another one that reaches force-low
 * @param beside a third one
 */
record Able(Optional<Capabilities> capabilities, int channels, int high, int low, int beside) {

  static final Able UNKNOWN = new Able(Optional.empty(), 0, 0, 1, 2);

  private static final int BUSES = 0x82;

  /** What a fixture says with these items. */
  static Able of(Capabilities capabilities, int channels, List<Item> items) {
    List<Integer> used = new ArrayList<>();
    for (int bit = 0; bit < 3; bit++) {
      int bus = bit == 1 ? 1 : 0;
      for (int channel = 0; channel < channels && used.size() == bit; channel++) {
        if (!used.contains(channel) && reaches(items, channel, bus)) {
          used.add(channel);
        }
      }
      if (used.size() == bit) {
        used.add(Math.min(bit, channels - 1));
      }
    }
    return new Able(Optional.of(capabilities), channels, used.get(0), used.get(1), used.get(2));
  }

  private static boolean reaches(List<Item> items, int channel, int bus) {
    boolean any = false;
    for (Item item : items) {
      if (item.tag() == BUSES && item.value().size() == 5) {
        any = true;
        int first = item.value().at(0) | item.value().at(1) << 8;
        int count = item.value().at(2) | item.value().at(3) << 8;
        if (channel >= first && channel < first + count && (item.value().at(4) >> bus & 1) == 1) {
          return true;
        }
      }
    }
    return !any;
  }

  Optional<Range> range(Kind kind) {
    return capabilities.flatMap(able -> able.range(kind));
  }

  /** Asks that the fixture measures a kind of step. */
  void require(Kind kind) throws Untestable {
    if (range(kind).isEmpty()) {
      throw new Untestable(
          "the fixture has no range for " + kind.name().toLowerCase(Locale.ROOT).replace('_', ' '));
    }
  }

  /** The same metal behind the three channels that the kit uses; no board for a bare one. */
  Declaration all(Touch touch) {
    return touching(touch, Set.of(high, low, beside));
  }

  /** One metal behind the first two channels that the kit uses, another behind the third. */
  Declaration both(Touch two, Touch third) {
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < channels; i++) {
      places.add(i == high || i == low ? 1 : i == beside ? 2 : 0);
    }
    return new Declaration(declare(List.of(two, third)), places);
  }

  /** Metal behind some channels, nothing behind all others. */
  Declaration touching(Touch touch, Set<Integer> which) {
    List<Integer> places = new ArrayList<>();
    for (int i = 0; i < channels; i++) {
      places.add(which.contains(i) ? 1 : 0);
    }
    return new Declaration(declare(List.of(touch)), places);
  }

  /** Says that the fixture is empty, in a manner that fits these classes. */
  static Request.Declare declare(List<Touch> classes) {
    boolean board = classes.stream().anyMatch(touch -> touch.kind() != Touch.Kind.BARE);
    return new Request.Declare(
        board ? Set.of(Request.Part.LOWER_BOARD) : Set.of(), "empty", classes);
  }

  static Touch touch(Touch.Kind kind) {
    return new Touch(kind, false, false, 0);
  }

  /** A message in a few words. */
  static String words(Message message) {
    if (message instanceof Answer.Refused refused) {
      String code = Refusal.of(refused.code()).map(Enum::name).orElse("code " + refused.code());
      return refused.detail() == 0 ? code : code + " (" + refused.detail() + ")";
    }
    return name(message.type());
  }

  /** The name of a type of message. */
  static String name(int type) {
    return switch (type) {
      case 0x01 -> "HELLO";
      case 0x02 -> "CAPABILITIES";
      case 0x03 -> "DECLARE";
      case 0x04 -> "CHANNELS";
      case 0x05 -> "RUN";
      case 0x06 -> "STOP";
      case 0x07 -> "STATUS";
      case 0x80 -> "REFUSED";
      case 0x81 -> "WELCOME";
      case 0x82 -> "PAGE";
      case 0x83 -> "DECLARED";
      case 0x84 -> "STATE";
      default -> String.format(Locale.ROOT, "message 0x%02X", type);
    };
  }
}

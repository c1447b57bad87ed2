package org.jointwalk.protocol;

import java.util.Optional;
import org.jointwalk.fixture.Kind;

/** The number of a kind of step on the line. Stateless. */
final class KindCode {

  private KindCode() {}

  static int of(Kind kind) {
    return switch (kind) {
      case ALL_OPEN -> 0;
      case RESIDUAL -> 1;
      case RESIDUAL_LOADED -> 2;
      case DISCHARGE -> 3;
      case LOW_LEVEL -> 4;
      case NORMAL_LEVEL -> 5;
      case ISOLATION -> 6;
      case JUNCTION -> 7;
      case CHARGE -> 8;
    };
  }

  /** The kind with a number, empty for one that this version does not have. */
  static Optional<Kind> kind(int code) {
    for (Kind kind : Kind.values()) {
      if (of(kind) == code) {
        return Optional.of(kind);
      }
    }
    return Optional.empty();
  }

  static Kind read(In in) throws Malformed {
    return kind(in.u8()).orElseThrow(() -> new Malformed(Refusal.BAD_VALUE, 0));
  }
}

package org.jointwalk.cli;

import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Side;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/**
 * A choice as it is typed: {@code ball-missing} for {@code BALL_MISSING}. The same object lists
 * what may be typed.
 */
abstract class Choice<E extends Enum<E>> implements ITypeConverter<E>, Iterable<String> {

  private final List<E> all;

  private Choice(E[] all) {
    this.all = List.of(all);
  }

  @Override
  public E convert(String typed) {
    String word = typed.strip().toLowerCase(Locale.ROOT).replace(' ', '-');
    return all.stream()
        .filter(constant -> word(constant).equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new TypeConversionException(
                    "\"" + typed + "\" is none of " + String.join(", ", this)));
  }

  @Override
  public Iterator<String> iterator() {
    return all.stream().map(Choice::word).iterator();
  }

  /** How a constant is typed and written. */
  static String word(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** A side of the stack. */
  static final class OfSide extends Choice<Side> {
    OfSide() {
      super(Side.values());
    }
  }

  /** What a pass is run for. */
  static final class OfPurpose extends Choice<Purpose> {
    OfPurpose() {
      super(Purpose.values());
    }
  }

  /** What was seen. */
  static final class OfLook extends Choice<Seen.Look> {
    OfLook() {
      super(Seen.Look.values());
    }
  }

  /** Whether it works clamped. */
  static final class OfWorks extends Choice<WorksClamped> {
    OfWorks() {
      super(WorksClamped.values());
    }
  }

  /** How a virtual fixture spends its time. */
  static final class OfPace extends Choice<FixtureVirtual.Tempo> {
    OfPace() {
      super(FixtureVirtual.Tempo.values());
    }
  }
}

package org.jointwalk.protocol;

import java.util.Set;
import org.jointwalk.fixture.Kind;

/**
 * A row and column of the table of section 11. The figures are common practice, no source.
 *
 * @param sources whether a voltage is sourced at all
 * @param volt largest, in 10 nV
 * @param amp largest, in 100 pA
 */
record WireCeiling(boolean sources, int volt, int amp) {

  /** Isolation at a bare interposer that is not proved bare, in 10 nV. */
  static final int UNPROVED_VOLT = 20_000_000;

  private static final int SIGNAL_VOLT = 5_000_000;
  private static final int POWER_AMP = 1_000_000_000;
  private static final int SIGNAL_AMP = 100_000_000;

  /**
   * @param kinds of metal that the step touches
   * @param delicate whether any of it is
   * @param nominal smallest nominal voltage of them, the largest integer when none is known
   */
  static WireCeiling of(Kind kind, Set<Touch.Kind> kinds, boolean delicate, int nominal) {
    boolean signal = kinds.contains(Touch.Kind.SIGNAL);
    int amp = signal ? SIGNAL_AMP : POWER_AMP;
    int volt = signal ? SIGNAL_VOLT : UNPROVED_VOLT;
    return switch (kind) {
      case LOW_LEVEL -> new WireCeiling(true, 2_000_000, amp);
      case NORMAL_LEVEL -> new WireCeiling(true, volt, amp);
      case ISOLATION ->
          new WireCeiling(true, kinds.contains(Touch.Kind.BARE) ? 500_000_000 : volt, SIGNAL_AMP);
      case JUNCTION ->
          new WireCeiling(true, Math.min(100_000_000, nominal), delicate ? 2_000_000 : 10_000_000);
      case CHARGE -> new WireCeiling(true, 15_000_000, SIGNAL_AMP);
      case ALL_OPEN -> new WireCeiling(true, Integer.MAX_VALUE, Integer.MAX_VALUE);
      case RESIDUAL, RESIDUAL_LOADED, DISCHARGE ->
          new WireCeiling(false, Integer.MAX_VALUE, Integer.MAX_VALUE);
    };
  }
}

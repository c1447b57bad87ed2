package org.jointwalk.diagnose;

import java.util.Optional;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;

/**
 * How often things go wrong, so that the words of a verdict are not arbitrary. Every figure is an
 * assumption, common practice without a source, and the same for every shop; only their ratios
 * matter.
 */
final class Odds {

  /** From here on a place is called located, when the evidence for it is direct. */
  static final double LOCATED = 0.95;

  /** From here on a place is called probable. */
  static final double PROBABLY = 0.75;

  /** A member with a smaller share is not worth naming when it was good before the work. */
  static final double WORTH_NAMING = 0.05;

  /** Parts that hold a smaller share of a fault are not suspected for it by themselves. */
  static final double WORTH_SUSPECTING = 0.25;

  /** A pad, via or joint that was good and has been heated since has gone bad only rarely. */
  static final double GOOD_BEFORE = 0.1;

  /** A board hides a dead part of a failing function: the board that carries the function. */
  static final double CARRYING_BOARD = 0.20;

  /** The same for the other board. */
  static final double OTHER_BOARD = 0.08;

  /** A whole row of joints was lost unmeasured and had the fault. */
  static final double LOST_ROW = 0.15;

  private static final double JOINT_OPEN = 0.015;
  private static final double JOINT_HIGH = 0.010;
  // A pad that is off (0.003) and a net behind it that does not answer (0.003) look the same.
  private static final double PAD_OPEN = 0.006;
  // A pad whose copper is cracked (0.001) and a series part behind it that has changed (0.003).
  private static final double PAD_HIGH = 0.004;
  private static final double VIA_OPEN = 0.001;
  private static final double VIA_HIGH = 0.0005;
  private static final double NET = 0.012;
  private static final double NET_SILENT = 0.003;
  private static final double NET_JOINED = 0.001;
  private static final double BRIDGE_FROM_DROP = 0.001;
  private static final double BRIDGE_FROM_IRON = 0.02;
  private static final double FRESH_JOINT = 2;
  private static final double REBUILT_PAD = 5;

  private static final double PROBE_OPEN = 0.005;
  private static final double PROBE_HIGH = 0.010;
  // One reading in a hundred is a blunder, spread over three outcomes.
  private static final double BLUNDER = 0.01 / 3;

  private Odds() {}

  /** How likely a part is to have a fault, before anything is measured. */
  static double of(Part part, Fault fault) {
    Component component = part.component();
    if (component instanceof Component.Joint && fault == Fault.SHORTED) {
      return part.life() > 0 ? BRIDGE_FROM_IRON : BRIDGE_FROM_DROP;
    }
    if (component instanceof Component.Joint) {
      double fresh = part.life() > 0 ? FRESH_JOINT : 1;
      return fresh * (fault == Fault.HIGH ? JOINT_HIGH : JOINT_OPEN);
    }
    if (component instanceof Component.Pad) {
      double rebuilt = part.life() > 0 ? REBUILT_PAD : 1;
      return rebuilt * (fault == Fault.HIGH ? PAD_HIGH : PAD_OPEN);
    }
    if (component instanceof Component.Via) {
      return fault == Fault.HIGH ? VIA_HIGH : VIA_OPEN;
    }
    if (component instanceof Component.Bridge) {
      return part.life() > 0 ? BRIDGE_FROM_IRON : BRIDGE_FROM_DROP;
    }
    return switch (fault) {
      case OPEN, HIGH -> NET_SILENT;
      case BRIDGED -> NET_JOINED;
      case SHORTED, DIFFERENT -> NET;
    };
  }

  /** How likely the fixture alone made the reading: the probe, or a blunder. */
  static double contact(Fault fault, boolean confirmed) {
    if (confirmed) {
      // The same probe misses in two clampings.
      return PROBE_OPEN * PROBE_OPEN;
    }
    return switch (fault) {
      case OPEN -> PROBE_OPEN + BLUNDER;
      case HIGH -> PROBE_HIGH + BLUNDER;
      case BRIDGED, SHORTED, DIFFERENT -> BLUNDER;
    };
  }

  /** By how much a look speaks for a fault of a component that it is about. */
  static double seen(Seen.Look look, Component component) {
    boolean joint = component instanceof Component.Joint;
    boolean pad = component instanceof Component.Pad;
    return switch (look) {
      case DRY, BALL_MISSING -> joint ? 20 : 1;
      case BALL_LOW -> joint ? 5 : 1;
      case TORN -> pad ? 1000 : 1;
      case SMEARED -> component instanceof Component.Bridge ? 10 : pad ? 3 : 1;
      case FINE -> joint || pad ? 0.5 : 1;
    };
  }

  /** Whether a look shows the fault itself and is not only a hint. */
  static boolean shows(Seen.Look look, Component component) {
    return switch (look) {
      case DRY, BALL_MISSING -> component instanceof Component.Joint;
      case TORN -> component instanceof Component.Pad;
      case SMEARED -> component instanceof Component.Bridge;
      case BALL_LOW, FINE -> false;
    };
  }

  /** The component that a look is about, when it speaks against one. */
  static Optional<Component> subject(Seen seen) {
    return switch (seen.look()) {
      case DRY, BALL_MISSING, BALL_LOW ->
          Optional.of(new Component.Joint(seen.side(), seen.position()));
      case TORN -> Optional.of(new Component.Pad(seen.side(), seen.position()));
      case SMEARED, FINE -> Optional.empty();
    };
  }

  /** By how much the trial with the halves pressed together speaks for joints and not a board. */
  static double clamped(WorksClamped works) {
    return switch (works) {
      case YES -> 8;
      case SOMETIMES -> 2;
      case NO -> 1.0 / 8;
      case NOT_TRIED -> 1;
    };
  }
}

package org.jointwalk.spice;

import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Component.Bridge;
import org.jointwalk.stack.Component.Joint;
import org.jointwalk.stack.Component.NetOf;
import org.jointwalk.stack.Component.Pad;
import org.jointwalk.stack.Component.Via;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;

/**
 * Faults of every kind for the practice ring of 60 positions with seed 1, on both boards, both rows
 * of joints and the interposer. No set-up shows more than six opens: more would be a plate that
 * sits badly.
 */
final class Faults {

  static final Condition OPEN = new Condition.Open();

  private Faults() {}

  static Defects ofEveryKind() {
    return Defects.NONE
        // A lone signal, a torn pad, two of four pads of a rail, one of a pair.
        .with(new Joint(Side.LOWER, "N013"), OPEN)
        .with(new Pad(Side.LOWER, "N051"), OPEN)
        .with(new Joint(Side.LOWER, "N033"), OPEN)
        .with(new Joint(Side.LOWER, "N042"), OPEN)
        .with(new Joint(Side.LOWER, "N048"), OPEN)
        .with(new Joint(Side.LOWER, "N036"), high(4))
        .with(new Pad(Side.LOWER, "N045"), high(60))
        .with(Bridge.between(Side.LOWER, "N020", "N023"), bridged(0.02))
        .with(new NetOf(new NetId(Side.LOWER, "RAIL_QUILL_B")), shorted(0.05))
        .with(new Via("N012"), OPEN)
        .with(new Via("N049"), high(2))
        // A signal that a test point reaches, a torn pad, two of seven pads of a rail, one of a
        // pair.
        .with(new Joint(Side.UPPER, "N015"), OPEN)
        .with(new Pad(Side.UPPER, "N024"), OPEN)
        .with(new Joint(Side.UPPER, "N035"), OPEN)
        .with(new Joint(Side.UPPER, "N039"), OPEN)
        .with(new Joint(Side.UPPER, "N026"), OPEN)
        .with(new Joint(Side.UPPER, "N044"), high(3))
        .with(new Joint(Side.UPPER, "N001"), high(12))
        .with(new Pad(Side.UPPER, "N047"), high(60))
        .with(Bridge.between(Side.UPPER, "N056", "N057"), bridged(0.1))
        .with(new NetOf(new NetId(Side.UPPER, "RAIL_COVERT")), shorted(0.05));
  }

  static Condition high(double ohms) {
    return new Condition.High(new Ohms(ohms));
  }

  static Condition bridged(double ohms) {
    return new Condition.Bridged(new Ohms(ohms));
  }

  static Condition shorted(double ohms) {
    return new Condition.Shorted(Ring.GROUND, new Ohms(ohms));
  }
}

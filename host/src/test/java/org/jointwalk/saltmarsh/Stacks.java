package org.jointwalk.saltmarsh;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.stack.Specimen.Outcome;
import org.jointwalk.stack.Specimen.Trouble;

/** The stacks of the Saltmarsh S2 that the demo and the guides work on. */
public final class Stacks {

  /** Lower joints of the dropped stack that are open when it comes in. */
  static final List<String> CRACKED = List.of("N122", "N128", "N129", "N131", "N133", "N135");

  /** Its torn pad on the lower board. */
  static final String TORN = "N132";

  /** Its lower joint with too much resistance. */
  static final String WEAK = "N149";

  /** Probes that do not land when the interposer on its lower board is clamped first. */
  static final List<String> MISSED = List.of("N020", "N260");

  /** The seating in which they do not land: the upper board alone comes first, in one seating. */
  static final int MISSED_IN = 2;

  /** The lower joint that the first re-ball leaves open. */
  static final String NOT_TAKEN = "N138";

  /** Two signals that the first re-ball joins. */
  static final Component.Bridge TOO_MUCH_SOLDER =
      Component.Bridge.between(Side.LOWER, "N110", "N111");

  private Stacks() {}

  /** Every stack, by the name of its file without the ending. */
  public static Map<String, Specimen> all() {
    Map<String, Specimen> all = new LinkedHashMap<>();
    all.put("saltmarsh-good", stack(11, Defects.NONE));
    all.put("saltmarsh-dropped", dropped());
    all.put("saltmarsh-charged", charged());
    all.put("saltmarsh-shorted", shorted());
    all.put("saltmarsh-wet", wet());
    return all;
  }

  /**
   * The story of the demo: dropped, the radio is gone. The drop cracked the lower row of joints at
   * one corner and tore a pad there; the upper board is sound. The first re-ball leaves one joint
   * open and joins two neighbours, the second cures both.
   */
  public static Specimen dropped() {
    Defects defects = Defects.NONE;
    for (String position : CRACKED) {
      defects = defects.with(new Component.Joint(Side.LOWER, position), new Condition.Open());
    }
    defects =
        defects
            .with(new Component.Pad(Side.LOWER, TORN), new Condition.Open())
            .with(new Component.Joint(Side.LOWER, WEAK), new Condition.High(new Ohms(4.2)));
    Component notTaken = new Component.Joint(Side.LOWER, NOT_TAKEN);
    Defects firstReball =
        Defects.NONE
            .with(notTaken, new Condition.Open())
            .with(TOO_MUCH_SOLDER, new Condition.Bridged(new Ohms(0.02)));
    return new Specimen(
        "thin",
        12,
        defects,
        List.of(
            new Outcome(4, firstReball, List.of()),
            new Outcome(5, Defects.NONE, List.of(notTaken, TOO_MUCH_SOLDER))),
        MISSED.stream()
            .<Trouble>map(
                position -> new Trouble.Missed(new Contact.Pad(Plate.OVER, position), MISSED_IN))
            .toList());
  }

  /** What is done to the dropped stack, in this order. */
  public static List<Action> actionsOnDropped() {
    return List.of(
        new Action.Split(Side.UPPER),
        new Action.Lift(),
        new Action.PadRebuilt(Side.LOWER, TORN),
        new Action.Reball(Side.LOWER, List.of()),
        new Action.Reball(
            Side.LOWER, List.of(TOO_MUCH_SOLDER.a(), TOO_MUCH_SOLDER.b(), NOT_TAKEN)));
  }

  /** The cell was left in: a rail of the lower board still carries 1.1 V. */
  private static Specimen charged() {
    return stack(
        13,
        Defects.NONE.with(
            new Component.NetOf(new NetId(Side.LOWER, "RAIL_QUILL_A")),
            new Condition.Charged(1.1, new Ohms(120))));
  }

  /** A capacitor failed: a rail of the lower board lies on ground. No joint is at fault. */
  private static Specimen shorted() {
    return stack(
        14,
        Defects.NONE.with(
            new Component.NetOf(new NetId(Side.LOWER, "RAIL_DAWN")),
            new Condition.Shorted(Ring.GROUND, new Ohms(0.35))));
  }

  /** Lay in the marsh: residue between neighbours along one edge, two joints eaten away. */
  private static Specimen wet() {
    return stack(
        15,
        Defects.NONE
            .with(residue(Side.LOWER, "N008", "N009"), new Condition.Bridged(new Ohms(12_000)))
            .with(residue(Side.LOWER, "N014", "N015"), new Condition.Bridged(new Ohms(27_000)))
            .with(residue(Side.LOWER, "N020", "N021"), new Condition.Bridged(new Ohms(68_000)))
            .with(residue(Side.UPPER, "N002", "N003"), new Condition.Bridged(new Ohms(18_000)))
            .with(residue(Side.UPPER, "N011", "N013"), new Condition.Bridged(new Ohms(1.5e6)))
            .with(new Component.Joint(Side.LOWER, "N005"), new Condition.Open())
            .with(
                new Component.Joint(Side.LOWER, "N006"),
                new Condition.TwoState(new Ohms(0.15), 0.4)));
  }

  private static Component residue(Side side, String a, String b) {
    return Component.Bridge.between(side, a, b);
  }

  private static Specimen stack(long seed, Defects defects) {
    return new Specimen("thin", seed, defects, List.of(), List.of());
  }
}

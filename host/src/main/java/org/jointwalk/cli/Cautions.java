package org.jointwalk.cli;

import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Action;

/**
 * What could hurt someone, or the board, in a step; shown where the step is taken. Short on
 * purpose: local rules and licensed practice come first, and say so.
 */
final class Cautions {

  private static final String BATTERY = "Battery out and board discharged before any heat.";
  private static final String CELL =
      "A swollen or punctured cell is not worked on; it goes to a safe place.";
  private static final String HEAT = "Hot plate, hot air, fumes: eye protection on, extraction on.";
  private static final String STATIC = "Wrist strap on, mat earthed.";
  private static final String LEAD = "Leaded or lead-free: know it before you heat.";
  private static final String BISMUTH = "Never low-melt bismuth alloy on leaded solder.";
  private static final String CLAMPING = "Washed and dry before clamping; the lid is never forced.";
  private static final String SOLVENT =
      "Solvents: gloves, fresh air, no flame; dry throughout before any power.";
  private static final String RULES = "Local rules and licensed practice come first.";

  private Cautions() {}

  /** The cautions of all the work on a stack. */
  static List<String> all() {
    return List.of(BATTERY, CELL, HEAT, STATIC, LEAD, BISMUTH, SOLVENT, CLAMPING, RULES);
  }

  /** The cautions of a kind of action, empty for what is harmless. */
  static List<String> of(Class<? extends Action> kind) {
    if (kind == Action.Split.class || kind == Action.Lift.class) {
      return List.of(BATTERY, CELL, HEAT, STATIC, LEAD, BISMUTH, RULES);
    }
    if (kind == Action.Reball.class) {
      return List.of(BATTERY, CELL, HEAT, STATIC, LEAD, BISMUTH, CLAMPING, RULES);
    }
    if (kind == Action.Wash.class) {
      return List.of(SOLVENT, CLAMPING, RULES);
    }
    if (kind == Action.ProbesCleaned.class) {
      return List.of();
    }
    return List.of(BATTERY, CELL, HEAT, STATIC, RULES);
  }

  /** What an action does to the evidence, or what its record does not promise. */
  static Optional<String> evidence(Action action) {
    if (action instanceof Action.Split split) {
      return Optional.of(
          "The joints of the "
              + Choice.word(split.letGo())
              + " side are lost as evidence: from now on they are judged by exclusion only.");
    }
    if (action instanceof Action.Lift) {
      return Optional.of(
          "The joints that held it are lost as evidence: from now on they are judged by exclusion"
              + " only.");
    }
    if (action instanceof Action.PadRebuilt || action instanceof Action.Jumper) {
      return Optional.of(
          "What is measured about it later is electrical only, not how well it holds.");
    }
    return Optional.empty();
  }
}

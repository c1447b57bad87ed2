package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

class HistoryTest {

  private static final Component UPPER = new Component.Joint(Side.UPPER, "P1");
  private static final Component LOWER = new Component.Joint(Side.LOWER, "P1");
  private static final Component OTHER = new Component.Joint(Side.LOWER, "P2");
  private static final Component PAD = new Component.Pad(Side.LOWER, "P1");
  private static final Component METAL = Component.Bridge.between(Side.LOWER, "P2", "P3");
  private static final Component RESIDUE = Component.Bridge.between(Side.LOWER, "P4", "P5");
  private static final Component DIRTY = new Component.Probe(new Contact.Pad(Plate.OVER, "P1"));
  private static final Component BROKEN = new Component.Probe(new Contact.Pad(Plate.OVER, "P2"));

  private static final Defects ALL =
      Defects.NONE
          .with(UPPER, new Condition.Open())
          .with(LOWER, new Condition.Open())
          .with(OTHER, new Condition.High(new Ohms(3)))
          .with(PAD, new Condition.Open())
          .with(METAL, new Condition.Bridged(new Ohms(0.02)))
          .with(RESIDUE, new Condition.Bridged(new Ohms(1e6)))
          .with(DIRTY, new Condition.High(new Ohms(2)))
          .with(BROKEN, new Condition.Open());

  private static Defects after(Action... actions) {
    return after(List.of(), actions);
  }

  private static Defects after(List<Specimen.Outcome> outcomes, Action... actions) {
    Specimen specimen = new Specimen("plain", 1, ALL, outcomes, List.of());
    return History.defects(specimen, List.of(actions));
  }

  @Test
  void nothingDoneLeavesAllAsItCameIn() {
    assertThat(after()).isEqualTo(ALL);
  }

  @Test
  void splitTakesTheRowThatLetGo() {
    assertThat(after(new Action.Split(Side.UPPER))).isEqualTo(ALL.without(UPPER));
    assertThat(after(new Action.Split(Side.LOWER)).conditions())
        .containsOnlyKeys(UPPER, PAD, DIRTY, BROKEN);
  }

  @Test
  void liftTakesTheRowThatStillHeld() {
    assertThat(after(new Action.Split(Side.UPPER), new Action.Lift()).conditions())
        .containsOnlyKeys(PAD, DIRTY, BROKEN);
  }

  @Test
  void reballOfAPositionMakesItsJointAndTakesItsBridges() {
    assertThat(after(new Action.Reball(Side.LOWER, List.of("P2"))))
        .isEqualTo(ALL.without(OTHER).without(METAL));
  }

  @Test
  void reballOfASideMakesAllItsJoints() {
    assertThat(after(new Action.Reball(Side.LOWER, List.of())).conditions())
        .containsOnlyKeys(UPPER, PAD, DIRTY, BROKEN);
  }

  @Test
  void rebuiltPadAndJumperBringAPadBack() {
    assertThat(after(new Action.PadRebuilt(Side.LOWER, "P1"))).isEqualTo(ALL.without(PAD));
    assertThat(after(new Action.Jumper(Side.LOWER, "P1", "R7"))).isEqualTo(ALL.without(PAD));
  }

  @Test
  void washTakesResidueAndLeavesMetal() {
    assertThat(after(new Action.Wash())).isEqualTo(ALL.without(RESIDUE));
  }

  @Test
  void wickTakesWhatBridgesASide() {
    assertThat(after(new Action.Wick(Side.LOWER))).isEqualTo(ALL.without(METAL).without(RESIDUE));
    assertThat(after(new Action.Wick(Side.UPPER))).isEqualTo(ALL);
  }

  @Test
  void cleaningHelpsADirtyProbeAndNotABrokenOne() {
    assertThat(after(new Action.ProbesCleaned())).isEqualTo(ALL.without(DIRTY));
  }

  @Test
  void replacedPartChangesOnlyWhatTheSpecimenSays() {
    assertThat(after(new Action.PartReplaced(Side.LOWER, "U7"))).isEqualTo(ALL);
  }

  @Test
  void outcomeFollowsItsActionAndNoOther() {
    Component torn = new Component.Pad(Side.UPPER, "P9");
    List<Specimen.Outcome> outcomes =
        List.of(
            new Specimen.Outcome(2, Defects.NONE.with(torn, new Condition.Open()), List.of(PAD)));

    assertThat(after(outcomes, new Action.Wash())).isEqualTo(ALL.without(RESIDUE));
    assertThat(after(outcomes, new Action.Wash(), new Action.Wash()))
        .isEqualTo(ALL.without(RESIDUE).without(PAD).with(torn, new Condition.Open()));
  }
}

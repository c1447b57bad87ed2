package org.jointwalk.diagnose;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict.Next;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * What to do now: first what costs a minute and may make a suspicion vanish, then what can be
 * measured without heat, then heat. Immutable.
 */
final class NextStep {

  private static final int CLAMPINGS_TRIED = 3;

  private final PadMap map;
  private final Words words;
  private final Standing standing;
  private final Complaint complaint;
  private final Repairs repairs;

  NextStep(PadMap map, Words words, Standing standing, Complaint complaint) {
    this.map = map;
    this.words = words;
    this.standing = standing;
    this.complaint = complaint;
    this.repairs = new Repairs(words, standing, complaint);
  }

  Next next() {
    if (standing.job().closed()) {
      return plain("Nothing more: the job is closed.", 0);
    }
    return finish()
        .or(this::reseat)
        .orElseGet(
            () ->
                switch (standing.attachment()) {
                  case BOTH -> standing.wasSplit() ? whenClosed() : whenWhole();
                  case UPPER -> whenHalf(Side.UPPER);
                  case LOWER -> whenHalf(Side.LOWER);
                  case NONE -> whenLifted();
                });
  }

  private Optional<Next> finish() {
    List<PassRecord> passes = standing.job().passes();
    if (passes.isEmpty() || !passes.get(passes.size() - 1).open()) {
      return Optional.empty();
    }
    PassRecord open = passes.get(passes.size() - 1);
    boolean possible =
        SetUp.named(open.begun().setUp())
            .map(s -> s.possible().contains(standing.attachment()))
            .orElse(false);
    return possible
        ? Optional.of(
            then(
                "Finish pass " + open.begun().pass() + ", which was begun and not graded.",
                Minutes.MEASURE,
                open.begun().setUp()))
        : Optional.empty();
  }

  private Optional<Next> reseat() {
    Optional<SetUp> doubted =
        standing.now().stream()
            .filter(Suspect::isDoubtful)
            .flatMap(s -> s.clues().stream())
            .map(Clue::pass)
            .filter(standing::stillHolds)
            .map(GradedPass::setUp)
            .filter(s -> s.possible().contains(standing.attachment()))
            .filter(s -> standing.clampings(s) < CLAMPINGS_TRIED)
            .findFirst();
    boolean faults = standing.now().stream().anyMatch(s -> s.confirmed() && !s.wavering());
    Optional<SetUp> unread =
        standing
            .last()
            .filter(p -> !faults && standing.isFresh() && !standing.undecided().isEmpty())
            .map(GradedPass::setUp)
            .filter(s -> standing.clampings(s) < CLAMPINGS_TRIED);
    return doubted.or(() -> unread).map(this::reseat);
  }

  private Next reseat(SetUp setUp) {
    Set<String> doubtful = new LinkedHashSet<>();
    for (Suspect suspect : standing.now()) {
      if (suspect.isDoubtful()
          && suspect.clues().stream().anyMatch(c -> c.pass().setUp().equals(setUp))) {
        doubtful.addAll(suspect.positions());
      }
    }
    if (standing.last().map(p -> p.setUp().equals(setUp)).orElse(false)) {
      doubtful.addAll(standing.undecided());
    }
    String ids = Words.ids(words.ordered(doubtful));
    return then(
        standing.clampings(setUp) < 2
            ? "Open, re-seat and measure "
                + setUp.title()
                + " again: "
                + ids
                + " may be contact only."
            : "Clean the probes at " + ids + ", re-seat and measure " + setUp.title() + " again.",
        Minutes.RESEAT,
        setUp.name());
  }

  private Next whenWhole() {
    boolean points = !map.points().isEmpty();
    if (points && !standing.isMeasured(Standing.joined())) {
      return then(
          "Before splitting, measure the joined stack at its test points. Battery out, board"
              + " discharged.",
          Minutes.MEASURE,
          Standing.joined().name());
    }
    boolean looked =
        standing.last().map(p -> p.findings().counts()).stream()
            .anyMatch(c -> c.getOrDefault(Grade.GOOD, 0) > 0);
    if (points && looked && standing.now().isEmpty() && complaint.stands()) {
      return repairs.hunt("No net behaves as cut, so splitting is not called for yet. ");
    }
    return plain(
        "Split the stack and record which side let go. Battery out, board discharged."
            + Repairs.HEAT,
        Minutes.SPLIT);
  }

  private Next whenHalf(Side held) {
    SetUp on = Standing.on(held);
    if (standing.isRemade(held)) {
      return standing.isMeasured(on) ? afterReball(held) : checkReball(on, held);
    }
    for (SetUp setUp : standing.reachable()) {
      if (!standing.isMeasured(setUp)) {
        return then("Measure " + setUp.title() + ".", Minutes.MEASURE, setUp.name());
      }
    }
    List<Suspect> below = standing.now().stream().filter(s -> !isOfBoard(s, held.other())).toList();
    if (!below.isEmpty() && below.stream().allMatch(Suspect::wavering)) {
      Set<String> ids = new LinkedHashSet<>();
      below.forEach(s -> ids.addAll(s.positions()));
      return then(
          "Measure "
              + on.title()
              + " again while pressing near "
              + Words.ids(words.ordered(ids))
              + ": it came and went.",
          Minutes.MEASURE,
          on.name());
    }
    if (below.stream().anyMatch(s -> !isLocatedJoint(s))) {
      return then(
          "Lift the interposer off the "
              + words.board(held)
              + ", record it, then measure "
              + Standing.alone(held).title()
              + "."
              + Repairs.HEAT,
          Minutes.LIFT + Minutes.MEASURE,
          Standing.alone(held).name());
    }
    if (!below.isEmpty()) {
      return repairs.touchUp(below, held);
    }
    return repairs.repair(standing.now(), false).orElseGet(() -> allGood(held.other()));
  }

  private Next checkReball(SetUp on, Side held) {
    return then(
        "Measure " + on.title() + " to see whether the " + Words.side(held) + " side took.",
        Minutes.MEASURE,
        on.name());
  }

  private Next afterReball(Side held) {
    List<Suspect> here =
        standing.now().stream()
            .filter(s -> !isOfBoard(s, held.other()))
            .filter(s -> !(s.lead().component() instanceof Component.NetOf))
            .toList();
    if (!here.isEmpty()) {
      return repairs.touchUp(here, held);
    }
    Optional<Next> other = repairs.repair(standing.now(), false);
    SetUp alone = Standing.alone(held.other());
    if (other.isPresent()) {
      return other.get();
    }
    if (!standing.isMeasured(alone)) {
      return then("Before closing, measure " + alone.title() + ".", Minutes.MEASURE, alone.name());
    }
    return then(
        "Re-ball the "
            + Words.side(held.other())
            + " side and close the stack, record it, then check it at the test points."
            + Repairs.HEAT,
        Minutes.REBALL + Minutes.CLOSE,
        Standing.joined().name());
  }

  private Next whenLifted() {
    for (SetUp setUp : standing.reachable()) {
      if (!standing.isMeasured(setUp)) {
        return then("Measure " + setUp.title() + ".", Minutes.MEASURE, setUp.name());
      }
    }
    Side side = standing.heldLast();
    Optional<Next> repair = repairs.repair(standing.now(), true);
    if (repair.isPresent()) {
      return repair.get();
    }
    boolean joints = standing.job().clamped() == WorksClamped.YES;
    if (standing.cameIn().isEmpty() && complaint.stands() && !joints) {
      return allGood(side.other());
    }
    return repairs.reball(side, "", 0);
  }

  private Next whenClosed() {
    boolean points = !map.points().isEmpty();
    if (points && !standing.isMeasured(Standing.joined())) {
      return then(
          "Check the closed stack at the test points.", Minutes.MEASURE, Standing.joined().name());
    }
    if (!standing.now().isEmpty()) {
      return plain(
          "Split again at the side that was closed last and touch up there." + Repairs.HEAT,
          Minutes.SPLIT + Minutes.TOUCH_UP);
    }
    return plain("Try every function, write down the result and close the job.", Minutes.TRY);
  }

  /** All that can be seen is good. */
  private Next allGood(Side open) {
    WorksClamped works = standing.job().clamped();
    if (works == WorksClamped.NOT_TRIED) {
      return plain(
          "Press the halves together in the fixture, try the functions and record whether they"
              + " come back. Current limit before voltage.",
          Minutes.TRY);
    }
    if (works == WorksClamped.YES || !complaint.stands()) {
      return then(
          "Re-ball the "
              + Words.side(open)
              + " side and close the stack, record it, then check it at the test points."
              + Repairs.HEAT,
          Minutes.REBALL + Minutes.CLOSE,
          Standing.joined().name());
    }
    return repairs.hunt("Do not re-ball yet. ");
  }

  private boolean isLocatedJoint(Suspect suspect) {
    return suspect.placed()
        && suspect.sureness() == Sureness.LOCATED
        && (suspect.lead().component() instanceof Component.Joint
            || suspect.lead().component() instanceof Component.Bridge);
  }

  /** Whether a suspect lies on a board and nowhere else. */
  private static boolean isOfBoard(Suspect suspect, Side side) {
    return suspect.regions().equals(List.of(Region.board(side)));
  }

  private static Next plain(String what, int minutes) {
    return new Next(what, minutes, Optional.empty());
  }

  private static Next then(String what, int minutes, String setUp) {
    return new Next(what, minutes, Optional.of(setUp));
  }
}

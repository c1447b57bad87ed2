package org.jointwalk.diagnose;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiPredicate;
import java.util.function.Predicate;
import org.jointwalk.job.Action;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** How far a job is: what was done, what was measured since, what is suspected. Immutable. */
final class Standing {

  private final Job job;
  private final Lives lives;
  private final List<GradedPass> passes;
  private final Evidence evidence;
  private final List<Suspect> suspects;

  Standing(
      Job job, Lives lives, List<GradedPass> passes, Evidence evidence, List<Suspect> suspects) {
    this.job = job;
    this.lives = lives;
    this.passes = passes;
    this.evidence = evidence;
    this.suspects = suspects;
  }

  Job job() {
    return job;
  }

  Attachment attachment() {
    return lives.attachment(Lives.NOW);
  }

  /** The side the interposer is soldered to, when it is one side only. */
  Optional<Side> heldBy() {
    return switch (attachment()) {
      case UPPER -> Optional.of(Side.UPPER);
      case LOWER -> Optional.of(Side.LOWER);
      case BOTH, NONE -> Optional.empty();
    };
  }

  /** The side that was soldered last before the interposer came off. */
  Side heldLast() {
    Side last = Side.LOWER;
    for (Lives.Deed deed : lives.deeds()) {
      if (deed.before() == Attachment.UPPER) {
        last = Side.UPPER;
      } else if (deed.before() == Attachment.LOWER) {
        last = Side.LOWER;
      }
    }
    return last;
  }

  boolean wasSplit() {
    return lives.deeds().stream().anyMatch(d -> d.action().after(d.before()) != Attachment.BOTH);
  }

  /** Whether a row of joints was made again and is there. */
  boolean isRemade(Side side) {
    return attachment().holds(side) && lastReball(side) > 0;
  }

  /** Whether joints of a side were lost as they came in. */
  boolean lostRow(Side side) {
    return lives.deeds().stream()
        .anyMatch(d -> d.before().holds(side) && !d.action().after(d.before()).holds(side));
  }

  /** Whether the joints that came in were let go by a split, and not by a lift. */
  boolean letGoBySplit(Side side) {
    return lives.deeds().stream()
        .filter(d -> d.before().holds(side) && !d.action().after(d.before()).holds(side))
        .findFirst()
        .map(d -> d.action() instanceof Action.Split)
        .orElse(false);
  }

  private long lastReball(Side side) {
    return lives.deeds().stream()
        .filter(d -> d.action() instanceof Action.Reball r && r.side() == side)
        .mapToLong(Lives.Deed::seq)
        .max()
        .orElse(0);
  }

  List<GradedPass> passes() {
    return passes;
  }

  Optional<GradedPass> last() {
    return passes.isEmpty() ? Optional.empty() : Optional.of(passes.get(passes.size() - 1));
  }

  /** Whether the parts are as the last pass met them. */
  boolean isFresh() {
    return last()
        .map(
            pass ->
                lives.deeds().stream()
                    .noneMatch(
                        d -> d.seq() > pass.seq() && !(d.action() instanceof Action.ProbesCleaned)))
        .orElse(false);
  }

  /** The last pass of a set-up whose parts are still as it met them. */
  Optional<GradedPass> standing(SetUp setUp) {
    return passes.stream()
        .filter(p -> p.setUp().equals(setUp) && stillHolds(p))
        .reduce((a, b) -> b);
  }

  /** In how many clampings a set-up was read as things are. */
  int clampings(SetUp setUp) {
    return passes.stream()
        .filter(p -> p.setUp().equals(setUp) && stillHolds(p))
        .mapToInt(p -> p.clampings().size())
        .sum();
  }

  boolean isMeasured(SetUp setUp) {
    return standing(setUp).isPresent();
  }

  /** Whether nothing was done since to what a pass had before it. */
  boolean stillHolds(GradedPass pass) {
    SetUp setUp = pass.setUp();
    return lives.deeds().stream()
        .filter(d -> d.seq() > pass.seq())
        .noneMatch(d -> changes(d, setUp));
  }

  private static boolean changes(Lives.Deed deed, SetUp setUp) {
    Action action = deed.action();
    for (Side side : Side.values()) {
      boolean board = setUp.boards().contains(side);
      boolean row = setUp.joints().contains(side);
      boolean lets = deed.before().holds(side) && !action.after(deed.before()).holds(side);
      if ((board || row) && (lets || worksOn(action, side))) {
        return true;
      }
    }
    return (setUp.interposer() && isInterposer(action))
        || (!setUp.joints().isEmpty() && action instanceof Action.Split);
  }

  private static boolean worksOn(Action action, Side side) {
    return (action instanceof Action.Reball reball && reball.side() == side)
        || (action instanceof Action.Wick wick && wick.side() == side)
        || (action instanceof Action.PadRebuilt rebuilt && rebuilt.side() == side)
        || (action instanceof Action.Jumper jumper && jumper.side() == side)
        || (action instanceof Action.PartReplaced replaced
            && replaced.side() == side
            && !isInterposer(action));
  }

  private static boolean isInterposer(Action action) {
    return action instanceof Action.PartReplaced replaced
        && replaced.part().equalsIgnoreCase(Lives.INTERPOSER);
  }

  /** What the device came in with and what is wrong now, each once. */
  List<Suspect> suspects() {
    return among((s, part) -> hasComeIn(s, part) || isWrongNow(s, part));
  }

  /** What the device came in with. */
  List<Suspect> cameIn() {
    return among(this::hasComeIn);
  }

  /** What is wrong with the parts as they are. */
  List<Suspect> now() {
    return among(this::isWrongNow);
  }

  /** Whether another clamping may still make something vanish. */
  boolean hasDoubts() {
    return now().stream().anyMatch(Suspect::isDoubtful);
  }

  private List<Suspect> among(BiPredicate<Suspect, Part> which) {
    return suspects.stream().flatMap(s -> s.among(p -> which.test(s, p)).stream()).toList();
  }

  private boolean hasComeIn(Suspect suspect, Part part) {
    return part.life() == 0 && !suspect.goodBefore().contains(part) && !isFromWork(suspect);
  }

  private boolean isWrongNow(Suspect suspect, Part part) {
    return lives.isThere(part) && !evidence.isGoodSince(part, suspect.clues());
  }

  /** Whether a pad was read for the first time after work that may have torn it. */
  boolean mayBeFromWork(Suspect suspect) {
    return suspect.lead().component() instanceof Component.Pad pad
        && !suspect.clues().isEmpty()
        && suspect.clues().stream().allMatch(c -> lives.touched(pad, 0, c.pass().seq()));
  }

  /** A pad that only the eye found torn can have come off with the split. */
  private static boolean isFromWork(Suspect suspect) {
    return suspect.clues().isEmpty() && suspect.lead().component() instanceof Component.Pad;
  }

  /** Whether everything that can be put into the fixture as things are has been measured. */
  boolean isAllMeasured() {
    return reachable().stream().allMatch(this::isMeasured);
  }

  /** The set-ups that tell something about the parts as they are, the most telling first. */
  List<SetUp> reachable() {
    return switch (attachment()) {
      case BOTH -> List.of(joined());
      case LOWER -> List.of(on(Side.LOWER), alone(Side.UPPER));
      case UPPER -> List.of(on(Side.UPPER), alone(Side.LOWER));
      case NONE -> List.of(alone(heldLast()), bare(), alone(heldLast().other()));
    };
  }

  /** Positions of the last pass that another clamping may decide. */
  List<String> undecided() {
    return last()
        .map(
            pass ->
                pass.findings().positions().stream()
                    .filter(f -> f.grade() == Grade.NOT_CONTACTED || f.grade() == Grade.UNDECIDED)
                    .map(f -> f.position())
                    .toList())
        .orElse(List.of());
  }

  static SetUp joined() {
    return find(s -> s.joints().size() == 2);
  }

  static SetUp bare() {
    return find(s -> s.interposer() && s.bare());
  }

  static SetUp alone(Side side) {
    return find(s -> s.boards().equals(Set.of(side)) && !s.interposer());
  }

  static SetUp on(Side side) {
    return find(s -> s.joints().equals(Set.of(side)));
  }

  private static SetUp find(Predicate<SetUp> what) {
    return SetUp.all().stream().filter(what).findFirst().orElseThrow();
  }
}

package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Seating;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * A pass that was graded, with what was really in the fixture.
 *
 * @param seq the moment it looked at: where it begins in the log
 * @param assembly what was clamped
 * @param findings how it was graded
 * @param clampings those it was taken in
 */
record GradedPass(long seq, Assembly assembly, Findings findings, Set<Clamping> clampings) {

  GradedPass {
    clampings = Set.copyOf(clampings);
  }

  /** The graded passes of a job that looked at a part of a stack, in order. */
  static List<GradedPass> of(PadMap map, Interposer variant, Job job) {
    List<GradedPass> passes = new ArrayList<>();
    for (PassRecord pass : job.passes()) {
      Optional<SetUp> setUp = SetUp.named(pass.begun().setUp()).filter(SetUp::hasParts);
      if (setUp.isPresent() && pass.graded().isPresent()) {
        passes.add(
            new GradedPass(
                pass.seq(),
                new Assembly(map, variant, setUp.get()),
                pass.graded().get().findings(),
                pass.seatings().stream().map(Seating::clamping).collect(Collectors.toSet())));
      }
    }
    return passes;
  }

  SetUp setUp() {
    return assembly.setUp();
  }

  /** The components that carry the current of a position's own path. */
  Set<Component> path(String position) {
    boolean throughPoints = setUp().over().isEmpty() && setUp().under().isEmpty();
    return throughPoints
        ? new LinkedHashSet<>(assembly.present(position))
        : assembly.inBranches(position);
  }

  /** The nets that a position's pads are on, on the boards that are in the fixture. */
  List<Component> nets(String position) {
    List<Component> nets = new ArrayList<>();
    for (Side board : setUp().boards()) {
      nets.add(new Component.NetOf(assembly.map().position(position).net(board)));
    }
    return nets;
  }

  /** What this pass says of a position, when it says anything. */
  Optional<Finding> at(String position) {
    return findings.positions().stream().filter(f -> f.position().equals(position)).findFirst();
  }

  /** Whether current was seen at a position, so that a join with a neighbour would have shown. */
  boolean reads(String position) {
    return at(position)
        .map(
            f ->
                switch (f.grade()) {
                  case GOOD, HIGH, UNRESOLVED, MASKED -> true;
                  case OPEN, BRIDGED, NOT_CONTACTED, UNDECIDED, LOST_BY_SPLIT, NOT_TESTED -> false;
                })
        .orElse(false);
  }
}

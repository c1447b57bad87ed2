package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.job.Verdict.Next;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Side;

/** Steps that mend something or look for what to mend. Immutable. */
final class Repairs {

  /** What every step with a hot tool ends with. */
  static final String HEAT = " Extraction on, eyes covered.";

  // Solder joins with far less than this; more is residue, which washing removes.
  private static final double RESIDUE_OHMS = 100;

  private final Words words;
  private final Standing standing;
  private final Complaint complaint;

  Repairs(Words words, Standing standing, Complaint complaint) {
    this.words = words;
    this.standing = standing;
    this.complaint = complaint;
  }

  /** Mends joints and bridges of a side that is soldered on. */
  Next touchUp(List<Suspect> suspects, Side side) {
    Set<String> pads = new LinkedHashSet<>();
    List<String> bridges = new ArrayList<>();
    boolean residue = true;
    for (Suspect s : suspects) {
      if (s.fault() == Fault.BRIDGED && s.positions().size() > 1) {
        bridges.add(String.join("-", s.positions()));
        residue &= isResidue(s);
      } else {
        pads.addAll(s.positions());
      }
    }
    String setUp = Standing.on(side).name();
    if (pads.isEmpty() && residue) {
      return then(
          "Wash and dry: "
              + Words.ids(bridges)
              + (bridges.size() == 1 ? " looks" : " look")
              + " like residue. Then measure again.",
          Minutes.WASH + Minutes.MEASURE,
          setUp);
    }
    List<String> jobs = new ArrayList<>();
    if (!pads.isEmpty()) {
      jobs.add("touch up " + Words.ids(words.ordered(pads)));
    }
    if (!bridges.isEmpty()) {
      jobs.add(
          (bridges.size() == 1 ? "clear the bridge " : "clear the bridges ") + Words.ids(bridges));
    }
    return then(
        Words.sentence(Words.and(jobs))
            + " on the "
            + Words.side(side)
            + " side, record it, then measure again."
            + HEAT,
        Minutes.TOUCH_UP + Minutes.MEASURE,
        setUp);
  }

  private static boolean isResidue(Suspect suspect) {
    return suspect.clues().stream()
        .flatMap(c -> c.ohms().stream())
        .allMatch(e -> e.value() >= RESIDUE_OHMS);
  }

  /** Makes a whole row of joints, after something else when there is something. */
  Next reball(Side side, String before, int minutes) {
    String what = before.isEmpty() ? "Re-ball the " : before + ", then re-ball the ";
    return then(
        what
            + Words.side(side)
            + " side, record it and measure "
            + Standing.on(side).title()
            + "."
            + HEAT,
        minutes + Minutes.REBALL + Minutes.MEASURE,
        Standing.on(side).name());
  }

  /** Pads, vias and nets that are at fault themselves; joints are not repaired here. */
  Optional<Next> repair(List<Suspect> suspects, boolean lifted) {
    Optional<Suspect> net =
        suspects.stream().filter(s -> s.lead().component() instanceof Component.NetOf).findFirst();
    if (net.isPresent()) {
      return Optional.of(huntNet(net.get()));
    }
    if (suspects.stream().anyMatch(s -> s.lead().component() instanceof Component.Via)) {
      List<String> ids = places(suspects, Component.Via.class);
      return Optional.of(
          plain(
              "Fit another interposer, for its own path is bad at "
                  + Words.ids(ids)
                  + ", and record it as part replaced: "
                  + Lives.INTERPOSER
                  + ".",
              Minutes.REBALL));
    }
    List<String> jobs = new ArrayList<>();
    int pads = 0;
    for (Side side : List.of(standing.heldLast(), standing.heldLast().other())) {
      List<String> ids =
          words.ordered(
              suspects.stream()
                  .filter(s -> s.lead().component() instanceof Component.Pad p && p.side() == side)
                  .flatMap(s -> s.positions().stream())
                  .collect(Collectors.toSet()));
      if (!ids.isEmpty()) {
        pads += ids.size();
        jobs.add(
            (ids.size() == 1 ? "rebuild the pad at " : "rebuild the pads at ")
                + Words.ids(ids)
                + " on the "
                + words.board(side));
      }
    }
    if (jobs.isEmpty()) {
      return Optional.empty();
    }
    String what = Words.sentence(Words.and(jobs));
    int minutes = pads * Minutes.REBUILD_PAD;
    return Optional.of(
        lifted
            ? reball(standing.heldLast(), what, minutes)
            : plain(what + " and record it." + HEAT, minutes));
  }

  /** Looks for what cannot be seen from the ring. */
  Next hunt(String before) {
    Optional<Side> carrier = complaint.carrier();
    String board = carrier.map(words::board).orElse("either board");
    List<String> nets = carrier.map(complaint::netsToHunt).orElse(List.of());
    return plain(
        before
            + "Look for the fault on the "
            + board
            + " with a meter in diode mode"
            + (nets.isEmpty() ? "" : ", first on " + Words.ids(nets))
            + (carrier.isPresent() ? "; the other board is possible too." : "."),
        Minutes.HUNT);
  }

  private Next huntNet(Suspect suspect) {
    Component.NetOf net = (Component.NetOf) suspect.lead().component();
    String what =
        suspect.fault() == Fault.BRIDGED
            ? "the nets of " + Words.and(suspect.positions())
            : net.net().name();
    String where = what + " on the " + words.board(net.net().side());
    return plain(
        suspect.fault() == Fault.DIFFERENT
            ? "Look at what hangs on "
                + where
                + ": it reads otherwise than a good board. Replace the part and record it."
            : "Look for the short of "
                + where
                + ": current limit before voltage, start well below its nominal voltage, never"
                + " above it, and look for heat.",
        Minutes.HUNT);
  }

  private List<String> places(List<Suspect> suspects, Class<? extends Component> kind) {
    Set<String> ids = new LinkedHashSet<>();
    suspects.stream()
        .filter(s -> kind.isInstance(s.lead().component()))
        .forEach(s -> ids.addAll(s.positions()));
    return words.ordered(ids);
  }

  private static Next plain(String what, int minutes) {
    return new Next(what, minutes, Optional.empty());
  }

  private static Next then(String what, int minutes, String setUp) {
    return new Next(what, minutes, Optional.of(setUp));
  }
}

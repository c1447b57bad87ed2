package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.stream.Collectors;
import org.jointwalk.files.Names;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.simulator.Truth;
import org.jointwalk.simulator.Visibility;
import org.jointwalk.simulator.Visibility.Sight;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Side;

/** Compares the grades of positions with what was broken. Immutable but for the score it fills. */
final class PathJudge {

  static final String MISSED_OPENS = "missed opens";
  static final String MISSED_FAINT_OPENS = "missed faint opens";
  static final String BRIDGED_OPENS =
      "opens at pads that a bridge joins to a neighbour and that were graded connected";
  static final String PASSING_OPENS = "opens of some seatings only that were graded connected";
  static final String HIDDEN_BY_PARTS = "excluded opens that only the spread of good parts hides";
  static final String FALSE_OPENS = "confirmed false opens";
  static final String BARE_NET_OPENS =
      "opens confirmed at a sound path whose net has no loads left";
  static final String UNCONFIRMED_OPENS = "unconfirmed opens without a fault";
  static final String FALSE_HIGHS = "false highs";
  static final String MISSED_HIGHS = "missed highs above the limit";
  static final String UNDECIDED = "undecided or not contacted";

  /** From this resistance on a path lets too little current through to be told from none. */
  private static final double AS_GOOD_AS_OPEN = 20;

  /** The same for a path beside edge plating, in resistances of the plating at one land. */
  private static final double TIMES_PLATING = 20;

  private static final Set<Grade> SILENT =
      Set.of(Grade.GOOD, Grade.UNRESOLVED, Grade.MASKED, Grade.NOT_TESTED);

  private final Drawn drawn;
  private final Coverage coverage;
  private final List<Truth> seatings;
  private final Score score;

  PathJudge(Drawn drawn, Coverage coverage, List<Truth> seatings, Score score) {
    this.drawn = drawn;
    this.coverage = coverage;
    this.seatings = seatings;
    this.score = score;
  }

  /** The name under which the share of faults of a kind that cannot be seen is counted. */
  static String excluded(String fault, String fixture) {
    return "excluded " + fault + ", " + fixture;
  }

  /** The name under which opens of single and pair nets that can be seen are counted. */
  static String visibleShare(String fixture) {
    return "visible share of single and pair opens, " + fixture;
  }

  void judge(Findings findings) {
    for (Finding finding : findings.positions()) {
      judgeOpen(finding);
      judgeHigh(finding);
      judgeAccusation(finding);
      if (coverage.visible().contains(finding.position())) {
        score
            .tally()
            .add(
                UNDECIDED,
                finding.grade() == Grade.UNDECIDED || finding.grade() == Grade.NOT_CONTACTED);
      }
    }
  }

  private List<Component> open(Truth truth, String position) {
    return truth.assembly().present(position).stream()
        .filter(c -> truth.defects().of(c).filter(Condition.Open.class::isInstance).isPresent())
        .toList();
  }

  private void judgeOpen(Finding finding) {
    String id = finding.position();
    long openIn = seatings.stream().filter(t -> !open(t, id).isEmpty()).count();
    if (openIn == 0) {
      return;
    }
    boolean silent = SILENT.contains(finding.grade());
    if (openIn < seatings.size()) {
      score.tally().add(PASSING_OPENS, silent);
      return;
    }
    Stand stand = drawn.stand();
    if (isBridged(id)) {
      score.tally().add(BRIDGED_OPENS, silent);
      return;
    }
    Sight sight = sightOfOpen(id, Truth::visibility);
    Stand.Hang hang = stand.hang(id);
    score.tally().add(excluded("open " + hang.word(), stand.fixture().name()), sight != Sight.SEEN);
    if (hang == Stand.Hang.SINGLE || hang == Stand.Hang.PAIR) {
      score.tally().add(visibleShare(stand.fixture().name()), sight == Sight.SEEN);
    }
    if (sight != Sight.SEEN) {
      Sight known = sightOfOpen(id, Truth::visibilityWithPartsKnown);
      score.tally().add(HIDDEN_BY_PARTS, known == Sight.SEEN);
    }
    if (sight == Sight.SEEN) {
      score.mustNot(MISSED_OPENS, silent, words(finding));
    } else if (sight == Sight.FAINT) {
      score.tally().add(MISSED_FAINT_OPENS, silent);
    }
  }

  /** Whether solder joins a pad to a neighbour, which then carries what the pad does not. */
  private boolean isBridged(String id) {
    return drawn.defects().conditions().keySet().stream()
        .anyMatch(c -> c instanceof Component.Bridge b && (b.a().equals(id) || b.b().equals(id)));
  }

  /** Two opens in a row hide each other: it is asked whether one of them alone would be seen. */
  private Sight sightOfOpen(String id, BiFunction<Truth, Component, Visibility> look) {
    Truth first = seatings.get(0);
    List<Component> opens = open(first, id);
    Sight best = Sight.UNSEEN;
    for (Component one : opens) {
      Truth truth = first;
      for (Component other : opens) {
        truth = other.equals(one) ? truth : truth.without(other);
      }
      Sight sight = look.apply(truth, one).sight();
      best = sight.compareTo(best) < 0 ? sight : best;
    }
    return best;
  }

  private void judgeHigh(Finding finding) {
    String id = finding.position();
    Truth first = seatings.get(0);
    if (seatings.stream().anyMatch(t -> !open(t, id).isEmpty())) {
      return;
    }
    List<Component> high =
        first.assembly().present(id).stream().filter(c -> ohms(first, c) > 0).toList();
    double least =
        seatings.stream()
            .mapToDouble(t -> high.stream().mapToDouble(c -> ohms(t, c)).sum())
            .min()
            .orElse(0);
    Optional<Component> worst = high.stream().max(Comparator.comparing(c -> ohms(first, c)));
    if (worst.isEmpty()) {
      return;
    }
    Sight sight = first.visibility(worst.get()).sight();
    Stand stand = drawn.stand();
    score
        .tally()
        .add(
            excluded("high " + stand.hang(id).word(), stand.fixture().name()), sight != Sight.SEEN);
    if (sight == Sight.SEEN && least > limit(id)) {
      score.tally().add(MISSED_HIGHS, SILENT.contains(finding.grade()));
    }
  }

  private double limit(String id) {
    return drawn
        .stand()
        .side()
        .map(side -> drawn.stand().map().limit(id, side))
        .orElseGet(
            () ->
                List.of(Side.values()).stream()
                    .map(side -> drawn.stand().map().limit(id, side))
                    .min(Comparator.naturalOrder())
                    .orElseThrow())
        .value();
  }

  private static double ohms(Truth truth, Component component) {
    return truth
        .defects()
        .of(component)
        .filter(Condition.High.class::isInstance)
        .map(c -> ((Condition.High) c).ohms().value())
        .orElse(0.0);
  }

  private void judgeAccusation(Finding finding) {
    if (finding.grade() == Grade.OPEN) {
      boolean any = finding.among().stream().anyMatch(c -> canBeOpen(c, finding.position()));
      if (finding.confirmed()) {
        // A net whose loads are gone leaves no path either; another set-up or a meter tells it.
        boolean bare = !any && hasLostItsLoads(finding.position());
        score.tally().add(BARE_NET_OPENS, bare);
        score.mustNot(FALSE_OPENS, !any && !bare, words(finding));
      } else {
        score.tally().add(UNCONFIRMED_OPENS, !any);
      }
    } else if (finding.grade() == Grade.HIGH) {
      boolean any =
          finding.among().stream()
              .anyMatch(c -> seatings.stream().anyMatch(t -> t.defects().of(c).isPresent()));
      score.tally().add(FALSE_HIGHS, !any);
    }
  }

  private boolean hasLostItsLoads(String position) {
    return drawn.stand().setUp().boards().stream()
        .map(side -> drawn.stand().map().position(position).net(side))
        .flatMap(net -> drawn.defects().of(new Component.NetOf(net)).stream())
        .anyMatch(Condition.Open.class::isInstance);
  }

  /** Whether a component let no current through in one of the seatings, or next to none. */
  private boolean canBeOpen(Component component, String position) {
    double most = mostOhms(position);
    return seatings.stream()
        .flatMap(t -> t.defects().of(component).stream())
        .anyMatch(
            c ->
                c instanceof Condition.Open
                    || (c instanceof Condition.TwoState && component instanceof Component.Probe)
                    || (c instanceof Condition.High high && high.ohms().value() >= most));
  }

  /** From this resistance on a path at a position cannot be told from none. */
  private double mostOhms(String position) {
    double plating =
        drawn.stand().assembly().interposer().ties().stream()
            .filter(tie -> tie.positions().contains(position))
            .mapToDouble(tie -> tie.ohms().value())
            .sum();
    return drawn.stand().setUp().interposer() && plating > 0
        ? TIMES_PLATING * plating
        : AS_GOOD_AS_OPEN;
  }

  private String words(Finding finding) {
    List<String> wrong = new ArrayList<>();
    for (Truth truth : seatings) {
      wrong.add(
          truth.assembly().present(finding.position()).stream()
              .filter(c -> truth.defects().of(c).isPresent())
              .map(c -> Names.of(c) + " " + truth.defects().of(c).orElseThrow())
              .collect(Collectors.joining(", ", "[", "]")));
    }
    return finding.position()
        + " ("
        + drawn.stand().hang(finding.position()).word()
        + ") is graded "
        + finding.grade()
        + (finding.confirmed() ? " confirmed" : "")
        + " because "
        + finding.reason()
        + "; among "
        + finding.among().stream().map(Names::of).toList()
        + "; in its seatings "
        + wrong
        + "; "
        + drawn.words();
  }
}

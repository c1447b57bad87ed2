package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jointwalk.campaign.Figure.Relation;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Learn;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/**
 * Breaks stacks in every way that the model knows, runs one pass over each, and asks what was
 * missed, what was invented, and whether what cannot be seen was said.
 */
final class Faults implements Experiment {

  private static final String UNENDED = "passes that did not end";
  private static final String GRADED_MASKED = "graded masked but not by the simulator";
  private static final String TRULY_MASKED = "masked by the simulator but not graded so";
  private static final String GRADED_DARK = "graded not tested but not by the simulator";
  private static final String TRULY_DARK = "not to be tested by the simulator but not graded so";
  private static final String SEATINGS = "mean seatings, ";
  private static final String READINGS = "mean readings, ";
  private static final String DEVICE_SECONDS = "mean device seconds, ";
  private static final String FIXTURE_SECONDS = "wall seconds of the simulator";
  private static final String OTHER_SECONDS = "wall seconds of thought and log";

  private static final int LEARNED_FROM = 12;

  private static final List<Function<PadMap, FixtureMap>> FIXTURES =
      List.of(FixtureMaps::photoRelay, FixtureMaps::relayMatrix, FixtureMaps::fourBus);

  /** Half of all passes are of the first kind; the others take turns. */
  private static final List<String> SET_UPS =
      List.of(
          "interposer-on-lower",
          "upper-board",
          "interposer-on-lower",
          "lower-board",
          "interposer-on-lower",
          "interposer",
          "interposer-on-lower",
          "interposer-on-upper");

  @Override
  public String name() {
    return "faults";
  }

  @Override
  public String about() {
    return "breaks stacks in every way and asks what a pass missed and invented";
  }

  @Override
  public Result run(long seed, Scale scale) {
    List<Drawn> stacks = stacks(seed, scale);
    Map<String, Stand> stands = new LinkedHashMap<>();
    stacks.forEach(drawn -> stands.putIfAbsent(drawn.stand().words(), drawn.stand()));
    List<Callable<Look>> looks = new ArrayList<>();
    stands.values().forEach(stand -> looks.add(() -> new Look(stand, Coverage.of(stand))));
    Map<String, Look> seen =
        Workers.inOrder(looks).stream()
            .collect(Collectors.toMap(look -> look.stand().words(), look -> look));

    List<Callable<Score>> work = new ArrayList<>();
    stands.keySet().forEach(words -> work.add(() -> judgeSound(of(seen, words))));
    for (Drawn drawn : stacks) {
      work.add(() -> judge(drawn, of(seen, drawn.stand().words()).coverage()));
    }
    Score score = new Score();
    Workers.inOrder(work).forEach(score::addAll);
    Tally tally = score.tally();
    List<String> notes = new ArrayList<>(score.notes());
    notes.add(
        String.format(
            Locale.ROOT,
            "wall seconds, all threads together: simulator %.1f, thought and log %.1f",
            tally.total(FIXTURE_SECONDS),
            tally.total(OTHER_SECONDS)));
    return new Result(figures(tally), notes);
  }

  /** The stacks of a campaign, in order. */
  static List<Drawn> stacks(long seed, Scale scale) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Stand> stands = stands(maps(scale, random), count(scale));
    List<Drawn> stacks = new ArrayList<>();
    for (Stand stand : stands) {
      stacks.add(Drawn.of(stacks.size(), stand, random.nextLong()));
    }
    return stacks;
  }

  /** What the simulator can see on a stand. */
  private record Look(Stand stand, Coverage coverage) {}

  private static Look of(Map<String, Look> looks, String words) {
    return Optional.ofNullable(looks.get(words)).orElseThrow();
  }

  private static int count(Scale scale) {
    return switch (scale) {
      case SMALL -> 6;
      case QUICK -> 21;
      case FULL -> 300;
    };
  }

  private static List<PadMap> maps(Scale scale, SplittableRandom random) {
    List<Callable<PadMap>> maps = new ArrayList<>();
    if (scale != Scale.SMALL) {
      maps.add(SaltmarshS2::map);
    }
    List<int[]> sizes =
        scale == Scale.FULL
            ? List.of(new int[] {180, 2}, new int[] {300, 3}, new int[] {600, 3})
            : List.of(new int[] {120, 2});
    for (int[] size : sizes) {
      long seed = random.nextLong();
      maps.add(() -> learned(Ring.of(size[0], size[1], seed)));
    }
    return Workers.inOrder(maps);
  }

  private static PadMap learned(PadMap map) throws FixtureException {
    return Learn.learned(map, LEARNED_FROM, Learn.virtual(map));
  }

  /** Every fixture with every set-up, and with every map in the long run. */
  private static List<Stand> stands(List<PadMap> maps, int stacks) {
    List<Stand> stands = new ArrayList<>();
    for (int i = 0; i < stacks; i++) {
      int group = i / FIXTURES.size();
      PadMap map = maps.get((group + group / SET_UPS.size()) % maps.size());
      FixtureMap fixture = FIXTURES.get(i % FIXTURES.size()).apply(map);
      SetUp setUp = SetUp.named(SET_UPS.get(group % SET_UPS.size())).orElseThrow();
      stands.add(new Stand(map, fixture, setUp));
    }
    return stands;
  }

  private static Score judge(Drawn drawn, Coverage coverage) {
    Score score = new Score();
    Trial trial = Trial.of(drawn);
    Tally tally = score.tally();
    tally.sum(FIXTURE_SECONDS, trial.fixtureNanos() * 1e-9);
    tally.sum(OTHER_SECONDS, (trial.nanos() - trial.fixtureNanos()) * 1e-9);
    score.mustNot(UNENDED, trial.outcome().isEmpty(), trial.ended() + "; " + drawn.words());
    if (trial.outcome().isPresent()) {
      Findings findings = trial.outcome().get().findings();
      new PathJudge(drawn, coverage, trial.seatings(), score).judge(findings);
      new JoinJudge(drawn, trial.seatings(), score).judge(findings);
      String fixture = drawn.stand().fixture().name();
      tally.sum(SEATINGS + fixture, trial.seatings().size());
      tally.sum(READINGS + fixture, trial.outcome().get().readings());
      tally.sum(DEVICE_SECONDS + fixture, trial.outcome().get().deviceSeconds());
    }
    return score;
  }

  /** Runs a pass over a sound stack with calm probes and compares what it says it cannot see. */
  private static Score judgeSound(Look look) {
    Stand stand = look.stand();
    Score score = new Score();
    Drawn sound =
        new Drawn(
            0,
            stand,
            stand.fixture(),
            Specimens.good(stand.map(), 1),
            VirtualFixture.Conditions.CALM);
    Findings findings = Trial.of(sound).outcome().orElseThrow().findings();
    compare(
        graded(findings, Grade.MASKED),
        look.coverage().masked(),
        List.of(GRADED_MASKED, TRULY_MASKED),
        stand,
        score);
    compare(
        graded(findings, Grade.NOT_TESTED),
        look.coverage().dark(),
        List.of(GRADED_DARK, TRULY_DARK),
        stand,
        score);
    return score;
  }

  private static Set<String> graded(Findings findings, Grade grade) {
    return findings.graded(grade).stream().map(Finding::position).collect(Collectors.toSet());
  }

  /** Counts both one-sided differences of two sets under two names. */
  private static void compare(
      Set<String> graded, Set<String> truly, List<String> names, Stand stand, Score score) {
    Set<String> onlyGraded = new TreeSet<>(graded);
    onlyGraded.removeAll(truly);
    Set<String> onlyTruly = new TreeSet<>(truly);
    onlyTruly.removeAll(graded);
    score.tally().add(names.get(0), onlyGraded.size(), graded.size());
    score.tally().add(names.get(1), onlyTruly.size(), truly.size());
    if (!onlyGraded.isEmpty()) {
      score.note(names.get(0) + ": " + onlyGraded + " on " + stand.words());
    }
    if (!onlyTruly.isEmpty()) {
      score.note(names.get(1) + ": " + onlyTruly + " on " + stand.words());
    }
  }

  private static List<Figure> figures(Tally tally) {
    List<Figure> figures = new ArrayList<>();
    for (String name :
        List.of(
            PathJudge.MISSED_OPENS,
            PathJudge.FALSE_OPENS,
            JoinJudge.INVENTED,
            JoinJudge.MISSED,
            GRADED_MASKED,
            TRULY_MASKED,
            GRADED_DARK,
            TRULY_DARK,
            UNENDED)) {
      figures.add(Figure.none(name, tally.hits(name), tally.of(name)));
    }
    figures.add(share(tally, PathJudge.UNDECIDED).with(Relation.AT_MOST, "0.005"));
    List<String> fixtures =
        FIXTURES.stream().map(f -> f.apply(SaltmarshS2.unlearned()).name()).toList();
    for (String fixture : fixtures) {
      boolean first = fixture.equals(fixtures.get(0));
      figures.add(
          share(tally, PathJudge.visibleShare(fixture))
              .with(Relation.AT_LEAST, first ? "0.85" : "0.95"));
    }
    for (String name :
        List.of(
            PathJudge.MISSED_FAINT_OPENS,
            JoinJudge.MISSED_FAINT,
            JoinJudge.BEHIND_A_GAP,
            PathJudge.HIDDEN_BY_PARTS,
            PathJudge.PASSING_OPENS,
            PathJudge.BRIDGED_OPENS,
            PathJudge.BARE_NET_OPENS,
            PathJudge.UNCONFIRMED_OPENS,
            PathJudge.FALSE_HIGHS,
            PathJudge.MISSED_HIGHS,
            JoinJudge.RESIDUE,
            JoinJudge.MISSED_SHORTS,
            JoinJudge.MISSED_NETS,
            JoinJudge.INVENTED_BOARD)) {
      figures.add(Figure.count(name, tally.hits(name), tally.of(name)));
    }
    for (String fixture : fixtures) {
      figures.addAll(ofFixture(tally, fixture));
    }
    return figures;
  }

  private static List<Figure> ofFixture(Tally tally, String fixture) {
    List<String> excluded = new ArrayList<>();
    for (String fault : List.of("open", "high")) {
      for (Stand.Hang hang : Stand.Hang.values()) {
        excluded.add(fault + " " + hang.word());
      }
    }
    excluded.addAll(JoinJudge.KINDS);
    List<Figure> figures = new ArrayList<>();
    excluded.removeIf(fault -> tally.of(PathJudge.excluded(fault, fixture)) == 0);
    for (String fault : excluded) {
      figures.add(share(tally, PathJudge.excluded(fault, fixture)));
    }
    figures.add(mean(tally, SEATINGS + fixture, 2));
    figures.add(mean(tally, READINGS + fixture, 0));
    figures.add(mean(tally, DEVICE_SECONDS + fixture, 1));
    return figures;
  }

  private static Figure share(Tally tally, String name) {
    return Figure.share(name, tally.hits(name), tally.of(name));
  }

  private static Figure mean(Tally tally, String name, int digits) {
    return Figure.mean(name, tally.total(name), tally.of(name), digits);
  }
}

package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.jointwalk.job.Grade;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.LineWeather;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/**
 * Runs passes over lines that lose, damage, double, delay, stall and vanish: each has to end with
 * the grades of a pass without a line, or with an error that says so.
 */
final class Line implements Experiment {

  private static final int POSITIONS = 120;
  private static final int ROWS = 2;
  private static final int STACKS = 10;
  private static final int MOST_FAULTS = 6;

  /** Few steps ahead, so that the fixture is told soon what is durable. */
  private static final LinkSettings SETTINGS = LinkSettings.DEFAULTS.withAhead(128);

  private static final String WRONG = "passes with other grades than without a line";
  private static final String LOST = "acknowledged readings lost";
  private static final String INVENTED = "readings kept twice or that the device did not take";
  private static final String SILENT = "passes that ended with an error without words";
  private static final String ENDED = "passes that ended with an error";
  private static final String FAIR = "of them on lines that lose less than one frame in fifty";
  private static final String SECONDS = "mean simulated seconds of a pass";

  @Override
  public String name() {
    return "line";
  }

  @Override
  public String about() {
    return "runs passes over lossy, slow and stalling lines and compares the grades";
  }

  @Override
  public Result run(long seed, Scale scale) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Callable<Score>> work = new ArrayList<>();
    int passes = passes(scale);
    for (int s = 0; s < STACKS; s++) {
      SplittableRandom own = random.split();
      int from = s;
      work.add(() -> stack(own, passes / STACKS + (from < passes % STACKS ? 1 : 0)));
    }
    Score score = new Score();
    Workers.inOrder(work).forEach(score::addAll);
    List<Figure> figures = new ArrayList<>();
    for (String name : List.of(WRONG, LOST, INVENTED, SILENT)) {
      figures.add(Figure.none(name, score.tally().hits(name), score.tally().of(name)));
    }
    figures.add(Figure.count(ENDED, score.tally().hits(ENDED), score.tally().of(ENDED)));
    figures.add(Figure.count(FAIR, score.tally().hits(FAIR), score.tally().of(FAIR)));
    figures.add(Figure.mean(SECONDS, score.tally().total(SECONDS), score.tally().of(SECONDS), 1));
    return new Result(figures, score.notes());
  }

  private static int passes(Scale scale) {
    return switch (scale) {
      case SMALL -> 10;
      case QUICK -> 150;
      case FULL -> 1000;
    };
  }

  private static Score stack(SplittableRandom random, int passes) {
    Score score = new Score();
    PadMap map = Ring.of(POSITIONS, ROWS, random.nextLong());
    boolean matrix = random.nextBoolean();
    Stand stand =
        new Stand(
            map,
            matrix ? FixtureMaps.relayMatrix(map) : FixtureMaps.photoRelay(map),
            SetUp.named("interposer-on-lower").orElseThrow());
    Defects defects = withoutBridges(stand, random.nextInt(MOST_FAULTS + 1), random);
    Specimen specimen =
        new Specimen(
            map.interposers().get(0).variant(),
            random.nextLong(),
            Defects.NONE,
            List.of(new Specimen.Outcome(stand.actions().size(), defects, List.of())),
            List.of());
    Map<String, Grade> right = LinePass.inProcess(stand, specimen);
    for (int i = 0; i < passes; i++) {
      LineWeather weather = weather(random);
      judge(
          LinePass.over(stand, specimen, weather, 0, SETTINGS, random.split()),
          right,
          weather,
          score);
    }
    return score;
  }

  /** At which of several places metal joins is a matter of noise, which each run has anew. */
  static Defects withoutBridges(Stand stand, int faults, SplittableRandom random) {
    Defects left = Defects.NONE;
    for (var defect :
        Specimens.defects(stand.map(), stand.setUp(), faults, random).conditions().entrySet()) {
      if (!Copper.isJoin(defect.getKey(), defect.getValue())) {
        left = left.with(defect.getKey(), defect.getValue());
      }
    }
    return left;
  }

  private static void judge(
      LinePass pass, Map<String, Grade> right, LineWeather weather, Score score) {
    boolean ended = pass.outcome().isEmpty();
    boolean wrong = !ended && !pass.grades().equals(right);
    score.mustNot(WRONG, wrong, differences(pass.grades(), right) + " on " + weather);
    score.tally().add(LOST, pass.compared().lost(), pass.compared().acknowledged());
    score.tally().add(INVENTED, pass.compared().invented(), pass.kept());
    score.tally().add(SILENT, ended && pass.error().length() < 20);
    score.tally().add(ENDED, ended);
    if (Math.max(weather.drop(), weather.corrupt()) < 0.02 && weather.vanishes() < 0) {
      score.tally().add(FAIR, ended);
    }
    if (pass.compared().lost() + pass.compared().invented() > 0) {
      score.note("lost or invented: " + pass.compared() + " on " + weather);
    }
    if (ended) {
      score.note(pass.error() + " (" + weather + ")");
    }
    score.tally().sum(SECONDS, pass.micros() * 1e-6);
  }

  private static List<String> differences(Map<String, Grade> grades, Map<String, Grade> right) {
    return right.keySet().stream()
        .filter(id -> right.get(id) != grades.get(id))
        .map(id -> id + " " + grades.get(id) + " for " + right.get(id))
        .toList();
  }

  /** A line as drawn: each fault with even odds or not at all. */
  private static LineWeather weather(SplittableRandom random) {
    boolean vanishes = random.nextInt(4) == 0;
    boolean delays = random.nextBoolean();
    boolean stalls = random.nextInt(4) == 0;
    return new LineWeather(
        share(random, 0.05),
        share(random, 0.05),
        share(random, 0.05),
        delays || stalls ? (stalls ? 0.002 : 0.02) : 0,
        stalls ? random.nextLong(400_000, 3_000_000) : random.nextLong(5_000, 120_000),
        share(random, 0.05),
        vanishes ? random.nextLong(20_000, 3_000_000) : -1,
        vanishes ? random.nextLong(100_000, 30_000_000) : 0,
        List.of(0, 11_520, 92_160, 800_000).get(random.nextInt(4)),
        random.nextBoolean());
  }

  /** None in half of the lines, else up to the most, small shares as often as large ones. */
  private static double share(SplittableRandom random, double most) {
    return random.nextBoolean() ? 0 : most * Math.pow(10, -2 * random.nextDouble());
  }
}

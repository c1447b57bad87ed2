package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Decision;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.simulator.ContactLaw;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.Trials;

/**
 * Whether the stated intervals hold the truth as often as they say, whether grades are wrong as
 * rarely, and whether the sequential test takes as few readings. Every estimate comes from a
 * fixture of its own. Stateless.
 */
final class Measure implements Experiment {

  private static final double LEAST_COVERED = 0.935;
  private static final double MOST_COVERED = 0.965;

  /** Of a binomial share, so many standard deviations of its own are chance. */
  private static final double CHANCE = 3;

  private record Kind(String name, Capabilities capabilities, double resolution) {}

  private record Stratum(Kind kind, SetUp setUp, ContactLaw law, double from) {

    String name() {
      return String.format(
          Locale.ROOT,
          "%s, %s, %s, %s to %s ohm",
          kind.name(),
          setUp.name(),
          law.name().toLowerCase(Locale.ROOT).replace('_', ' '),
          Double.toString(from),
          Double.toString(10 * from));
    }

    MeasuredPath.Place place() {
      return new MeasuredPath.Place(kind.capabilities(), setUp, law);
    }
  }

  /** What many draws of one stratum came to. */
  private record Tallied(
      Stratum stratum,
      int covered,
      int of,
      double width,
      double known,
      long sound,
      long accused,
      long without) {}

  @Override
  public String name() {
    return "measure";
  }

  @Override
  public String about() {
    return "do stated intervals hold the truth, and are grades wrong as rarely as they say";
  }

  @Override
  public Result run(long seed, Scale scale) {
    int draws = scale == Scale.FULL ? 2000 : scale == Scale.QUICK ? 150 : 12;
    List<Callable<Tallied>> work = new ArrayList<>();
    long at = seed * 1_000_003;
    for (Stratum stratum : strata()) {
      long from = at;
      work.add(() -> tally(stratum, from, draws));
      at += draws;
    }
    List<Tallied> tallied = Workers.inOrder(work);
    List<Figure> figures = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    coverage(tallied, figures, notes, scale);
    accused(tallied, figures);
    limits(at, scale, figures);
    opens(at + 10_000_000, scale, figures);
    figures.addAll(SequentialTrials.figures(seed, scale == Scale.SMALL ? 500 : 20_000));
    return new Result(figures, notes);
  }

  private static List<Kind> kinds() {
    PadMap map = SaltmarshS2.unlearned();
    return List.of(
        new Kind("two-wire", FixtureMaps.photoRelay(map).capabilities(), 0.3),
        new Kind("tail", FixtureMaps.relayMatrix(map).capabilities(), 0.11),
        new Kind("tip", FixtureMaps.fourBus(map).capabilities(), 0.002));
  }

  private static List<Stratum> strata() {
    List<Stratum> strata = new ArrayList<>();
    for (Kind kind : kinds()) {
      for (String setUp : List.of("lower-board", "interposer-on-lower", "interposer")) {
        for (ContactLaw law : ContactLaw.values()) {
          for (double from : new double[] {0.001, 0.01, 0.1, 1}) {
            strata.add(new Stratum(kind, SetUp.named(setUp).orElseThrow(), law, from));
          }
        }
      }
    }
    return strata;
  }

  private static Tallied tally(Stratum stratum, long seed, int draws) {
    double[] errors = new double[draws];
    int covered = 0;
    double width = 0;
    long accused = 0;
    int n = 0;
    for (int i = 0; i < draws; i++) {
      RandomGenerator random = Trials.random(seed + i);
      double ohms = stratum.from() * Math.pow(10, random.nextDouble());
      Condition high = new Condition.High(new Ohms(ohms));
      MeasuredPath path = MeasuredPath.once(stratum.place(), seed + i, high);
      Finding told = finding(path);
      if (told.decision().isPresent() && told.ohms().isPresent()) {
        Decision decision = told.decision().get();
        covered += decision.low() <= path.truth() && path.truth() <= decision.high() ? 1 : 0;
        width += decision.high() - decision.low();
        errors[n++] = told.ohms().get().value() - path.truth();
      }
      accused +=
          MeasuredPath.of(stratum.place(), seed + i, high).findings().positions().stream()
              .filter(f -> !f.position().equals(MeasuredPath.PAD))
              .filter(f -> f.grade().isFault() && f.confirmed())
              .count();
    }
    double[] sorted = Arrays.copyOf(errors, n);
    Arrays.sort(sorted);
    double known = n == 0 ? 0 : quantile(sorted, 0.975) - quantile(sorted, 0.025);
    return new Tallied(
        stratum,
        covered,
        n,
        n == 0 ? 0 : width / n,
        known,
        (long) draws * MeasuredPath.others().size(),
        accused,
        draws - n);
  }

  private static double quantile(double[] sorted, double share) {
    double at = share * (sorted.length - 1);
    int low = (int) at;
    int high = Math.min(sorted.length - 1, low + 1);
    return sorted[low] + (at - low) * (sorted[high] - sorted[low]);
  }

  private static void coverage(
      List<Tallied> tallied, List<Figure> figures, List<String> notes, Scale scale) {
    long out = 0;
    long wide = 0;
    long covered = 0;
    long of = 0;
    long without = 0;
    for (Tallied t : tallied) {
      double share = t.of() == 0 ? 0 : (double) t.covered() / t.of();
      double chance = CHANCE * Math.sqrt(0.95 * 0.05 / Math.max(1, t.of()));
      double slack = scale == Scale.FULL ? 0 : chance;
      boolean isOut = share < LEAST_COVERED - slack || share > MOST_COVERED + slack;
      double ratio = t.known() > 0 ? t.width() / t.known() : 0;
      boolean isWide = scale == Scale.FULL && ratio > 1.15;
      covered += t.covered();
      of += t.of();
      out += isOut ? 1 : 0;
      wide += isWide ? 1 : 0;
      without += t.without();
      notes.add(
          String.format(
              Locale.ROOT,
              "%s%s: %.4f of %d covered, mean width %.3g ohm, %.3f of the known one",
              isOut || isWide ? "MISSED " : "",
              t.stratum().name(),
              share,
              t.of(),
              t.width(),
              ratio));
    }
    figures.add(Figure.share("intervals that hold the truth", covered, of));
    figures.add(Figure.none("strata outside of 93.5 to 96.5 %", out, tallied.size()));
    if (scale == Scale.FULL) {
      figures.add(
          Figure.none(
              "strata wider than 1.15 of the known-parameter interval", wide, tallied.size()));
    }
    figures.add(Figure.count("draws without a value", without, of + without));
  }

  private static void accused(List<Tallied> tallied, List<Figure> figures) {
    long sound = tallied.stream().mapToLong(Tallied::sound).sum();
    long accused = tallied.stream().mapToLong(Tallied::accused).sum();
    figures.add(Figure.none("sound joints that were accused and confirmed", accused, sound));
  }

  /** Joints just on the wrong side of the limit, and just on the right one. */
  private static void limits(long seed, Scale scale, List<Figure> figures) {
    int draws = scale == Scale.FULL ? 4000 : scale == Scale.QUICK ? 300 : 30;
    SetUp setUp = SetUp.named("interposer-on-lower").orElseThrow();
    long at = seed;
    for (Kind kind : kinds()) {
      MeasuredPath.Place place =
          new MeasuredPath.Place(kind.capabilities(), setUp, ContactLaw.LOGNORMAL);
      for (boolean above : new boolean[] {true, false}) {
        long from = at;
        List<Callable<Long>> work = new ArrayList<>();
        int parts = 4;
        for (int part = 0; part < parts; part++) {
          long begin = from + (long) part * draws / parts;
          long end = from + (long) (part + 1) * draws / parts;
          work.add(() -> wrong(place, begin, end, above));
        }
        long wrong = Workers.inOrder(work).stream().mapToLong(w -> w).sum();
        double bar = 0.05 + CHANCE * Math.sqrt(0.05 * 0.95 / draws);
        figures.add(
            Figure.share(
                    (above
                            ? "called connected just above the limit, "
                            : "called high just below it, ")
                        + kind.name(),
                    wrong,
                    draws)
                .with(Figure.Relation.AT_MOST, Figure.mean("", bar, 1, 4).value().toPlainString()));
        at += draws;
      }
    }
  }

  private static long wrong(MeasuredPath.Place place, long begin, long end, boolean above) {
    // The via and the copper of the path are about three milliohm.
    double ohms = MeasuredPath.LIMIT - 0.003 + (above ? 0.001 : -0.001);
    long wrong = 0;
    for (long seed = begin; seed < end; seed++) {
      Grade grade = grade(MeasuredPath.of(place, seed, new Condition.High(new Ohms(ohms))));
      wrong += grade == (above ? Grade.GOOD : Grade.HIGH) ? 1 : 0;
    }
    return wrong;
  }

  private static Grade grade(MeasuredPath path) {
    return finding(path).grade();
  }

  private static Finding finding(MeasuredPath path) {
    return path.findings().positions().stream()
        .filter(f -> f.position().equals(MeasuredPath.PAD))
        .findFirst()
        .orElseThrow();
  }

  private static void opens(long seed, Scale scale, List<Figure> figures) {
    int draws = scale == Scale.FULL ? 30_000 : scale == Scale.QUICK ? 900 : 60;
    List<Callable<Long>> work = new ArrayList<>();
    List<Stratum> strata = strata().stream().filter(s -> s.from() == 1).toList();
    int each = (draws + strata.size() - 1) / strata.size();
    long at = seed;
    for (Stratum stratum : strata) {
      long from = at;
      work.add(
          () -> {
            long missed = 0;
            for (long i = from; i < from + each; i++) {
              Grade grade = grade(MeasuredPath.of(stratum.place(), i, new Condition.Open()));
              missed += grade == Grade.OPEN ? 0 : 1;
            }
            return missed;
          });
      at += each;
    }
    long missed = Workers.inOrder(work).stream().mapToLong(w -> w).sum();
    figures.add(Figure.none("missed opens", missed, (long) each * strata.size()));
  }
}

package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.job.Blame;
import org.jointwalk.job.Blame.Cause;
import org.jointwalk.job.Landed;
import org.jointwalk.job.ProbeState;
import org.jointwalk.landing.Landings;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;

/**
 * Campaign {@code contact}: how often joint, probe and single landing are told apart after so many
 * seatings, and how probe alarms do over the passes of a fixture. Stateless.
 */
final class Touch implements Experiment {

  private static final double NAMED = 0.9;

  /** What a two-wire reading of a milliohm range adds, in ohm. */
  private static final double NOISE = 1e-3;

  private static final double GOOD_MEDIAN = 20e-3;
  private static final double GOOD_SIGMA = 0.5;

  private static final int PROBES = 420;
  private static final int PASSES = 100;

  /** Passes of the baseline before anything is counted or shifted. */
  private static final int BASELINE = 100;

  /** Passes within which a shift has to be named. */
  private static final int SOON = 10;

  private static final double BETWEEN = 0.3;
  private static final double WITHIN = 0.35;

  /** By how many of its spreads from pass to pass a worn probe has risen. */
  private static final double SHIFT = 2;

  private static final int WORN = 20;

  /** Landings that are ten to a hundred times as bad. */
  private static final double BAD_SHARE = 0.015;

  @Override
  public String name() {
    return "contact";
  }

  @Override
  public String about() {
    return "joint, probe or one landing over seatings; alarms of worn probes";
  }

  /** How landings are spread. */
  private enum Law {
    /** As the decision assumes. */
    LOGNORMAL {
      @Override
      double good(RandomGenerator random) {
        return GOOD_MEDIAN * Math.exp(GOOD_SIGMA * random.nextGaussian());
      }

      @Override
      double landing(RandomGenerator random) {
        return Math.exp(WITHIN * random.nextGaussian());
      }
    },
    /** Inverse Gaussian of the same mean and spread, which the decision does not know. */
    INVERSE_GAUSSIAN {
      @Override
      double good(RandomGenerator random) {
        double mean = GOOD_MEDIAN * Math.exp(GOOD_SIGMA * GOOD_SIGMA / 2);
        return inverseGaussian(random, mean, mean / Math.expm1(GOOD_SIGMA * GOOD_SIGMA));
      }

      @Override
      double landing(RandomGenerator random) {
        return inverseGaussian(random, 1, 1 / Math.expm1(WITHIN * WITHIN));
      }
    };

    abstract double good(RandomGenerator random);

    abstract double landing(RandomGenerator random);

    String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }

  /** Michael, Schucany and Haas 1976: a root of a chi-square, and which of the two. */
  private static double inverseGaussian(RandomGenerator random, double mean, double shape) {
    double z = random.nextGaussian();
    double y = mean * z * z;
    double x = mean + mean / (2 * shape) * (y - Math.sqrt(4 * shape * y + y * y));
    return random.nextDouble() <= mean / (mean + x) ? x : mean * mean / x;
  }

  @Override
  public Result run(long seed, Scale scale) {
    int pads = scale == Scale.SMALL ? 150 : scale == Scale.QUICK ? 500 : 4000;
    int fixtures = scale == Scale.SMALL ? 1 : scale == Scale.QUICK ? 4 : 40;
    List<Figure> figures = new ArrayList<>();
    List<String> notes = new ArrayList<>();
    for (Law law : Law.values()) {
      for (int seatings = 2; seatings <= 4; seatings++) {
        figures.addAll(decisions(seed, law, seatings, pads, notes));
      }
    }
    for (Law law : Law.values()) {
      figures.addAll(alarms(seed, law, fixtures, notes));
    }
    return new Result(figures, notes);
  }

  private record Named(Cause truth, Blame blame) {}

  private static List<Figure> decisions(
      long seed, Law law, int seatings, int pads, List<String> notes) {
    List<Callable<List<Named>>> work = new ArrayList<>();
    for (Cause truth : Cause.values()) {
      long own =
          31 * (31 * (31 * seed + truth.name().hashCode()) + law.name().hashCode()) + seatings;
      work.add(() -> decide(new SplittableRandom(own), law, truth, seatings, pads));
    }
    Map<Cause, Integer> right = new EnumMap<>(Cause.class);
    Map<Cause, Integer> wrong = new EnumMap<>(Cause.class);
    Map<Cause, Integer> passed = new EnumMap<>(Cause.class);
    Map<Cause, Double> posterior = new EnumMap<>(Cause.class);
    for (List<Named> list : Workers.inOrder(work)) {
      for (Named one : list) {
        posterior.merge(one.truth(), one.blame().of(one.truth()), Double::sum);
        one.blame()
            .named(NAMED)
            .ifPresent(
                c -> {
                  Map<Cause, Integer> how =
                      c == one.truth() ? right : c == Cause.SOUND ? passed : wrong;
                  how.merge(one.truth(), 1, Integer::sum);
                });
      }
    }
    String at = " after " + seatings + " seatings, " + law.word();
    for (Cause truth : Cause.values()) {
      notes.add(
          String.format(
              Locale.ROOT,
              "%s%s: mean posterior %.3f, named %.3f, wrongly %.3f, called sound %.3f",
              truth,
              at,
              posterior.getOrDefault(truth, 0.0) / pads,
              right.getOrDefault(truth, 0) / (double) pads,
              wrong.getOrDefault(truth, 0) / (double) pads,
              passed.getOrDefault(truth, 0) / (double) pads));
    }
    if (seatings != 3) {
      return List.of();
    }
    // Of a hundred names given on a shop's mix of pads, as many are wrong as the mix makes them.
    Landings.Rates rates = Landings.Rates.ASSUMED;
    Map<Cause, Double> mix =
        Map.of(
            Cause.JOINT, rates.joint(),
            Cause.PROBE, rates.probe(),
            Cause.SPORADIC, rates.sporadic());
    double names = 0;
    double wrongs = 0;
    for (Map.Entry<Cause, Double> part : mix.entrySet()) {
      double good = right.getOrDefault(part.getKey(), 0) * part.getValue();
      double bad = wrong.getOrDefault(part.getKey(), 0) * part.getValue();
      names += good + bad;
      wrongs += bad;
    }
    return List.of(
        Figure.share("joints named" + at, right.getOrDefault(Cause.JOINT, 0), pads)
            .with(Figure.Relation.AT_LEAST, "0.80"),
        Figure.share("probes named" + at, right.getOrDefault(Cause.PROBE, 0), pads)
            .with(Figure.Relation.AT_LEAST, "0.65"),
        Figure.share("single landings named" + at, right.getOrDefault(Cause.SPORADIC, 0), pads),
        Figure.share("sound pads accused" + at, wrong.getOrDefault(Cause.SOUND, 0), pads)
            .with(Figure.Relation.AT_MOST, "0.001"),
        Figure.mean("wrong of the faults named" + at, wrongs / names, 1, 4)
            .with(Figure.Relation.AT_MOST, "0.05"));
  }

  private static List<Named> decide(
      RandomGenerator random, Law law, Cause truth, int seatings, int pads) {
    double mean = GOOD_MEDIAN * Math.exp(GOOD_SIGMA * GOOD_SIGMA / 2);
    double sd = mean * Math.sqrt(Math.expm1(GOOD_SIGMA * GOOD_SIGMA));
    ProbeQuality probes = new ProbeQuality(new Ohms(mean), new Ohms(sd));
    Landings.Rates rates = Landings.Rates.ASSUMED;
    List<Named> all = new ArrayList<>();
    for (int pad = 0; pad < pads; pad++) {
      double joint =
          truth == Cause.JOINT
              ? rates.badJointOhms() * Math.exp(rates.badJointSigma() * random.nextGaussian())
              : 0;
      int bad = truth == Cause.SPORADIC ? random.nextInt(seatings) : -1;
      List<Estimate> ohms = new ArrayList<>();
      for (int s = 0; s < seatings; s++) {
        double contact =
            truth == Cause.PROBE || s == bad
                ? rates.badProbeOhms() * Math.exp(rates.badProbeSigma() * random.nextGaussian())
                : law.good(random);
        ohms.add(Estimate.known(joint + contact + NOISE * random.nextGaussian(), NOISE));
      }
      all.add(new Named(truth, Landings.blame(ohms, probes, rates)));
    }
    return all;
  }

  /**
   * What became of one fixture.
   *
   * @param falsely sound probes named
   * @param delays passes until each worn probe was named; SOON + 1 when it was not in time
   */
  private record Life(int falsely, List<Integer> delays) {}

  private static List<Figure> alarms(long seed, Law law, int fixtures, List<String> notes) {
    List<Callable<Life>> work = new ArrayList<>();
    for (int f = 0; f < fixtures; f++) {
      long own = 31 * (1_000_003 * seed + law.name().hashCode()) + f;
      work.add(() -> life(new SplittableRandom(own), law));
    }
    int falsely = 0;
    List<Integer> delays = new ArrayList<>();
    for (Life life : Workers.inOrder(work)) {
      falsely += life.falsely();
      delays.addAll(life.delays());
    }
    String of = ", skewed " + law.word();
    long soon = delays.stream().filter(d -> d <= SOON).count();
    notes.add(
        String.format(
            Locale.ROOT,
            "%d false alarms in %d hundreds of passes; shifts named after %.2f passes",
            falsely,
            fixtures,
            delays.stream().mapToInt(d -> d).average().orElse(0)));
    return List.of(
        Figure.mean("false alarms in 100 passes of 420 probes" + of, falsely, fixtures, 3)
            .with(Figure.Relation.AT_MOST, "1"),
        Figure.share("shifts by 2 s named within 10 passes" + of, soon, delays.size())
            .with(Figure.Relation.AT_LEAST, "0.9"));
  }

  /** 420 sound probes for 200 passes, then 20 of them worn; alarms of the first 100 are apart. */
  private static Life life(RandomGenerator random, Law law) {
    List<Contact> probes = new ArrayList<>();
    List<Double> levels = new ArrayList<>();
    for (int p = 0; p < PROBES; p++) {
      probes.add(new Contact.Pad(Plate.OVER, String.format(Locale.ROOT, "N%03d", p)));
      levels.add(Math.log(GOOD_MEDIAN) + BETWEEN * random.nextGaussian());
    }
    List<Landed> passes = new ArrayList<>();
    for (int pass = 0; pass < BASELINE + PASSES; pass++) {
      passes.add(landed(random, law, probes, levels));
    }
    List<Contact> before = named(passes.subList(0, BASELINE));
    List<Contact> after = new ArrayList<>(named(passes));
    after.removeAll(before);
    List<Contact> worn =
        probes.stream().filter(p -> !before.contains(p) && !after.contains(p)).limit(WORN).toList();
    List<Integer> delays = new ArrayList<>();
    for (int i = 0; i < worn.size(); i++) {
      delays.add(SOON + 1);
    }
    for (Contact probe : worn) {
      int at = probes.indexOf(probe);
      levels.set(at, levels.get(at) + SHIFT * WITHIN);
    }
    for (int pass = 1; pass <= SOON; pass++) {
      passes.add(landed(random, law, probes, levels));
      List<Contact> found = named(passes);
      for (int i = 0; i < worn.size(); i++) {
        if (delays.get(i) > SOON && found.contains(worn.get(i))) {
          delays.set(i, pass);
        }
      }
    }
    return new Life(after.size(), delays);
  }

  /** One pass: every probe lands once, one in seventy ten to a hundred times as badly. */
  private static Landed landed(
      RandomGenerator random, Law law, List<Contact> probes, List<Double> levels) {
    Map<Contact, Double> ohms = new LinkedHashMap<>();
    Map<Contact, Integer> landings = new LinkedHashMap<>();
    for (int p = 0; p < probes.size(); p++) {
      double bad = random.nextDouble() < BAD_SHARE ? Math.pow(10, 1 + random.nextDouble()) : 1;
      ohms.put(probes.get(p), Math.exp(levels.get(p)) * law.landing(random) * bad);
      landings.put(probes.get(p), 1);
    }
    return new Landed(1, ohms, landings, Map.of(), Set.copyOf(probes));
  }

  private static List<Contact> named(List<Landed> passes) {
    return Landings.states(passes).stream()
        .filter(s -> s.advice() == ProbeState.Advice.CLEAN)
        .map(ProbeState::contact)
        .toList();
  }
}

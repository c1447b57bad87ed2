package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.jointwalk.campaign.Figure.Relation;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.pass.Outcome;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.LineWeather;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/**
 * Runs whole passes over lines with the latency of USB serial converters, to a device that takes
 * its time, and compares with what device and line need at least: the time of the same pass over a
 * line that takes none, and the bytes at the rate of the line. What is done once a session, opening
 * and saying what is clamped, is shown by itself. Time is simulated.
 */
final class Paced implements Experiment {

  private static final String SET_UP = "interposer-on-lower";
  private static final String WORST = "1.05";

  /** A request and its answer for one reading, in bytes, were each asked for by itself. */
  private static final int BYTES_ALONE = 60;

  /** Mean latency of a line as drawn here: 2 ms, 30 % of 16 ms, 0.1 % of 150 ms. */
  private static final double LATENCY = 2e-3 + 0.3 * 16e-3 + 0.001 * 150e-3;

  private static final Map<String, Integer> RATES = rates();

  @Override
  public String name() {
    return "pace";
  }

  @Override
  public String about() {
    return "compares the time of passes with what device and line need at least";
  }

  @Override
  public Result run(long seed, Scale scale) {
    SplittableRandom random = new SplittableRandom(seed);
    PadMap map = SaltmarshS2.map();
    List<FixtureMap> fixtures = new ArrayList<>(List.of(FixtureMaps.photoRelay(map)));
    if (scale != Scale.SMALL) {
      fixtures.add(FixtureMaps.relayMatrix(map));
      fixtures.add(FixtureMaps.fourBus(map));
    }
    List<Callable<List<Figure>>> work = new ArrayList<>();
    for (FixtureMap fixture : fixtures) {
      Stand stand = new Stand(map, fixture, SetUp.named(SET_UP).orElseThrow());
      RATES.forEach(
          (words, rate) -> {
            List<SplittableRandom> draws = new ArrayList<>();
            for (int i = 0; i < (scale == Scale.FULL ? 10 : 2); i++) {
              draws.add(random.split());
            }
            work.add(() -> figures(stand, words, rate, draws));
          });
    }
    List<Figure> figures = new ArrayList<>();
    Workers.inOrder(work).forEach(figures::addAll);
    return new Result(figures, List.of());
  }

  private static Map<String, Integer> rates() {
    Map<String, Integer> rates = new LinkedHashMap<>();
    rates.put("115200 baud", 11_520);
    rates.put("921600 baud", 92_160);
    rates.put("USB CDC", 800_000);
    return rates;
  }

  private static LinePass pass(
      Stand stand, Specimen specimen, LineWeather weather, SplittableRandom random) {
    return LinePass.over(stand, specimen, weather, 1, LinkSettings.DEFAULTS, random.split());
  }

  private static List<Figure> figures(
      Stand stand, String words, int rate, List<SplittableRandom> draws) {
    double taken = 0;
    double floor = 0;
    double alone = 0;
    double opening = 0;
    for (SplittableRandom random : draws) {
      LineWeather weather = new LineWeather(0, 0, 0, 0, 0, 0, -1, 0, rate, true);
      Specimen specimen = Specimens.broken(stand.map(), random.nextLong());
      LinePass pass = pass(stand, specimen, weather, random);
      LinePass device = pass(stand, specimen, LineWeather.FINE, random);
      Outcome outcome = pass.outcome().orElseThrow(() -> new IllegalStateException(pass.error()));
      opening += pass.opening() * 1e-6;
      taken += pass.micros() * 1e-6;
      floor += Math.max(device.micros() * 1e-6, (double) pass.bytes() / rate);
      alone +=
          outcome.deviceSeconds()
              + outcome.readings() * (2 * LATENCY + (double) BYTES_ALONE / rate);
    }
    String where = stand.fixture().name() + ", " + words;
    return List.of(
        Figure.mean("pass time over the floor of device and line, " + where, taken / floor, 1, 4)
            .with(Relation.AT_MOST, WORST),
        Figure.mean(
            "the same if each reading were asked for by itself, " + where, alone / floor, 1, 2),
        Figure.mean("mean seconds before the first pass, " + where, opening, draws.size(), 3),
        Figure.mean(
            String.format(Locale.ROOT, "mean seconds of a pass, %s", where),
            taken,
            draws.size(),
            1));
  }
}

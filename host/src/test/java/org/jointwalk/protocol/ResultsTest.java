package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class ResultsTest {

  @Test
  void readingsComeBackWithinHalfAStep() {
    Trials.of(
        1000,
        random -> {
          List<Reading.Point> points = new ArrayList<>();
          for (int i = random.nextInt(24); i >= 0; i--) {
            points.add(new Reading.Point(random.nextDouble(-20, 20), random.nextDouble(-0.2, 0.2)));
          }
          Reading reading =
              random.nextBoolean()
                  ? new Reading.Measured(5, points)
                  : new Reading.OverRange(5, points);

          Reading back = Results.reading(5, Results.taken(reading, StepRefusal.KIND));

          assertThat(back).hasSameClassAs(reading);
          List<Reading.Point> got = points(back);
          for (int i = 0; i < points.size(); i++) {
            assertThat(Math.abs(got.get(i).volts() - points.get(i).volts()))
                .isLessThanOrEqualTo(0.501e-8);
            assertThat(Math.abs(got.get(i).amps() - points.get(i).amps()))
                .isLessThanOrEqualTo(0.501e-10);
          }
        });
  }

  private static List<Reading.Point> points(Reading reading) {
    return reading instanceof Reading.Measured measured
        ? measured.points()
        : ((Reading.OverRange) reading).points();
  }

  @Test
  void whatWasOnTheLineOnceComesBackToTheLastBit() {
    Trials.of(
        1000,
        random -> {
          int volt = random.nextInt(-Integer.MAX_VALUE, Integer.MAX_VALUE);
          int amp = random.nextInt(-Integer.MAX_VALUE, Integer.MAX_VALUE);
          Taken taken = new Taken.Measured(List.of(new Raw(volt, amp)));

          assertThat(Results.taken(Results.reading(0, taken), StepRefusal.KIND)).isEqualTo(taken);
        });
  }

  @Test
  void valueBeyondTheLineIsSentAsTheNearest() {
    Reading reading =
        new Reading.Measured(
            0,
            List.of(
                new Reading.Point(30, -1),
                new Reading.Point(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY)));

    assertThat(Results.taken(reading, StepRefusal.KIND))
        .isEqualTo(
            new Taken.Measured(
                List.of(
                    new Raw(Integer.MAX_VALUE, -Integer.MAX_VALUE),
                    new Raw(-Integer.MAX_VALUE, Integer.MAX_VALUE))));
  }

  @Test
  void valueThatIsNoNumberIsNeverSent() {
    Reading reading = new Reading.Measured(0, List.of(new Reading.Point(Double.NaN, 0)));

    assertThatThrownBy(() -> Results.taken(reading, StepRefusal.KIND))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void batchCountsItsReadingsFromItsFirstIndex() throws BreachException {
    Notice.Results results =
        new Notice.Results(
            new Notice.Span(1, 0, 2500, 0, 1_500_000, 6),
            List.of(
                new Taken.Measured(List.of(new Raw(2_000_000, 120_000_000))),
                new Taken.OverRange(List.of()),
                new Taken.Refused(StepRefusal.VOLTAGE.code()),
                new Taken.Refused(200)));

    assertThat(Results.batch(results))
        .isEqualTo(
            new Batch(
                List.of(
                    new Reading.Measured(2500, List.of(new Reading.Point(0.02, 0.012))),
                    new Reading.OverRange(2501, List.of()),
                    new Reading.Refused(2502, "the voltage is over its ceiling"),
                    new Reading.Refused(
                        2503, "the fixture gives reason 200, which is not known here")),
                6,
                1.5));
  }

  @Test
  void resultsBeyondAnyScanAreABreach() {
    Notice.Results results =
        new Notice.Results(
            new Notice.Span(1, 0, Integer.MAX_VALUE, 0, 0, 0), List.of(new Taken.Refused(1)));

    assertThatThrownBy(() -> Results.batch(results)).isInstanceOf(BreachException.class);
  }

  @Test
  void frameTakesTwentyFourResultsOfOnePointAndNoMore() {
    Taken one = new Taken.Measured(List.of(new Raw(1, 1)));
    List<Taken> results = new ArrayList<>();
    while (Notice.Results.fits(results)) {
      results.add(one);
    }

    assertThat(results).hasSize(25);
  }
}

package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Taken;
import org.junit.jupiter.api.Test;

/** The campaigns over lines, small, and the account that they rest on. */
class LinesTest {

  private static final long SEED = 20;

  private static void holds(Experiment experiment) {
    Result result = experiment.run(SEED, Scale.SMALL);

    assertThat(result.figures())
        .isNotEmpty()
        .allSatisfy(f -> assertThat(f.holds()).as("%s %s", f.json(), result.notes()).isTrue());
  }

  @Test
  void smallCampaignOverBadLinesHolds() {
    holds(new Line());
  }

  @Test
  void smallCampaignOfKilledProgramsHolds() {
    holds(new Kill());
  }

  @Test
  void smallCampaignOfPaceHolds() {
    holds(new Paced());
  }

  private static DeviceAccount account() {
    DeviceAccount account = new DeviceAccount();
    for (long index = 0; index < 4; index++) {
      account.taken(1, index, result(index));
    }
    account.acknowledged(1, 2);
    account.taken(2, 3, result(30));
    return account;
  }

  private static Taken result(long millivolts) {
    return new Taken.Measured(List.of(new Raw((int) (millivolts * 100_000), 0)));
  }

  private static Batch kept(int index, long millivolts) {
    return new Batch(
        List.of(new Reading.Measured(index, List.of(new Reading.Point(millivolts * 1e-3, 0)))),
        0,
        0);
  }

  @Test
  void logThatGoesOnWhereTheLastRunEndedHoldsEverything() {
    DeviceAccount.Comparison compared =
        account().compare(List.of(kept(0, 0), kept(1, 1), kept(2, 2), kept(3, 30)));

    assertThat(compared).isEqualTo(new DeviceAccount.Comparison(2, 0, 0));
  }

  @Test
  void readingThatWasAcknowledgedAndIsNotKeptIsLost() {
    assertThat(account().compare(List.of(kept(0, 0))).lost()).isEqualTo(1);
    assertThat(account().compare(List.of()).lost()).isEqualTo(2);
  }

  @Test
  void readingThatIsKeptTwiceOrChangedIsInvented() {
    assertThat(account().compare(List.of(kept(0, 0), kept(1, 1), kept(1, 1))).invented())
        .isEqualTo(1);
    assertThat(account().compare(List.of(kept(0, 0), kept(1, 1), kept(2, 7))).invented())
        .isEqualTo(1);
  }
}

package org.jointwalk.spice;

import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Scan;
import org.jointwalk.job.PassRecord;

/** A fixture that answers from the log of a pass, and only what was asked there. */
final class LoggedFixture implements Fixture {

  private final PassRecord pass;
  private int seating;
  private int scans;
  private volatile boolean stopped;

  LoggedFixture(PassRecord pass) {
    this.pass = pass;
  }

  /** Goes on to the next clamping of the log, where there is one. */
  void reseat() {
    seating = Math.min(seating + 1, pass.seatings().size() - 1);
  }

  @Override
  public Capabilities capabilities() {
    return pass.begun().capabilities();
  }

  @Override
  public Clamping clamping() {
    return pass.seatings().get(seating).clamping();
  }

  @Override
  public void run(Scan scan, Keep keep) throws FixtureException {
    stopped = false;
    List<PassRecord.ScanRecord> logged = pass.scans();
    if (scans == logged.size() || !logged.get(scans).plan().equals(scan)) {
      throw new FixtureException.Refused("scan " + (scans + 1) + " was not asked for in the log");
    }
    for (Batch batch : logged.get(scans++).batches()) {
      if (stopped) {
        return;
      }
      keep.keep(batch);
    }
  }

  @Override
  public void stop() {
    stopped = true;
  }
}

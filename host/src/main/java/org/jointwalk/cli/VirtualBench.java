package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Seating;
import org.jointwalk.simulator.Pace;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/**
 * Puts the virtual stack of a job into the virtual fixture. What is left of the stack follows from
 * the actions that the job has recorded, so that a job can be worked on over many calls.
 */
final class VirtualBench {

  private VirtualBench() {}

  /**
   * The fixture with the parts clamped in it.
   *
   * @param resumed the pass that goes on, whose seating is still in place; none for a new one
   */
  static VirtualFixture clamped(
      PadMap map,
      FixtureMap fixtureMap,
      Specimen specimen,
      Job job,
      SetUp setUp,
      List<PassRecord> resumed) {
    return clamped(map, fixtureMap, specimen, job, setUp, resumed, Pace.FREE);
  }

  /**
   * The same, freshly clamped.
   *
   * @param pace how simulated time is spent
   */
  static VirtualFixture clamped(
      PadMap map, FixtureMap fixtureMap, Specimen specimen, Job job, SetUp setUp, Pace pace) {
    return clamped(map, fixtureMap, specimen, job, setUp, List.of(), pace);
  }

  private static VirtualFixture clamped(
      PadMap map,
      FixtureMap fixtureMap,
      Specimen specimen,
      Job job,
      SetUp setUp,
      List<PassRecord> resumed,
      Pace pace) {
    VirtualFixture.Conditions calm = VirtualFixture.Conditions.CALM;
    List<Seating> kept = resumed.isEmpty() ? List.of() : resumed.get(0).seatings();
    VirtualFixture fixture =
        new VirtualFixture(
            map,
            specimen,
            fixtureMap,
            new VirtualFixture.Conditions(
                calm.law(), calm.miss(), calm.closing(), pace, job.seatings() - kept.size()));
    fixture.clamp(setUp, job.actions());
    for (int i = 1; i < kept.size(); i++) {
      fixture.reseat();
    }
    return fixture;
  }

  /** A lid that nobody has to open. */
  static Lid lid(VirtualFixture fixture, PrintWriter err) {
    return positions -> {
      err.println(
          positions.isEmpty()
              ? "Seated again: no ground was found in this seating."
              : "Seated again to tell joints from contacts: " + AtFixture.some(positions) + ".");
      fixture.reseat();
      return true;
    };
  }
}

package org.jointwalk.landing;

import java.util.List;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.job.Blame;
import org.jointwalk.job.Landed;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.ProbeState;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;

/** Judges how probes landed: in one pass, and over the life of a fixture. Stateless. */
public final class Landings {

  private Landings() {}

  /**
   * What is assumed of faults before anything is read; all shares are of pads. The defaults are
   * assumptions from memory without a published source: they order the causes and no more.
   *
   * @param joint share whose joint is high
   * @param probe share whose probe is bad in every seating
   * @param sporadic share with one bad landing
   * @param badJointOhms median of a high joint
   * @param badJointSigma spread of its logarithm
   * @param badProbeOhms median of a bad landing
   * @param badProbeSigma spread of its logarithm
   */
  public record Rates(
      double joint,
      double probe,
      double sporadic,
      double badJointOhms,
      double badJointSigma,
      double badProbeOhms,
      double badProbeSigma) {

    /** The defaults. */
    public static final Rates ASSUMED = new Rates(0.005, 0.01, 0.02, 0.2, 1, 0.3, 1.2);

    public Rates {
      if (!(joint >= 0 && probe >= 0 && sporadic >= 0) || joint + probe + sporadic >= 1) {
        throw new IllegalArgumentException("the shares of faults must leave some pads sound");
      }
    }
  }

  /**
   * What makes a pad read as it does: the joint, the probe, one landing or nothing. Cost: a few
   * milliseconds for the tables.
   *
   * @param ohms one for each seating, joint and contact together, what a sound path has taken off
   * @param probes what the fixture says of its contacts
   * @throws IllegalArgumentException when there is no seating
   */
  public static Blame blame(List<Estimate> ohms, ProbeQuality probes, Rates rates) {
    if (ohms.isEmpty()) {
      throw new IllegalArgumentException("without a seating there is nothing to judge");
    }
    double u = ohms.stream().mapToDouble(Estimate::u).max().orElseThrow();
    double largest = ohms.stream().mapToDouble(Estimate::value).max().orElseThrow();
    return new Blaming(probes, u, largest, rates).of(ohms.stream().map(Estimate::value).toList());
  }

  /**
   * What a pass shows of its probes: their resistance next to the middle one of the pass, and who
   * did not land. Pads that the pass found faulty say nothing of their probes.
   *
   * @param pass graded or not
   * @param assembly what was in the fixture
   */
  public static Landed landed(PassRecord pass, Assembly assembly) {
    return new Landing(pass, assembly).landed();
  }

  /**
   * How every probe has done.
   *
   * @param passes since the probes were last cleaned, oldest first
   * @return one for each probe that was used, in the order of its name
   */
  public static List<ProbeState> states(List<Landed> passes) {
    return new Histories(passes).states();
  }
}

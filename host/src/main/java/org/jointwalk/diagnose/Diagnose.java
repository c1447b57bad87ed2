package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.job.Job;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;

/**
 * Says where the fault of a job is. For each clue of a pass it takes the parts of the path that was
 * really in the fixture and removes those that another pass proves good; the words follow from
 * assumed rates, and exclusion alone never says more than probably. A pure function of the job:
 * without state, and safe for any number of threads.
 */
public final class Diagnose {

  /** Id of the rule, kept in every verdict. */
  private static final String RULE = "exclusion-1";

  /**
   * Judges all passes and events of a job.
   *
   * @param map the model
   * @param variant the interposer inside, one of the map's variants
   * @param job what was told, done, seen and measured, in order
   * @return where the fault is, how sure that is, and what to do next; cost is linear in the
   *     findings
   */
  public Verdict verdict(PadMap map, Interposer variant, Job job) {
    Words words = new Words(map);
    Lives lives = new Lives(job);
    List<GradedPass> passes = GradedPass.of(map, variant, job);
    Evidence evidence = new Evidence(map, lives, passes);
    Suspects suspects = new Suspects(map, lives, evidence, new Sights(lives, job));
    Standing standing = new Standing(job, lives, passes, evidence, suspects.all());
    Complaint complaint = new Complaint(map, words, standing, evidence);
    Grouping grouping = new Grouping(words);

    List<Verdict.Group> cameIn = new ArrayList<>(grouping.of(standing.cameIn()));
    if (complaint.stands() && standing.isAllMeasured() && !standing.hasDoubts()) {
      cameIn.addAll(complaint.unseenSuspects());
    }
    return new Verdict(
        new Headline(words, standing, complaint).text(),
        cameIn,
        grouping.of(standing.now()),
        complaint.fit(),
        new NextStep(map, words, standing, complaint).next(),
        remarks(words, complaint, suspects, standing),
        new Unseen(map, standing).sentences(),
        RULE);
  }

  private static List<String> remarks(
      Words words, Complaint complaint, Suspects suspects, Standing standing) {
    List<String> remarks = new ArrayList<>(complaint.remarks());
    for (Seen seen : suspects.seenButConnected()) {
      remarks.add(
          seen.position()
              + " on the "
              + Words.side(seen.side())
              + " side looks bad ("
              + Words.look(seen.look())
              + ") but is connected under pressure: touch it up while the stack is open.");
    }
    Set<String> byWork = new LinkedHashSet<>();
    Set<String> again = new LinkedHashSet<>();
    for (Suspect s : standing.now()) {
      if (s.lead().component() instanceof Component.Pad && s.goodBefore().contains(s.lead())) {
        byWork.addAll(s.positions());
      }
      if (s.lead().component() instanceof Component.Joint && s.lead().life() > 1) {
        again.addAll(s.positions());
      }
    }
    Set<String> perhaps = new LinkedHashSet<>();
    standing.cameIn().stream()
        .filter(standing::mayBeFromWork)
        .forEach(s -> perhaps.addAll(s.positions()));
    if (!perhaps.isEmpty()) {
      remarks.add(
          Words.ids(words.ordered(perhaps))
              + ": first read after its side had let go, so the pad may have come off with that.");
    }
    if (!byWork.isEmpty()) {
      remarks.add(
          Words.ids(words.ordered(byWork))
              + ": the pad was good before the work and is not now; it does not explain the"
              + " complaint.");
    }
    if (!again.isEmpty()) {
      remarks.add(
          Words.ids(words.ordered(again))
              + " failed again after being soldered anew: look at pad and land before more heat.");
    }
    for (Side side : Side.values()) {
      if (standing.attachment().holds(side)
          && !standing.isRemade(side)
          && standing.lostRow(side.other())) {
        remarks.add(
            "The " + Words.side(side) + " joints were heated by the split: they may have changed.");
      }
    }
    return remarks;
  }
}

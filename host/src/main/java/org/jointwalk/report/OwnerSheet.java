package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.PadMap;

/**
 * Half a page for the owner of the device, in plain words: what was wrong, what was done, what was
 * not measured. No percentages, since they rest on assumptions, and no promises. Immutable.
 */
final class OwnerSheet {

  private final PadMap map;

  OwnerSheet(PadMap map) {
    this.map = map;
  }

  Sheet of(Job job, Verdict verdict, JobReport.Frame frame) {
    Pictures pictures = new Pictures(map, job);
    List<PassRecord> drawn = pictures.chosen();
    List<Sheet.Block> blocks = new ArrayList<>();
    blocks.add(new Sheet.Block("What we found", List.of(found(verdict))));
    blocks.add(new Sheet.Block("What we did", done(job)));
    blocks.add(new Sheet.Block("How it is now", List.of(now(verdict))));
    blocks.add(
        new Sheet.Block(
            "What was not measured",
            List.of(
                "We measured the connections between the two boards, at rest and with no battery."
                    + " Some of them cannot be measured singly, and parts of a board that do not"
                    + " show there were not measured at all.")));
    return new Sheet(
        "Your " + job.intake().device(),
        frame.shop(),
        facts(job),
        "",
        false,
        blocks,
        pictures.rings(drawn),
        Optional.empty(),
        List.of(),
        List.of(),
        frame.made(),
        frame.hash(),
        frame.program());
  }

  private static List<Sheet.Fact> facts(Job job) {
    List<Sheet.Fact> facts = new ArrayList<>();
    facts.add(new Sheet.Fact("Device", job.intake().device()));
    if (!job.intake().serial().isBlank()) {
      facts.add(new Sheet.Fact("Serial", job.intake().serial()));
    }
    facts.add(new Sheet.Fact("You told us", JobText.cameIn(job.intake())));
    facts.add(new Sheet.Fact("Our number", job.id()));
    return facts;
  }

  private static String found(Verdict verdict) {
    if (verdict.groups().isEmpty()) {
      return "We found no fault in the connections that we could measure.";
    }
    Verdict.Group first = verdict.groups().get(0);
    String sure =
        first.sureness() == Sureness.LOCATED
            ? "The fault is"
            : first.sureness() == Sureness.PROBABLY ? "The fault is probably" : "The fault may be";
    return sure + " " + place(first) + ".";
  }

  private static String place(Verdict.Group group) {
    List<String> places = group.regions().stream().map(OwnerSheet::place).distinct().toList();
    return places.isEmpty() ? "in a part that we could not name" : Phrases.or(places);
  }

  private static String place(Region region) {
    return switch (region) {
      case UPPER_JOINTS, LOWER_JOINTS -> "in the solder that joins the two boards";
      case INTERPOSER -> "in the frame between the two boards";
      case UPPER_BOARD -> "on the upper board";
      case LOWER_BOARD -> "on the lower board";
    };
  }

  private static List<String> done(Job job) {
    List<String> done = new ArrayList<>();
    for (Logged logged : job.timeline()) {
      if (logged.event() instanceof Event.Done action
          && !(action.action() instanceof Action.ProbesCleaned)) {
        done.add(plain(action.action()));
      }
    }
    List<String> distinct = done.stream().distinct().toList();
    return distinct.isEmpty() ? List.of("We measured it and changed nothing.") : distinct;
  }

  private static String plain(Action action) {
    if (action instanceof Action.Split || action instanceof Action.Lift) {
      return "The two boards were taken apart.";
    }
    if (action instanceof Action.Reball) {
      return "The solder between the boards was made anew.";
    }
    if (action instanceof Action.PadRebuilt || action instanceof Action.Jumper) {
      return "A torn connection was repaired.";
    }
    if (action instanceof Action.PartReplaced) {
      return "A part was replaced.";
    }
    return "The boards were cleaned.";
  }

  private static String now(Verdict verdict) {
    return verdict.now().isEmpty()
        ? "In our last measurement the connections that we can measure were as they should be."
        : "In our last measurement something was not as it should be.";
  }
}

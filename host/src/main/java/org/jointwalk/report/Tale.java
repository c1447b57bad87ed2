package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;

/** One line for one entry of a job's log. Stateless. */
final class Tale {

  private static final int NAMED = 12;

  private Tale() {}

  /** What happened, or nothing for entries that only carry readings. */
  static Optional<String> of(Event event) {
    if (event instanceof Event.Opened opened) {
      return Optional.of("job opened" + by(opened.by()));
    }
    if (event instanceof Event.Done done) {
      return Optional.of(action(done.action()) + by(done.by()));
    }
    if (event instanceof Event.Looked looked) {
      Seen seen = looked.seen();
      return Optional.of(
          "seen at "
              + seen.position()
              + ", "
              + Phrases.side(seen.side())
              + " side: "
              + look(seen.look())
              + by(looked.by()));
    }
    if (event instanceof Event.Clamped clamped) {
      return Optional.of(works(clamped.works()) + by(clamped.by()));
    }
    if (event instanceof Event.Noted noted) {
      return Optional.of("note: " + noted.text() + by(noted.by()));
    }
    if (event instanceof Event.PassBegun begun) {
      return Optional.of(
          "pass "
              + begun.pass()
              + " of "
              + Phrases.setUp(begun.setUp())
              + purpose(begun.purpose())
              + by(begun.by()));
    }
    if (event instanceof Event.PassGraded graded) {
      return Optional.of("pass " + graded.pass() + " graded: " + faults(graded.findings()));
    }
    if (event instanceof Event.Judged judged) {
      return Optional.of("finding: " + judged.verdict().headline());
    }
    if (event instanceof Event.Closed closed) {
      return Optional.of("job closed" + by(closed.by()));
    }
    return Optional.empty();
  }

  private static String by(String who) {
    return who.isBlank() ? "" : " (" + who + ")";
  }

  private static String action(Action action) {
    if (action instanceof Action.Split split) {
      return "split, the " + Phrases.side(split.letGo()) + " side let go";
    }
    if (action instanceof Action.Lift) {
      return "interposer lifted";
    }
    if (action instanceof Action.Wick wick) {
      return "old solder wicked off the " + Phrases.side(wick.side()) + " side";
    }
    if (action instanceof Action.Wash) {
      return "washed and dried";
    }
    if (action instanceof Action.Reball reball) {
      String where = "the " + Phrases.side(reball.side()) + " side";
      return reball.positions().isEmpty()
          ? where + " re-balled"
          : "soldered anew on " + where + ": " + Phrases.ids(reball.positions(), NAMED);
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return Phrases.side(rebuilt.side()) + " pad rebuilt at " + rebuilt.position();
    }
    if (action instanceof Action.Jumper jumper) {
      return "wire laid from the "
          + Phrases.side(jumper.side())
          + " pad "
          + jumper.position()
          + " to "
          + jumper.to();
    }
    if (action instanceof Action.PartReplaced replaced) {
      return replaced.part() + " replaced, " + Phrases.side(replaced.side()) + " board";
    }
    return "probes cleaned";
  }

  private static String look(Seen.Look look) {
    return switch (look) {
      case DRY -> "dry";
      case TORN -> "torn";
      case SMEARED -> "smeared";
      case BALL_MISSING -> "ball missing";
      case BALL_LOW -> "ball low";
      case FINE -> "fine";
    };
  }

  private static String works(WorksClamped works) {
    return switch (works) {
      case YES -> "works while pressed together";
      case NO -> "does not work while pressed together";
      case SOMETIMES -> "works sometimes while pressed together";
      case NOT_TRIED -> "not tried pressed together";
    };
  }

  private static String purpose(Purpose purpose) {
    return switch (purpose) {
      case DIAGNOSIS -> "";
      case REBALL -> " to check the re-ball";
      case CLOSING -> " to check the closing";
    };
  }

  private static String faults(Findings findings) {
    List<String> parts = new ArrayList<>();
    for (Grade grade : Grade.values()) {
      List<String> ids = findings.graded(grade).stream().map(Finding::position).toList();
      if (grade.isFault() && !ids.isEmpty()) {
        parts.add(grade.words() + " at " + Phrases.ids(ids, NAMED));
      }
    }
    if (!findings.boards().isEmpty()) {
      parts.add(Phrases.count(findings.boards().size(), "net reads", "nets read") + " otherwise");
    }
    return parts.isEmpty() ? "no fault" : String.join("; ", parts);
  }
}

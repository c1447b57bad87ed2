package org.jointwalk.cli;

import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Side;

/** Facts of a job in bench words. Stateless. */
final class Sentences {

  private Sentences() {}

  /** A number of things: {@code 1 fault}, {@code 2 faults}. */
  static String count(int number, String what) {
    return number + " " + what + (number == 1 ? "" : "s");
  }

  static String of(Intake intake) {
    StringBuilder text = new StringBuilder(intake.device());
    if (!intake.serial().isEmpty()) {
      text.append(", serial ").append(intake.serial());
    }
    if (!intake.happened().isEmpty()) {
      text.append(", ").append(intake.happened());
    }
    if (!intake.fails().isEmpty()) {
      text.append(", fails: ").append(String.join(", ", intake.fails()));
    }
    if (!intake.note().isEmpty()) {
      text.append(" (").append(intake.note()).append(')');
    }
    return text.toString();
  }

  static String of(Attachment attachment) {
    return switch (attachment) {
      case BOTH -> "the stack is joined";
      case LOWER -> "the interposer is on the lower board";
      case UPPER -> "the interposer is on the upper board";
      case NONE -> "the interposer is on neither board";
    };
  }

  static String of(WorksClamped works) {
    return Choice.word(works).replace('-', ' ');
  }

  static String of(Purpose purpose) {
    return switch (purpose) {
      case DIAGNOSIS -> "diagnosis";
      case REBALL -> "re-ball check";
      case CLOSING -> "closing check";
    };
  }

  static String of(Seen seen) {
    return pad(seen.side(), seen.position()) + " " + Choice.word(seen.look()).replace('-', ' ');
  }

  static String of(Action action) {
    if (action instanceof Action.Split split) {
      return "split, the " + Choice.word(split.letGo()) + " side let go";
    }
    if (action instanceof Action.Lift) {
      return "interposer lifted";
    }
    if (action instanceof Action.Wick wick) {
      return Choice.word(wick.side()) + " side wicked";
    }
    if (action instanceof Action.Wash) {
      return "washed and dried";
    }
    if (action instanceof Action.Reball reball) {
      List<String> positions = reball.positions();
      return Choice.word(reball.side())
          + " side re-balled"
          + (positions.isEmpty() ? "" : " at " + String.join(", ", positions));
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return pad(rebuilt.side(), rebuilt.position()) + " rebuilt";
    }
    if (action instanceof Action.Jumper jumper) {
      return "jumper from " + pad(jumper.side(), jumper.position()) + " to " + jumper.to();
    }
    if (action instanceof Action.PartReplaced replaced) {
      return replaced.part() + " of the " + Choice.word(replaced.side()) + " board replaced";
    }
    if (action instanceof Action.ProbesCleaned) {
      return "probes cleaned";
    }
    throw new IllegalArgumentException("no words for " + action);
  }

  /** An entry of the record in one line. */
  static String of(Event event) {
    if (event instanceof Event.Opened opened) {
      return "came in: " + of(opened.intake());
    }
    if (event instanceof Event.Done done) {
      return "done: " + of(done.action());
    }
    if (event instanceof Event.Looked looked) {
      return "seen: " + of(looked.seen());
    }
    if (event instanceof Event.Clamped clamped) {
      return "works when clamped: " + of(clamped.works());
    }
    if (event instanceof Event.Noted noted) {
      return "noted: " + noted.text();
    }
    if (event instanceof Event.PassBegun begun) {
      return "pass " + begun.pass() + " begun: " + begun.setUp() + ", " + of(begun.purpose());
    }
    if (event instanceof Event.Seated seated) {
      return "pass " + seated.pass() + ": clamped, seating " + seated.seating().number();
    }
    if (event instanceof Event.ScanPlanned planned) {
      return "pass "
          + planned.pass()
          + ": scan "
          + planned.scan()
          + ", "
          + planned.plan().steps().size()
          + " steps planned";
    }
    if (event instanceof Event.BatchKept kept) {
      return "pass "
          + kept.pass()
          + ": scan "
          + kept.scan()
          + ", "
          + kept.batch().readings().size()
          + " readings kept";
    }
    if (event instanceof Event.PassGraded graded) {
      return "pass " + graded.pass() + " graded: " + of(graded.findings());
    }
    if (event instanceof Event.ZeroUsed used) {
      return "pass " + used.pass() + ": with the zero of " + used.zero().at();
    }
    if (event instanceof Event.Judged judged) {
      return "finding: " + judged.verdict().headline();
    }
    if (event instanceof Event.Closed) {
      return "closed";
    }
    if (event instanceof WatchEvent watch) {
      return WatchText.sentence(watch);
    }
    throw new IllegalArgumentException("no words for " + event);
  }

  /** How many positions have which grade, and what else was found. */
  static String of(Findings findings) {
    StringBuilder text = new StringBuilder();
    findings
        .counts()
        .forEach(
            (grade, count) -> {
              if (count > 0) {
                text.append(text.length() == 0 ? "" : ", ")
                    .append(count)
                    .append(' ')
                    .append(grade.words());
              }
            });
    if (!findings.bridges().isEmpty()) {
      text.append(", bridges: ").append(findings.bridges().size());
    }
    if (!findings.boards().isEmpty()) {
      text.append(", board nets unlike a good board's: ").append(findings.boards().size());
    }
    return text.toString();
  }

  /** Who entered an event; empty when the program made it or nobody said. */
  static String by(Event event) {
    if (event instanceof Event.Opened e) {
      return e.by();
    }
    if (event instanceof Event.Done e) {
      return e.by();
    }
    if (event instanceof Event.Looked e) {
      return e.by();
    }
    if (event instanceof Event.Clamped e) {
      return e.by();
    }
    if (event instanceof Event.Noted e) {
      return e.by();
    }
    if (event instanceof Event.PassBegun e) {
      return e.by();
    }
    if (event instanceof WatchEvent.Begun e) {
      return e.by();
    }
    return event instanceof Event.Closed e ? e.by() : "";
  }

  private static String pad(Side side, String position) {
    return Choice.word(side) + " pad " + position;
  }
}

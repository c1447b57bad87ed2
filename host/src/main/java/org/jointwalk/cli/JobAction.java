package org.jointwalk.cli;

import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.SetUp;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** The command {@code job action}: what its parts share. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk job action --job J-0001 split --let-go upper",
      "  jointwalk job action --job J-0001 lift --by AB"
    })
final class JobAction {

  private final JobCommand parent;

  @Option(
      names = "--job",
      paramLabel = "ID",
      scope = ScopeType.INHERIT,
      description = "Which job: J-0001, or 1 for short.")
  private String id = "";

  @Option(
      names = "--by",
      paramLabel = "INITIALS",
      scope = ScopeType.INHERIT,
      description = "Who did it.")
  private String by = "";

  private JobAction(JobCommand parent) {
    this.parent = parent;
  }

  /** The command with one part for each action. */
  static CommandLine line(JobCommand parent, List<String> arguments) {
    JobAction action = new JobAction(parent);
    return Actions.all(new CommandLine(action), action, arguments);
  }

  /** Keeps an action, unless it cannot have been done. */
  int keep(Action action, CommandSpec command) throws InputException {
    if (id.isBlank()) {
      throw new InputException("Which job? Give --job J-0001.");
    }
    try (Jobs jobs = parent.jobs()) {
      Job job = jobs.findOpen(id);
      Optional<String> missing = Possible.missing(action, job.attachment());
      if (missing.isPresent()) {
        throw new InputException(job.id() + ": " + missing.get() + " Nothing was kept.");
      }
      jobs.requirePads(job, pads(action));
      jobs.add(job, new Event.Done(action, by.strip()));
      tell(job, action, parent.console(command));
    }
    return ExitCode.GOOD.number();
  }

  /** The pads that an action names. */
  private static List<String> pads(Action action) {
    if (action instanceof Action.Reball reball) {
      return reball.positions();
    }
    if (action instanceof Action.PadRebuilt rebuilt) {
      return List.of(rebuilt.position());
    }
    return action instanceof Action.Jumper jumper ? List.of(jumper.position()) : List.of();
  }

  private static void tell(Job job, Action action, Console console) {
    Attachment now = action.after(job.attachment());
    console.cautions(Cautions.of(action.getClass()));
    console.title(job.id() + "  done: " + Sentences.of(action));
    if (now != job.attachment()) {
      console.line("Now: " + Sentences.of(now));
      console.line("Can be clamped now: " + possible(now));
    }
    Cautions.evidence(action).ifPresent(console::line);
  }

  private static String possible(Attachment now) {
    return SetUp.all().stream()
        .filter(setUp -> setUp.possible().contains(now))
        // What is possible at any time has nothing to do with the device.
        .filter(setUp -> setUp.possible().size() < Attachment.values().length)
        .map(SetUp::name)
        .collect(Collectors.joining(", "));
  }
}

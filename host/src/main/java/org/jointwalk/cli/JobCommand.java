package org.jointwalk.cli;

import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;

/** The command {@code job}: what its parts share. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk job open --device \"Saltmarsh S2\" --happened dropped --fails radio",
      "  jointwalk job show --job J-0001"
    })
final class JobCommand {

  private final Main main;

  @Mixin private LogOption log = new LogOption();

  private JobCommand(Main main) {
    this.main = main;
  }

  /** The command with all its parts; one entry each. */
  static CommandLine line(Main main, List<String> arguments) {
    JobCommand job = new JobCommand(main);
    return new Menu(new CommandLine(job), arguments)
        .add(
            "open",
            "Opens a job for a device that came in, and gives it a number.",
            () -> new JobOpen(job))
        .add("list", "Lists the jobs, the latest last.", () -> new JobList(job))
        .add(
            "show",
            "Shows what is known of a job and all that was entered, in order.",
            () -> new JobShow(job))
        .addLine(
            "action",
            "Keeps what was done to the device or the fixture. What cannot have been done yet is"
                + " refused, with what is missing.",
            () -> JobAction.line(job, arguments))
        .add(
            "seen",
            "Keeps what the eye found at a pad; it is evidence for the finding.",
            () -> new JobSeen(job))
        .add(
            "clamped",
            "Keeps whether what failed comes back while the halves are clamped together: what comes"
                + " back points to the joints, what does not to a board.",
            () -> new JobClamped(job))
        .add(
            "report",
            "Makes a page of a job to keep or to print, or half a page for the device's owner.",
            () -> new JobReportCommand(job))
        .add(
            "replay",
            "Grades every pass again from its readings and shows what differs.",
            () -> new JobReplay(job))
        .add("note", "Keeps a remark with a job, also with a closed one.", () -> new JobNote(job))
        .add(
            "close",
            "Closes a job when the device goes out. The record stays.",
            () -> new JobClose(job))
        .line();
  }

  Surroundings surroundings() {
    return main.surroundings();
  }

  Jobs jobs() throws InputException {
    return log.jobs(main.surroundings());
  }

  Console console(CommandSpec command) {
    return main.console(command);
  }
}

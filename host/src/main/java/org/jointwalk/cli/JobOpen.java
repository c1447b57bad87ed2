package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code job open}. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk job open --device \"Saltmarsh S2\" --happened dropped --fails radio"
    })
final class JobOpen implements Callable<Integer> {

  private final JobCommand job;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private ByWhom by = new ByWhom();

  @Option(
      names = "--device",
      paramLabel = "MODEL",
      required = true,
      description = "The model, as its pad map writes it.")
  private String device = "";

  @Option(names = "--serial", paramLabel = "NUMBER", description = "The device's serial number.")
  private String serial = "";

  @Option(
      names = "--happened",
      paramLabel = "WORDS",
      description = "What happened to it: dropped, bent, wet, or in your words.")
  private String happened = "";

  @Option(
      names = "--fails",
      paramLabel = "FUNCTION",
      split = ",",
      description = "What does not work, as the pad map names it: radio, touch, charge.")
  private List<String> fails = new ArrayList<>();

  @Option(names = "--note", paramLabel = "TEXT", description = "Anything else worth keeping.")
  private String note = "";

  JobOpen(JobCommand job) {
    this.job = job;
  }

  @Override
  public Integer call() throws InputException {
    if (device.isBlank()) {
      throw new InputException("--device needs the model of the device, as its pad map writes it.");
    }
    List<String> functions =
        fails.stream()
            .map(function -> function.strip().toLowerCase(Locale.ROOT))
            .filter(function -> !function.isEmpty())
            .distinct()
            .toList();
    Intake intake =
        new Intake(device.strip(), serial.strip(), happened.strip(), functions, note.strip());
    try (Jobs jobs = job.jobs()) {
      String id = jobs.open(new Event.Opened(intake, by.initials()));
      Console console = job.console(spec);
      console.title(id + "  opened: " + Sentences.of(intake));
      console.line("Kept in " + jobs.file());
      console.next(
          "splitting destroys evidence, so measure the joined stack first: jointwalk pass --job "
              + id
              + " --set-up joined");
    }
    return ExitCode.GOOD.number();
  }
}

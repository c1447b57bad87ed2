package org.jointwalk.campaign;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/**
 * The command {@code tests/campaign}: runs one campaign and prints its figures, one JSON object a
 * line, on standard output. What lies behind them goes to standard error. Not safe for use by
 * several threads.
 */
@Command(
    name = "tests/campaign",
    description = "Puts one question to many simulated stacks and prints figures with their bars.",
    mixinStandardHelpOptions = true,
    footer = {"", "Example:", "  tests/campaign faults --seed 7 --scale quick"})
public final class Campaign implements Callable<Integer> {

  private static final List<Experiment> EXPERIMENTS =
      List.of(
          new Faults(),
          new Kill(),
          new Line(),
          new Measure(),
          new Paced(),
          new SelfcheckExperiment(),
          new Touch());

  private static final int BAR_MISSED = 10;
  private static final int DEFECT = 70;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Parameters(index = "0", paramLabel = "NAME", description = "which campaign; see below")
  private String name = "";

  @Option(
      names = "--seed",
      paramLabel = "N",
      description = "of everything that is drawn: any whole number of 64 bits (default 1)")
  private long seed = 1;

  @Option(
      names = "--scale",
      paramLabel = "quick|full",
      description = "quick: within a minute; full: within a quarter of an hour (default quick)")
  private String scale = Scale.QUICK.word();

  private Campaign() {}

  /** Runs one campaign and ends the JVM: 0 all bars hold, 10 one does not, 2 wrong arguments. */
  public static void main(String[] args) {
    System.exit(
        run(
            new FileOutputStream(FileDescriptor.out),
            new FileOutputStream(FileDescriptor.err),
            args));
  }

  static int run(OutputStream out, OutputStream err, String... args) {
    PrintWriter outWriter = utf8(out);
    PrintWriter errWriter = utf8(err);
    CommandLine command = new CommandLine(new Campaign());
    command
        .getCommandSpec()
        .usageMessage()
        .footer(
            EXPERIMENTS.stream()
                .map(e -> String.format(Locale.ROOT, "  %-10s %s", e.name(), e.about()))
                .collect(Collectors.joining("%n", "%nCampaigns:%n", "")),
            "",
            "Example:",
            "  tests/campaign faults --seed 7 --scale quick",
            "",
            "Ends with 0 when every bar holds, 10 when one does not, 2 for wrong arguments.");
    int code =
        command
            .setOut(outWriter)
            .setErr(errWriter)
            .setExecutionExceptionHandler(Campaign::defect)
            .execute(args);
    outWriter.flush();
    errWriter.flush();
    return code;
  }

  @Override
  public Integer call() {
    Experiment experiment =
        EXPERIMENTS.stream()
            .filter(e -> e.name().equals(name))
            .findFirst()
            .orElseThrow(() -> wrong("no campaign " + name + "; there are: " + names()));
    Scale size =
        List.of(Scale.QUICK, Scale.FULL).stream()
            .filter(s -> s.word().equals(scale))
            .findFirst()
            .orElseThrow(() -> wrong("--scale is quick or full, not " + scale));
    Result result = experiment.run(seed, size);
    PrintWriter err = spec.commandLine().getErr();
    result.notes().forEach(err::println);
    PrintWriter out = spec.commandLine().getOut();
    result.figures().forEach(figure -> out.println(figure.json()));
    return result.holds() ? 0 : BAR_MISSED;
  }

  private CommandLine.ParameterException wrong(String message) {
    return new CommandLine.ParameterException(spec.commandLine(), message);
  }

  private static String names() {
    return EXPERIMENTS.stream().map(Experiment::name).collect(Collectors.joining(", "));
  }

  private static int defect(
      Exception problem, CommandLine command, CommandLine.ParseResult parsed) {
    problem.printStackTrace(command.getErr());
    return DEFECT;
  }

  private static PrintWriter utf8(OutputStream stream) {
    return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
  }
}

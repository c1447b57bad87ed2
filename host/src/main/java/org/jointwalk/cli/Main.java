package org.jointwalk.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.report.Look;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;
import picocli.CommandLine.Spec;

/**
 * The program {@code jointwalk}. Text leaves it in UTF-8 whatever the locale says.
 *
 * <p>Not safe for use by several threads.
 */
@Command(
    name = "jointwalk",
    description =
        "Finds where a stacked board is broken, says how sure it is, and keeps the record.",
    versionProvider = Version.class,
    exitCodeListHeading = "%nExit codes:%n",
    footer = {
      "",
      "Example:",
      "  jointwalk demo",
      "  jointwalk job open --device \"Saltmarsh S2\" --fails radio"
    })
public final class Main implements Runnable {

  private final Surroundings surroundings;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(
      names = "--plain",
      scope = ScopeType.INHERIT,
      description = "No colours, as when NO_COLOR is set.")
  private boolean plain;

  private Main(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  /** Runs one command and ends the JVM with its exit code. */
  public static void main(String[] args) {
    LibraryLogging.install();
    Interruption interruption = Interruption.ofThisProgram();
    interruption.exit(
        run(
            Surroundings.ofThisComputer(interruption::watch),
            new FileOutputStream(FileDescriptor.out),
            new FileOutputStream(FileDescriptor.err),
            args));
  }

  /** Runs one command; the exit code comes back. */
  static int run(Surroundings surroundings, OutputStream out, OutputStream err, String... args) {
    return run(surroundings, utf8(out), utf8(err), args);
  }

  private static int run(
      Surroundings surroundings, PrintWriter outWriter, PrintWriter errWriter, String... args) {
    Trouble trouble = new Trouble(new ProgramLog(surroundings), args);
    try {
      return new Main(surroundings)
          .commands(List.of(args))
          .setOut(outWriter)
          .setErr(errWriter)
          .setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF))
          .setExecutionExceptionHandler(trouble)
          .setParameterExceptionHandler(trouble)
          .execute(args);
    } catch (Error | RuntimeException e) {
      // What is thrown past the commands would end the JVM with a stack trace and the number 1.
      return trouble.defect(e, errWriter).number();
    } finally {
      outWriter.flush();
      errWriter.flush();
    }
  }

  /** All commands; one entry each. */
  private CommandLine commands(List<String> arguments) {
    CommandLine line = new CommandLine(this);
    line.getCommandSpec()
        .addOption(
            OptionSpec.builder("-h", "--help")
                .usageHelp(true)
                .scopeType(ScopeType.INHERIT)
                .description("Shows this help.")
                .build())
        .addOption(
            OptionSpec.builder("-V", "--version")
                .versionHelp(true)
                .description("Shows the version.")
                .build())
        .usageMessage()
        .exitCodeList(ExitCode.list());
    return new Menu(line, arguments)
        .add(
            "demo",
            "A dropped handset on the virtual fixture, from intake to closing. Nothing to set up.",
            () -> new DemoCommand(this))
        .add(
            "pass",
            "Runs one set-up through the fixture and says what it shows.",
            () -> new PassCommand(this))
        .add(
            "verdict",
            "Says what explains the complaint, what is wrong now, and what to do next.",
            () -> new VerdictCommand(this))
        .add(
            "watch",
            "Loops over suspects while you press the board: which joint drops out first.",
            () -> new WatchCommand(this))
        .addLine(
            "job",
            "Opens jobs, keeps what was done and seen, and shows the record.",
            () -> JobCommand.line(this, arguments))
        .addLine(
            "map",
            "Checks the files that describe a model and a fixture; to and from a spreadsheet.",
            () -> MapCommand.line(this, arguments))
        .addLine(
            "fixture",
            "Finds fixtures, looks after them, and offers a virtual one at the end of a line.",
            () -> FixtureCommand.line(this, arguments))
        .line();
  }

  /** Runs another command in the same surroundings, as the demo does; its exit code comes back. */
  int another(PrintWriter out, PrintWriter err, List<String> args) {
    List<String> all = new ArrayList<>(args);
    if (plain) {
      all.add("--plain");
    }
    return run(surroundings, out, err, all.toArray(String[]::new));
  }

  Surroundings surroundings() {
    return surroundings;
  }

  /** Where a command writes its lines. */
  Console console(CommandSpec command) {
    return new Console(command.commandLine().getOut(), surroundings.coloured() && !plain);
  }

  /** How longer texts look where they are read. */
  Look look() {
    return Look.ofConsole(surroundings.terminal(), !surroundings.coloured(), plain);
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  private static PrintWriter utf8(OutputStream stream) {
    return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
  }
}

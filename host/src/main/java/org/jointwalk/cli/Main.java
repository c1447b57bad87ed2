package org.jointwalk.cli;

import java.io.FileDescriptor;
import java.io.FileOutputStream;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
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
    mixinStandardHelpOptions = true,
    versionProvider = Version.class,
    footer = {"", "Example:", "  jointwalk --version"})
public final class Main implements Runnable {

  @Spec private CommandSpec spec = CommandSpec.create();

  private Main() {}

  /** Runs one command and ends the JVM with its exit code. */
  public static void main(String[] args) {
    System.exit(
        run(
            new FileOutputStream(FileDescriptor.out),
            new FileOutputStream(FileDescriptor.err),
            args));
  }

  /** Runs one command; the exit code comes back, and nothing but the two streams is written. */
  static int run(OutputStream out, OutputStream err, String... args) {
    PrintWriter outWriter = utf8(out);
    PrintWriter errWriter = utf8(err);
    int code =
        new CommandLine(new Main())
            .setOut(outWriter)
            .setErr(errWriter)
            .setExecutionExceptionHandler(Main::defect)
            .execute(args);
    outWriter.flush();
    errWriter.flush();
    return code;
  }

  @Override
  public void run() {
    spec.commandLine().usage(spec.commandLine().getOut());
  }

  private static int defect(
      Exception problem, CommandLine command, CommandLine.ParseResult parsed) {
    problem.printStackTrace(command.getErr());
    return ExitCode.DEFECT.number();
  }

  private static PrintWriter utf8(OutputStream stream) {
    return new PrintWriter(new OutputStreamWriter(stream, StandardCharsets.UTF_8), true);
  }
}

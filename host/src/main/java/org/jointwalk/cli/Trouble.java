package org.jointwalk.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.JobLogException;
import org.jointwalk.pass.PassException;
import org.jointwalk.upkeep.StoppedException;
import picocli.CommandLine;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.IParameterExceptionHandler;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/**
 * The one place where a failure becomes a message and an exit code. No stack trace reaches the
 * terminal; the details of a defect go to the program's log file.
 */
final class Trouble implements IExecutionExceptionHandler, IParameterExceptionHandler {

  private final ProgramLog log;
  private final List<String> arguments;

  Trouble(ProgramLog log, String... arguments) {
    this.log = log;
    this.arguments = List.of(arguments);
  }

  @Override
  public int handleExecutionException(Exception problem, CommandLine command, ParseResult parsed) {
    PrintWriter err = command.getErr();
    Optional<ExitCode> told = code(problem);
    if (told.isPresent()) {
      err.println(
          problem instanceof FileFaults faults ? FaultText.of(faults) : problem.getMessage());
      return told.get().number();
    }
    return defect(problem, err).number();
  }

  /** The exit code of a failure that its message explains; empty for a defect. */
  private static Optional<ExitCode> code(Exception problem) {
    if (problem instanceof InputException || problem instanceof FileFaults) {
      return Optional.of(ExitCode.INPUT);
    }
    if (problem instanceof PassException.Impossible) {
      return Optional.of(ExitCode.INPUT);
    }
    if (problem instanceof PassException.Unsafe) {
      return Optional.of(ExitCode.SAFETY);
    }
    if (problem instanceof PassException.Interrupted || problem instanceof StoppedException) {
      return Optional.of(ExitCode.INTERRUPTED);
    }
    if (problem instanceof JobLogException) {
      return Optional.of(ExitCode.JOB_LOG);
    }
    if (problem instanceof FixtureException.LidOpened) {
      return Optional.of(ExitCode.INTERRUPTED);
    }
    if (problem instanceof FixtureException.Refused) {
      return Optional.of(ExitCode.SAFETY);
    }
    if (problem instanceof FixtureException) {
      return Optional.of(ExitCode.FIXTURE);
    }
    return Optional.empty();
  }

  /** Tells of a failure that nobody expected. */
  ExitCode defect(Throwable problem, PrintWriter err) {
    String called = "jointwalk " + String.join(" ", arguments);
    Optional<Path> details = log.add(called, problem);
    err.println(
        "This is a defect of jointwalk, not of what you did: "
            + problem.getClass().getSimpleName());
    err.println(
        details
            .map(file -> "The details are in " + file + "; please send that file with a report.")
            .orElse("The details could not be kept: " + log.file() + " cannot be written."));
    return ExitCode.DEFECT;
  }

  @Override
  public int handleParseException(ParameterException problem, String[] args) {
    CommandLine command = problem.getCommandLine();
    PrintWriter err = command.getErr();
    err.println(problem.getMessage());
    if (command.getSubcommands().isEmpty()) {
      UnmatchedArgumentException.printSuggestions(problem, err);
    } else {
      err.println("Choose one of: " + String.join(", ", command.getSubcommands().keySet()) + ".");
    }
    err.println("Try '" + command.getCommandSpec().qualifiedName() + " --help'.");
    return ExitCode.INPUT.number();
  }
}

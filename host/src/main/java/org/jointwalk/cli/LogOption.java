package org.jointwalk.cli;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import picocli.CommandLine.ScopeType;

/** The option that says where the job log is; every command that uses one mixes it in. */
final class LogOption {

  /** The variable that is asked when the option is not given. */
  static final String VARIABLE = "JOINTWALK_LOG";

  @Option(
      names = "--log",
      paramLabel = "FILE",
      scope = ScopeType.INHERIT,
      description = {
        "The job log. Without it, what JOINTWALK_LOG names; without that, .jointwalk/jobs.db in your"
            + " home folder. It is made when something is written for the first time."
      })
  private @Nullable Path file;

  /**
   * The file that is meant.
   *
   * @throws InputException when the variable names none
   */
  Path file(Surroundings surroundings) throws InputException {
    if (file != null) {
      return file;
    }
    String named = surroundings.variable(VARIABLE);
    try {
      return named.isBlank() ? surroundings.folder().resolve("jobs.db") : Path.of(named.strip());
    } catch (InvalidPathException e) {
      throw new InputException(
          VARIABLE + " is \"" + named + "\", which is no name of a file: " + e.getReason() + ".");
    }
  }

  /** The jobs in that file; nothing is opened before it is needed. */
  Jobs jobs(Surroundings surroundings) throws InputException {
    Path place = file(surroundings);
    return new Jobs(surroundings.logs().apply(place), place);
  }
}

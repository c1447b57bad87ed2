package org.jointwalk.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jointwalk.job.JobLog;
import org.jointwalk.joblog.SqliteJobLog;

/**
 * What a command meets outside of its arguments, so that tests can bring their own.
 *
 * @param environment variables by name
 * @param home folder of the user
 * @param clock the time
 * @param zone of the bench
 * @param terminal whether a person reads what is written
 * @param enter waits until the Enter key was pressed, or nobody can press it
 * @param line waits for the next line that somebody types; empty when nobody will type any more
 * @param logs opens the job log in a file; nothing is read before it is asked for
 * @param stops takes what ends a pass when the program is asked to end; empty when it is over
 */
record Surroundings(
    Map<String, String> environment,
    Path home,
    InstantSource clock,
    ZoneId zone,
    boolean terminal,
    Runnable enter,
    Supplier<Optional<String>> line,
    Function<Path, JobLog> logs,
    Consumer<Optional<Runnable>> stops) {

  Surroundings {
    environment = Map.copyOf(environment);
  }

  static Surroundings ofThisComputer(Consumer<Optional<Runnable>> stops) {
    InstantSource clock = InstantSource.system();
    ZoneId zone = ZoneId.systemDefault();
    return new Surroundings(
        System.getenv(),
        Path.of(System.getProperty("user.home", "")),
        clock,
        zone,
        isTerminal(),
        Surroundings::awaitEnter,
        Surroundings::awaitLine,
        file -> new SqliteJobLog(file, clock, zone),
        stops);
  }

  private static void awaitEnter() {
    try {
      int read = System.in.read();
      while (read >= 0 && read != '\n') {
        read = System.in.read();
      }
    } catch (IOException e) {
      // Nobody can press a key: go on as if somebody had.
      return;
    }
  }

  private static Optional<String> awaitLine() {
    ByteArrayOutputStream line = new ByteArrayOutputStream();
    try {
      int read = System.in.read();
      while (read >= 0 && read != '\n') {
        line.write(read);
        read = System.in.read();
      }
      return read < 0 && line.size() == 0
          ? Optional.empty()
          : Optional.of(line.toString(StandardCharsets.UTF_8).strip());
    } catch (IOException e) {
      // Nobody can type: there is no more to come.
      return Optional.empty();
    }
  }

  @SuppressWarnings("SystemConsoleNull")
  private static boolean isTerminal() {
    // From Java 22 on there is a console without a terminal too, unless one asks for the old one.
    System.setProperty("jdk.console", "java.base");
    return System.console() != null;
  }

  /** Where the program keeps what belongs to the user. */
  Path folder() {
    return home.resolve(".jointwalk");
  }

  /** A variable, empty when it is not set. */
  String variable(String name) {
    return environment.getOrDefault(name, "");
  }

  /** Whether the terminal shows colours and the user has not asked for none. */
  boolean coloured() {
    return terminal && variable("NO_COLOR").isEmpty() && !variable("TERM").equals("dumb");
  }
}

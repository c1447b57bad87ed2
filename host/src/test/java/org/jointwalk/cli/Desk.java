package org.jointwalk.cli;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.jointwalk.job.JobLog;
import org.jointwalk.joblog.MemoryJobLog;

/**
 * A technician's desk for tests: runs commands one after the other, with a clock that stands still
 * and a log in memory that outlives the commands.
 */
final class Desk {

  static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");
  static final ZoneId ZONE = ZoneId.of("Europe/Berlin");

  private final Path home;
  private final Map<String, String> environment = new HashMap<>();
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();
  private final JobLog memory = new MemoryJobLog(InstantSource.fixed(NOON), ZONE);
  private Function<Path, JobLog> logs = file -> memory;
  private boolean terminal;

  /**
   * @param home folder of the user
   */
  Desk(Path home) {
    this.home = home;
  }

  /** The log in memory. */
  JobLog log() {
    return memory;
  }

  Desk with(String variable, String value) {
    environment.put(variable, value);
    return this;
  }

  Desk withLogs(Function<Path, JobLog> other) {
    logs = other;
    return this;
  }

  Desk onATerminal() {
    terminal = true;
    return this;
  }

  /** Runs a command; what it writes replaces what the last one wrote. */
  int run(String... arguments) {
    out.reset();
    err.reset();
    return Main.run(
        new Surroundings(environment, home, InstantSource.fixed(NOON), ZONE, terminal, logs),
        out,
        err,
        arguments);
  }

  /** All that the last command wrote for the technician. */
  String out() {
    return out.toString(StandardCharsets.UTF_8);
  }

  /** The same in lines. */
  List<String> lines() {
    return out().lines().toList();
  }

  /** All that the last command complained of. */
  String err() {
    return err.toString(StandardCharsets.UTF_8);
  }
}

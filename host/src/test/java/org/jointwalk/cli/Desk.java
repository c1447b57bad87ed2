package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Logged;
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
  private InstantSource clock = InstantSource.fixed(NOON);
  private Runnable enter = () -> {};
  private Supplier<Optional<String>> line = Optional::empty;
  private Consumer<Optional<Runnable>> stops = stop -> {};
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

  Desk withClock(InstantSource other) {
    clock = other;
    return this;
  }

  /** Somebody at the terminal who does this whenever the Enter key is waited for. */
  Desk onATerminal(Runnable pressing) {
    enter = pressing;
    return onATerminal();
  }

  /** Somebody at the terminal who types these lines. */
  Desk typing(Supplier<Optional<String>> lines) {
    line = lines;
    return onATerminal();
  }

  /** Takes what ends a pass. */
  Desk withStops(Consumer<Optional<Runnable>> taker) {
    stops = taker;
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
        new Surroundings(environment, home, clock, ZONE, terminal, enter, line, logs, stops),
        out,
        err,
        arguments);
  }

  /** Runs a command that has to succeed; words are parted at blanks. */
  void done(String command) {
    assertThat(run(command.split(" "))).as(command + ": " + err()).isZero();
    assertThat(err()).isEmpty();
  }

  /** Runs a command that has to be refused as the user's input, without a trace in the log. */
  void refused(String command, String... words) {
    List<Logged> before = memory.read("J-0001");
    assertThat(run(command.split(" "))).as(command).isEqualTo(ExitCode.INPUT.number());
    assertThat(out()).isEmpty();
    assertThat(err()).contains(words);
    assertThat(memory.read("J-0001")).isEqualTo(before);
  }

  /** What happened to the first job. */
  List<Event> events() {
    return memory.read("J-0001").stream().map(Logged::event).toList();
  }

  /** The last thing that happened to the first job. */
  Event last() {
    List<Event> events = events();
    return events.get(events.size() - 1);
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

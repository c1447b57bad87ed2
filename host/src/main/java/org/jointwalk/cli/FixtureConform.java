package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.security.SecureRandom;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.function.Consumer;
import org.jointwalk.conform.Conformance;
import org.jointwalk.conform.Outcome;
import org.jointwalk.conform.Wire;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.link.ByteLink;
import org.jointwalk.link.LinkException;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ticks;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture conform}. */
@Command(
    footer = {
      "",
      "Nothing may be clamped: the kit asks for what a fixture must refuse, and one that is broken may"
          + " not. A clause that fails makes the exit code 3. What bytes cannot show is called not"
          + " testable; it has to be measured at the channels.",
      "",
      "Example:",
      "  jointwalk fixture conform --port tcp:localhost:7070 --json"
    })
final class FixtureConform implements Callable<Integer> {

  private static final String FORMAT = "jointwalk conformance 1";

  private final FixtureCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private BaudOption baud = new BaudOption();

  @Option(
      names = "--port",
      paramLabel = "PORT",
      required = true,
      description = "Where the fixture is: a serial port such as /dev/ttyACM0, or tcp:HOST:NUMBER.")
  private String port = "";

  @Option(
      names = "--lid",
      description = "Asks for the lid to be opened and closed once, to see what is told of it.")
  private boolean lid;

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  FixtureConform(FixtureCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FixtureException {
    LinkSettings settings = baud.settings();
    Port where = PortOptions.named(port, settings);
    // With --json, what is for people goes where it spoils no document.
    Consumer<String> people =
        json ? spec.commandLine().getErr()::println : spec.commandLine().getOut()::println;
    people.accept("Nothing may be clamped in the fixture at " + port + " until this is over,");
    people.accept("and nobody may touch its contacts. It takes about half a minute.");
    spec.commandLine().getErr().flush();
    spec.commandLine().getOut().flush();
    List<Outcome> outcomes = look(where, people);
    Console console = parent.console(spec);
    if (json) {
      JsonText.write(console.writer(), generator -> write(generator, outcomes));
    } else {
      tell(console, outcomes);
    }
    return (count(outcomes, Outcome.Result.FAILED) == 0 ? ExitCode.GOOD : ExitCode.FIXTURE)
        .number();
  }

  private List<Outcome> look(Port where, Consumer<String> people) throws FixtureException {
    try (ByteLink line = where.open();
        Second second = new Second(where)) {
      return new Conformance(
              new Line(line),
              second.line(),
              lid ? Optional.of(people) : Optional.empty(),
              new SecureRandom())
          .look();
    } catch (LinkException e) {
      throw new FixtureException.Unreachable(e.told());
    } catch (IOException e) {
      throw new FixtureException.Unreachable(String.valueOf(e.getMessage()));
    }
  }

  /** Another line to the same fixture, which only a network has. */
  private static final class Second implements AutoCloseable {

    private final Optional<ByteLink> line;

    private Second(Port where) throws LinkException {
      line = where.name().startsWith("tcp:") ? Optional.of(where.open()) : Optional.empty();
    }

    private Optional<Wire> line() {
      return line.map(Line::new);
    }

    @Override
    public void close() {
      line.ifPresent(ByteLink::close);
    }
  }

  /** A line in the words of the kit. */
  private static final class Line implements Wire {

    private final ByteLink link;
    private final Ticks ticks = Ticks.ofThisComputer();

    private Line(ByteLink link) {
      this.link = link;
    }

    @Override
    public byte[] read(Duration most) throws IOException {
      try {
        return link.read(most);
      } catch (LinkException e) {
        throw new IOException(e.told(), e);
      }
    }

    @Override
    public void write(byte[] bytes) throws IOException {
      try {
        link.write(bytes);
      } catch (LinkException e) {
        throw new IOException(e.told(), e);
      }
    }

    @Override
    public void pass(Duration most) {
      ticks.pass(most);
    }

    @Override
    public long nanos() {
      return ticks.nanos();
    }
  }

  private static long count(List<Outcome> outcomes, Outcome.Result result) {
    return outcomes.stream().filter(outcome -> outcome.result() == result).count();
  }

  private static String word(Outcome.Result result) {
    return switch (result) {
      case PASSED -> "passed";
      case FAILED -> "FAILED";
      case NOT_TESTABLE -> "not testable";
    };
  }

  private static void tell(Console console, List<Outcome> outcomes) {
    Columns table = new Columns();
    for (Outcome outcome : outcomes) {
      table.row(outcome.clause(), word(outcome.result()), outcome.title(), outcome.detail());
    }
    table.lines().forEach(console::line);
    console.title(
        count(outcomes, Outcome.Result.PASSED)
            + " passed, "
            + count(outcomes, Outcome.Result.FAILED)
            + " failed, "
            + count(outcomes, Outcome.Result.NOT_TESTABLE)
            + " not testable");
  }

  private static void write(JsonGenerator json, List<Outcome> outcomes) throws IOException {
    json.writeStartObject();
    json.writeStringField("format", FORMAT);
    json.writeNumberField("passed", count(outcomes, Outcome.Result.PASSED));
    json.writeNumberField("failed", count(outcomes, Outcome.Result.FAILED));
    json.writeNumberField("notTestable", count(outcomes, Outcome.Result.NOT_TESTABLE));
    json.writeArrayFieldStart("clauses");
    for (Outcome outcome : outcomes) {
      json.writeStartObject();
      json.writeStringField("clause", outcome.clause());
      json.writeStringField("title", outcome.title());
      json.writeStringField("result", name(outcome.result()));
      json.writeStringField("detail", outcome.detail());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static String name(Outcome.Result result) {
    return switch (result) {
      case PASSED -> "passed";
      case FAILED -> "failed";
      case NOT_TESTABLE -> "notTestable";
    };
  }
}

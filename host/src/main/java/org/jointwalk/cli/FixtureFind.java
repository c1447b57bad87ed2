package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.security.SecureRandom;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.link.Finder;
import org.jointwalk.link.Found;
import org.jointwalk.link.LinkException;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture find}. */
@Command(
    footer = {
      "",
      "A port that is not listed can be named all the same, as can one on the network.",
      "",
      "Example:",
      "  jointwalk fixture find",
      "  jointwalk fixture find --port tcp:localhost:7070"
    })
final class FixtureFind implements Callable<Integer> {

  private final FixtureCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private BaudOption baud = new BaudOption();

  @Option(
      names = "--port",
      paramLabel = "PORT",
      description =
          "Look here and nowhere else: a serial port such as /dev/ttyACM0, or tcp:HOST:NUMBER."
              + " May be given several times.")
  private List<String> ports = new ArrayList<>();

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  FixtureFind(FixtureCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FixtureException {
    LinkSettings settings = baud.settings();
    Finder finder = new Finder(Ticks.ofThisComputer(), new SecureRandom(), settings);
    Console console = parent.console(spec);
    List<Found> found = new ArrayList<>();
    for (Port port : candidates(settings)) {
      found.add(finder.look(port));
      if (!json) {
        tell(console, found.get(found.size() - 1));
      }
    }
    if (json) {
      JsonText.write(console.writer(), generator -> write(generator, found));
    } else if (found.isEmpty()) {
      console.line("This computer lists no serial port.");
      console.next(
          "Plug the fixture in and look again, or name its port: jointwalk fixture find --port"
              + " /dev/ttyACM0.");
    }
    boolean any = found.stream().anyMatch(Found.Ready.class::isInstance);
    return (any ? ExitCode.GOOD : ExitCode.FIXTURE).number();
  }

  private List<Port> candidates(LinkSettings settings) throws InputException, FixtureException {
    List<Port> candidates = new ArrayList<>();
    for (String name : ports.isEmpty() ? listed() : ports) {
      candidates.add(PortOptions.named(name, settings));
    }
    return candidates;
  }

  private static List<String> listed() throws FixtureException {
    try {
      return Ports.listed();
    } catch (LinkException e) {
      throw new FixtureException.Unreachable(e.told());
    }
  }

  private static void tell(Console console, Found found) {
    if (found instanceof Found.Ready ready) {
      Capabilities able = ready.capabilities();
      console.title(ready.port() + "  " + able.identity());
      console.line(
          "  "
              + ready.channels()
              + " channels, "
              + words(ready.lid())
              + ", calibration "
              + able.calibration());
      console.line("  firmware " + able.build() + ", protocol " + ready.version());
    } else {
      Found.Unusable unusable = (Found.Unusable) found;
      console.line(unusable.port() + "  " + words(unusable.why()));
      console.line("  " + unusable.text());
    }
  }

  private static String words(Found.Lid lid) {
    return switch (lid) {
      case CLOSED -> "lid closed";
      case OPEN -> "lid open";
      case NONE -> "no lid";
    };
  }

  private static String words(Found.Why why) {
    return switch (why) {
      case MISSING -> "not there";
      case NO_PERMISSION -> "not yours to open";
      case BUSY -> "busy";
      case SILENT -> "silent";
      case GARBAGE -> "something else";
      case OTHER_VERSION -> "another version";
      case LINE_FAILED -> "line failed";
      case BROKEN -> "broken";
    };
  }

  private static void write(JsonGenerator json, List<Found> all) throws IOException {
    json.writeStartObject();
    json.writeArrayFieldStart("ports");
    for (Found found : all) {
      json.writeStartObject();
      json.writeStringField("port", found.port());
      json.writeBooleanField("usable", found instanceof Found.Ready);
      if (found instanceof Found.Ready ready) {
        json.writeStringField("identity", ready.capabilities().identity());
        json.writeStringField("build", ready.capabilities().build());
        json.writeStringField("calibration", ready.capabilities().calibration());
        json.writeNumberField("protocol", ready.version());
        json.writeNumberField("channels", ready.channels());
        json.writeStringField("lid", ready.lid().name().toLowerCase(Locale.ROOT));
      } else {
        Found.Unusable unusable = (Found.Unusable) found;
        json.writeStringField("why", unusable.why().name().toLowerCase(Locale.ROOT));
        json.writeStringField("text", unusable.text());
      }
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }
}

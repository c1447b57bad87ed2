package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.upkeep.StoppedException;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture check}. */
@Command(
    name = "check",
    description = "Looks the fixture over with nothing in it, and names what is wrong.",
    footer = {
      "",
      "No board may be in the fixture, and nothing may be clamped but the plate when it is asked"
          + " for.",
      "",
      "Example:",
      "  jointwalk fixture check --plate --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
    })
final class FixtureCheck implements Callable<Integer> {

  private final FixtureCommand fixture;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private UpkeepOptions options = new UpkeepOptions();

  @Option(
      names = "--plate",
      description = "The shorting plate is at hand: look for relays that never close too.")
  private boolean plate;

  FixtureCheck(FixtureCommand fixture) {
    this.fixture = fixture;
  }

  @Override
  public Integer call()
      throws InputException, FileFaults, FixtureException, StoppedException, IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Selfcheck check = options.run(fixture.surroundings(), err, upkeep -> upkeep.check(plate));
    if (options.json()) {
      json(out, check);
    } else {
      tell(out, check);
    }
    return (check.passed() ? ExitCode.GOOD : ExitCode.FAULT_FOUND).number();
  }

  private static void tell(PrintWriter out, Selfcheck check) {
    out.println(
        (check.passed() ? "NOTHING FOUND  " : "FAULTY  ")
            + check.identity()
            + ", looked at: "
            + String.join(", ", check.setUps()));
    check.faults().forEach(fault -> out.println("  " + words(fault)));
    for (Selfcheck.Figure figure : check.figures()) {
      out.printf(Locale.ROOT, "  %-42s %.3g %s", figure.name(), figure.value(), figure.unit());
      figure.limit().ifPresent(limit -> out.printf(Locale.ROOT, " (at most %.3g)", limit));
      out.println();
    }
    check.unseen().forEach(unseen -> out.println("NOT SEEN  " + unseen));
    out.println(
        check.passed()
            ? "NEXT  Go on; check again when readings surprise you, and after every repair."
            : "NEXT  Repair what is named, then check again. Passes do without the channels named.");
    out.flush();
  }

  /** A fault by channel, contact and probe. */
  static String words(Selfcheck.Fault fault) {
    return fault.channel().map(c -> "channel " + c + " ").orElse("")
        + fault.contact().map(c -> "(probe " + Names.of(c) + "): ").orElse("")
        + fault.reason();
  }

  private static void json(PrintWriter out, Selfcheck check) {
    JsonText.write(
        out,
        json -> {
          json.writeStartObject();
          json.writeStringField("format", "jointwalk fixture check 1");
          json.writeStringField("identity", check.identity());
          json.writeBooleanField("passed", check.passed());
          json.writeArrayFieldStart("setUps");
          for (String setUp : check.setUps()) {
            json.writeString(setUp);
          }
          json.writeEndArray();
          json.writeArrayFieldStart("faults");
          for (Selfcheck.Fault fault : check.faults()) {
            json.writeStartObject();
            json.writeStringField(
                "what", fault.what().name().toLowerCase(Locale.ROOT).replace('_', '-'));
            if (fault.channel().isPresent()) {
              json.writeNumberField("channel", fault.channel().get());
            }
            if (fault.contact().isPresent()) {
              json.writeStringField("contact", Names.of(fault.contact().get()));
            }
            json.writeStringField("reason", fault.reason());
            json.writeEndObject();
          }
          json.writeEndArray();
          json.writeArrayFieldStart("figures");
          for (Selfcheck.Figure figure : check.figures()) {
            json.writeStartObject();
            json.writeStringField("name", figure.name());
            json.writeNumberField("value", figure.value());
            json.writeStringField("unit", figure.unit());
            if (figure.limit().isPresent()) {
              json.writeNumberField("limit", figure.limit().get());
            }
            json.writeEndObject();
          }
          json.writeEndArray();
          json.writeArrayFieldStart("notSeen");
          for (String unseen : check.unseen()) {
            json.writeString(unseen);
          }
          json.writeEndArray();
          json.writeEndObject();
        });
  }
}

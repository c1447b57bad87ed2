package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.files.FileFaults;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.Zero;
import org.jointwalk.quantity.Contribution;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.upkeep.StoppedException;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture zero}. */
@Command(
    name = "zero",
    description =
        "Measures the fixture's own switches on the shorting plate, in three seatings of it.",
    footer = {
      "",
      "Nothing but the plate may be in the fixture: no board, no battery.",
      "",
      "Example:",
      "  jointwalk fixture zero --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json --celsius 21"
    })
final class FixtureZero implements Callable<Integer> {

  private final FixtureCommand fixture;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private UpkeepOptions options = new UpkeepOptions();

  @Option(
      names = "--celsius",
      paramLabel = "DEGREES",
      description = "Temperature beside the fixture, kept with the zero.")
  private @Nullable Double celsius;

  FixtureZero(FixtureCommand fixture) {
    this.fixture = fixture;
  }

  @Override
  public Integer call()
      throws InputException, FileFaults, FixtureException, StoppedException, IOException {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Surroundings here = fixture.surroundings();
    Zero zero =
        options.run(
            here, err, upkeep -> upkeep.zero(here.clock().instant(), Optional.ofNullable(celsius)));
    if (options.json()) {
      json(out, zero);
    } else {
      tell(out, zero);
    }
    return (zero.consistent() ? ExitCode.GOOD : ExitCode.FAULT_FOUND).number();
  }

  private static Optional<Estimate> typical(Zero zero) {
    return zero.highOhms().keySet().stream()
        .flatMap(
            a ->
                zero.lowOhms().keySet().stream()
                    .filter(b -> !b.equals(a))
                    .limit(1)
                    .flatMap(b -> zero.path(a, b).stream()))
        .findFirst();
  }

  private static void tell(PrintWriter out, Zero zero) {
    out.println(
        zero.consistent() ? "ZEROED  " + zero.identity() : "ZERO IN DOUBT  " + zero.identity());
    out.println(
        zero.highOhms().size()
            + " switches to the high bus, "
            + zero.lowOhms().size()
            + " to the low bus, "
            + zero.seatings()
            + " seatings.");
    typical(zero)
        .ifPresent(
            path -> {
              out.printf(
                  Locale.ROOT,
                  "A way over two switches, such as the first: %.0f mohm, u %.1f mohm.%n",
                  path.value() * 1e3,
                  path.u() * 1e3);
              for (Contribution line : path.budget()) {
                out.printf(Locale.ROOT, "  %-48s %8.2f mohm%n", line.source(), line.u() * 1e3);
              }
            });
    zero.doubts().forEach(out::println);
    out.println(
        zero.consistent()
            ? "NEXT  Passes take this zero off until build or calibration change, or it is old."
            : "NEXT  Put right what is said above and zero again; until then passes go without.");
    out.flush();
  }

  private static void json(PrintWriter out, Zero zero) {
    JsonText.write(
        out,
        json -> {
          json.writeStartObject();
          json.writeStringField("format", "jointwalk zero 1");
          json.writeStringField("identity", zero.identity());
          json.writeStringField("at", zero.at().toString());
          json.writeBooleanField("consistent", zero.consistent());
          json.writeNumberField("seatings", zero.seatings());
          json.writeNumberField("high", zero.highOhms().size());
          json.writeNumberField("low", zero.lowOhms().size());
          if (typical(zero).isPresent()) {
            json.writeNumberField("pathOhms", typical(zero).get().value());
            json.writeNumberField("pathU", typical(zero).get().u());
          }
          json.writeArrayFieldStart("doubts");
          for (String doubt : zero.doubts()) {
            json.writeString(doubt);
          }
          json.writeEndArray();
          json.writeEndObject();
        });
  }
}

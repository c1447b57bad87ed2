package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapCsv;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.Read;
import org.jointwalk.stack.PadMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The command {@code map from-csv}. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk map from-csv ring.csv --pads new.pads.json --device \"Saltmarsh S2\"",
      "  jointwalk map from-csv ring.csv --from s2.pads.json --pads s2-b.pads.json"
    })
final class MapFromCsv implements Callable<Integer> {

  private final MapCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Parameters(
      paramLabel = "IN.csv",
      description = "Positions and nets, saved as \"CSV UTF-8\"; columns as map to-csv has them.")
  private Path csv = Path.of("");

  @Option(
      names = "--pads",
      paramLabel = "FILE",
      required = true,
      description = "The pad map to write.")
  private Path pads = Path.of("");

  @Option(
      names = "--from",
      paramLabel = "FILE",
      description =
          "A pad map that all else comes from: boards, interposers, ties, limits, loads, access"
              + " points, references.")
  private @Nullable Path from;

  @Option(
      names = "--device",
      paramLabel = "MODEL",
      description = "The model that a new map is for, where there is no map to start from.")
  private @Nullable String device;

  @Option(names = "--force", description = "Replaces the pad map when it is there already.")
  private boolean force;

  MapFromCsv(MapCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FileFaults {
    NewFile target = new NewFile(pads, force);
    target.requireOther(csv);
    target.requirePossible();
    Optional<PadMap> old = old();
    Read<PadMap> made =
        old.isPresent() ? PadMapCsv.read(csv, old.get()) : PadMapCsv.read(csv, model());
    target.write(PadMapFile.write(made.value()));

    Console console = parent.console(spec);
    console.title(pads + " has " + MapText.size(made.value()) + " from " + csv);
    old.ifPresent(map -> console.line("Taken from " + from + ": " + MapText.rest(map) + "."));
    MapText.doubts(made.warnings()).forEach(console::line);
    console.next("jointwalk map check --pads " + pads);
    return ExitCode.GOOD.number();
  }

  private Optional<PadMap> old() throws InputException, FileFaults {
    if (from == null && device == null) {
      throw new InputException(
          "A CSV file says positions and nets only. Give --from with an existing pad map for the"
              + " rest, or --device with the model to begin a new map.");
    }
    if (from != null && device != null) {
      throw new InputException(
          "--from brings the model with it: give --from or --device, not both.");
    }
    return from == null ? Optional.empty() : Optional.of(PadMapFile.read(from).value());
  }

  /** The name of the model, such that the map that is written can be read again. */
  private String model() throws InputException {
    String name = Optional.ofNullable(device).orElse("").strip();
    if (name.isEmpty() || !Console.clean(name).equals(name)) {
      throw new InputException("--device needs the name of the model, on one line.");
    }
    return name;
  }
}

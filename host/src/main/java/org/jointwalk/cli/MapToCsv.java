package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapCsv;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.stack.PadMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The command {@code map to-csv}. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk map to-csv --pads fixture-maps/saltmarsh-s2.pads.json ring.csv"
    })
final class MapToCsv implements Callable<Integer> {

  private final MapCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(
      names = "--pads",
      paramLabel = "FILE",
      required = true,
      description = "The pad map to read.")
  private Path pads = Path.of("");

  @Parameters(paramLabel = "OUT.csv", description = "The CSV file to write.")
  private Path csv = Path.of("");

  @Option(names = "--force", description = "Replaces the CSV file when it is there already.")
  private boolean force;

  MapToCsv(MapCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FileFaults {
    NewFile target = new NewFile(csv, force);
    target.requireOther(pads);
    target.requirePossible();
    PadMap map = PadMapFile.read(pads).value();
    target.write(PadMapCsv.write(map));

    Console console = parent.console(spec);
    console.title(csv + " has " + MapText.size(map) + " from " + pads);
    console.line("Not in it, since CSV cannot carry it: " + MapText.rest(map) + ".");
    console.next(
        "keep "
            + pads
            + "; after editing: jointwalk map from-csv "
            + csv
            + " --from "
            + pads
            + " --pads NEW.pads.json");
    return ExitCode.GOOD.number();
  }
}

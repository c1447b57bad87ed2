package org.jointwalk.cli;

import java.util.List;
import org.jointwalk.report.Look;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/** The command {@code map}: what its parts share. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk map check --pads fixture-maps/saltmarsh-s2.pads.json",
      "",
      "What may stand in the files is described in fixture-maps/README.md."
    })
final class MapCommand {

  private final Main main;

  private MapCommand(Main main) {
    this.main = main;
  }

  /** The command with all its parts; one entry each. */
  static CommandLine line(Main main, List<String> arguments) {
    MapCommand map = new MapCommand(main);
    return new Menu(new CommandLine(map), arguments)
        .add(
            "check",
            "Reads map files and tells all that is wrong with them, or what they hold.",
            () -> new MapChecking(map))
        .add(
            "coverage",
            "Tells what a fixture can show of a model, set-up by set-up, before anything is measured.",
            () -> new MapCoverage(map))
        .add(
            "draw",
            "Draws the ring of a pad map to scale, to be laid beside the board.",
            () -> new MapDraw(map))
        .add(
            "from-csv",
            "Makes a pad map from positions and nets that were filled in with a spreadsheet.",
            () -> new MapFromCsv(map))
        .add(
            "to-csv",
            "Writes the positions and nets of a pad map for a spreadsheet.",
            () -> new MapToCsv(map))
        .line();
  }

  Look look() {
    return main.look();
  }

  Console console(CommandSpec command) {
    return main.console(command);
  }
}

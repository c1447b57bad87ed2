package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jointwalk.drawing.MapDrawing;
import org.jointwalk.drawing.Palette;
import org.jointwalk.drawing.View;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Side;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** The command {@code map draw}. */
@Command(
    footer = {
      "",
      "Lay the picture beside the board: a map whose numbers run the wrong way round is seen at once.",
      "",
      "Example:",
      "  jointwalk map draw --pads fixture-maps/saltmarsh-s2.pads.json ring.svg",
      "  jointwalk map draw --pads s2.pads.json --side upper --turned-over upper.svg"
    })
final class MapDraw implements Callable<Integer> {

  private final MapCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(
      names = "--pads",
      paramLabel = "FILE",
      required = true,
      description = "The pad map to draw.")
  private Path pads = Path.of("");

  @Option(
      names = "--side",
      paramLabel = "SIDE",
      converter = Choice.OfSide.class,
      completionCandidates = Choice.OfSide.class,
      description =
          "The board whose nets are shown: ${COMPLETION-CANDIDATES}; without it, the lower one.")
  private Side side = Side.LOWER;

  @Option(
      names = "--turned-over",
      description = "As the part lies when it was turned over: left and right swapped.")
  private boolean turnedOver;

  @Parameters(paramLabel = "OUT.svg", description = "The SVG file to write.")
  private Path svg = Path.of("");

  @Option(names = "--force", description = "Replaces the SVG file when it is there already.")
  private boolean force;

  MapDraw(MapCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FileFaults {
    NewFile target = new NewFile(svg, force);
    target.requireOther(pads);
    target.requirePossible();
    PadMap map = PadMapFile.read(pads).value();
    View view = turnedOver ? View.BELOW : View.ABOVE;
    target.write(new MapDrawing(map, view, Palette.LIGHT).svg(side));
    parent.console(spec).title(svg + " has " + MapText.size(map));
    return ExitCode.GOOD.number();
  }
}

package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.drawing.Palette;
import org.jointwalk.drawing.RingDrawing;
import org.jointwalk.drawing.View;
import org.jointwalk.files.FileFaults;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.Coverage;
import org.jointwalk.job.Coverage.How;
import org.jointwalk.pass.PassException;
import org.jointwalk.report.CoverageText;
import org.jointwalk.stack.SetUp;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code map coverage}. */
@Command(
    footer = {
      "",
      "A stack without a fault is walked in the virtual fixture, with this fixture's wiring and"
          + " accuracy, by the pass that a real one would be.",
      "",
      "Example:",
      "  jointwalk map coverage --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json",
      "  jointwalk map coverage --pads s2.pads.json --fixture bench.fixture.json"
          + " --set-up interposer-on-lower --list --draw pictures"
    })
final class MapCoverage implements Callable<Integer> {

  private final MapCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private MapOptions maps = new MapOptions();

  @Option(
      names = "--set-up",
      paramLabel = "NAME",
      description = "This set-up only; without it, all that a pass can be run of.")
  private @Nullable String name;

  @Option(names = "--list", description = "Names every pad that is not seen by itself.")
  private boolean list;

  @Option(
      names = "--draw",
      paramLabel = "FOLDER",
      description = "Draws the ring of each set-up into this folder, as SVG.")
  private @Nullable Path folder;

  @Option(names = "--force", description = "Replaces pictures that are there already.")
  private boolean force;

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  MapCoverage(MapCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException, FileFaults, FixtureException, PassException {
    List<SetUp> setUps = setUps();
    MapOptions.Maps read = maps.read(Optional.empty());
    Map<SetUp, NewFile> pictures = pictures(setUps);
    SoundStack stack = new SoundStack(read.map(), read.interposer(), read.fixtureMap());
    List<Coverage> coverages = new ArrayList<>();
    for (SetUp setUp : setUps) {
      coverages.add(stack.in(setUp));
    }
    Console console = parent.console(spec);
    if (json) {
      JsonText.write(console.writer(), generator -> write(generator, coverages));
    } else {
      console.title(
          read.map().device() + " in " + read.fixtureMap().name() + ", what each set-up shows");
      for (Coverage coverage : coverages) {
        console.line("");
        console.writer().print(new CoverageText(parent.look()).text(coverage, list));
      }
    }
    for (Coverage coverage : coverages) {
      SetUp setUp = SetUp.named(coverage.setUp()).orElseThrow();
      NewFile picture = pictures.get(setUp);
      if (picture != null) {
        picture.write(
            new RingDrawing(read.map(), View.of(setUp), Palette.LIGHT)
                .svg(setUp.title(), coverage.findings()));
      }
    }
    return ExitCode.GOOD.number();
  }

  private List<SetUp> setUps() throws InputException {
    return name == null
        ? SetUp.all().stream().filter(SetUp::hasParts).toList()
        : List.of(SetUps.named(name, SetUp::hasParts, "for a pass"));
  }

  private Map<SetUp, NewFile> pictures(List<SetUp> setUps) throws InputException {
    Map<SetUp, NewFile> pictures = new LinkedHashMap<>();
    if (folder == null) {
      return pictures;
    }
    if (!Files.isDirectory(folder)) {
      throw new InputException(
          "There is no folder " + folder + " for the pictures. Make it first, or name another.");
    }
    for (SetUp setUp : setUps) {
      NewFile picture = new NewFile(folder.resolve(setUp.name() + ".svg"), force);
      picture.requirePossible();
      pictures.put(setUp, picture);
    }
    return pictures;
  }

  private static void write(JsonGenerator json, List<Coverage> coverages) throws IOException {
    json.writeStartObject();
    json.writeStringField("format", "jointwalk coverage 1");
    json.writeArrayFieldStart("setUps");
    for (Coverage coverage : coverages) {
      json.writeStartObject();
      json.writeStringField("setUp", coverage.setUp());
      json.writeNumberField("readings", coverage.readings());
      json.writeNumberField("seconds", coverage.seconds());
      json.writeObjectFieldStart("counts");
      for (Map.Entry<How, Integer> entry : coverage.counts().entrySet()) {
        json.writeNumberField(word(entry.getKey()), entry.getValue());
      }
      json.writeEndObject();
      json.writeArrayFieldStart("pads");
      for (Coverage.Pad pad : coverage.pads()) {
        json.writeStartObject();
        json.writeStringField("position", pad.position());
        json.writeStringField("seen", word(pad.how()));
        if (pad.smallest().isPresent()) {
          json.writeNumberField("smallestOhms", pad.smallest().get().value());
        }
        json.writeStringField("reason", pad.reason());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static String word(How how) {
    return how.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}

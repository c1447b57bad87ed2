package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.files.Fault;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.MapCheck;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.Read;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.PadMap;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code map check}. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk map check --pads fixture-maps/saltmarsh-s2.pads.json",
      "  jointwalk map check --pads s2.pads.json --fixture bench.fixture.json"
    })
final class MapChecking implements Callable<Integer> {

  private final MapCommand parent;
  private final List<Fault> faults = new ArrayList<>();
  private final List<Fault> warnings = new ArrayList<>();

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(
      names = "--pads",
      paramLabel = "FILE",
      required = true,
      description = "The pad map of the model.")
  private Path pads = Path.of("");

  @Option(
      names = "--fixture",
      paramLabel = "FILE",
      description = "A fixture map that has to fit it; may be given again for another.")
  private List<Path> fixtures = new ArrayList<>();

  @Option(
      names = "--stack",
      paramLabel = "FILE",
      description = "A simulated stack that has to fit it; may be given again for another.")
  private List<Path> stacks = new ArrayList<>();

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  MapChecking(MapCommand parent) {
    this.parent = parent;
  }

  /** Reads one file, or tells why that is not possible. */
  @FunctionalInterface
  private interface Reader<T> {

    Read<T> read(Path path) throws FileFaults;
  }

  /** Compares one file with the pad map. */
  @FunctionalInterface
  private interface Comparison<T> {

    List<Fault> with(PadMap map, Read<T> read) throws FileFaults;
  }

  @Override
  public Integer call() throws InputException {
    Optional<Read<PadMap>> map = read(pads, PadMapFile::read);
    List<Read<FixtureMap>> wirings = read(fixtures, FixtureMapFile::read);
    List<Read<SpecimenFile.Stack>> insides = read(stacks, SpecimenFile::read);
    if (map.isPresent()) {
      compare(map.get().value(), wirings, MapCheck::check);
      compare(map.get().value(), insides, MapChecking::compareStack);
    }
    if (map.isEmpty() || !faults.isEmpty()) {
      boolean apart = map.isEmpty() && !(fixtures.isEmpty() && stacks.isEmpty());
      throw new InputException(
          FaultText.of(faults, warnings)
              + (apart ? " The files were not compared: first the pad map has to be sound." : ""));
    }
    MapJson.Sound sound = new MapJson.Sound(map.get(), wirings, insides, warnings);
    Console console = parent.console(spec);
    if (json) {
      MapJson.write(console.writer(), sound);
    } else {
      tell(console, sound);
    }
    return ExitCode.GOOD.number();
  }

  private <T> List<Read<T>> read(List<Path> files, Reader<T> reader) {
    return files.stream().flatMap(file -> read(file, reader).stream()).toList();
  }

  private <T> Optional<Read<T>> read(Path file, Reader<T> reader) {
    try {
      Read<T> read = reader.read(file);
      warnings.addAll(read.warnings());
      return Optional.of(read);
    } catch (FileFaults e) {
      keep(e);
      return Optional.empty();
    }
  }

  private <T> void compare(PadMap map, List<Read<T>> reads, Comparison<T> comparison) {
    for (Read<T> read : reads) {
      try {
        warnings.addAll(comparison.with(map, read));
      } catch (FileFaults e) {
        keep(e);
      }
    }
  }

  private static List<Fault> compareStack(PadMap map, Read<SpecimenFile.Stack> stack)
      throws FileFaults {
    MapCheck.checkStack(map, stack);
    return List.of();
  }

  private void keep(FileFaults file) {
    faults.addAll(file.faults());
    warnings.addAll(file.warnings());
  }

  private static void tell(Console console, MapJson.Sound sound) {
    PadMap map = sound.pads().value();
    console.title(sound.pads().file() + " is sound");
    MapText.pads(map).forEach(console::line);
    for (Read<FixtureMap> fixture : sound.fixtures()) {
      console.title(fixture.file() + " fits it");
      MapText.fixture(map, fixture.value()).forEach(console::line);
    }
    for (Read<SpecimenFile.Stack> stack : sound.stacks()) {
      console.title(stack.file() + " fits it");
      MapText.stack(stack.value()).forEach(console::line);
    }
    MapText.doubts(sound.warnings()).forEach(console::line);
  }
}

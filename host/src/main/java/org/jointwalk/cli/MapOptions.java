package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jointwalk.files.Fault;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.MapCheck;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.Read;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The options that say which maps are meant. */
final class MapOptions {

  @Option(
      names = "--pads",
      paramLabel = "FILE",
      required = true,
      description = "The pad map of the model.")
  private @Nullable Path pads;

  @Option(
      names = "--fixture",
      paramLabel = "FILE",
      required = true,
      description = "The fixture map: how this fixture is wired to that model.")
  private @Nullable Path fixture;

  @Option(
      names = "--variant",
      paramLabel = "NAME",
      description = "The interposer variant; without it, the usual one of the pad map.")
  private @Nullable String variant;

  /**
   * What was read, checked against each other.
   *
   * @param map the model
   * @param fixtureMap the wiring
   * @param interposer the variant that is meant
   */
  record Maps(PadMap map, FixtureMap fixtureMap, Interposer interposer, List<Fault> warnings) {

    Maps {
      warnings = List.copyOf(warnings);
    }
  }

  /**
   * Reads both maps.
   *
   * @param inside variant that a virtual stack has, when it is known
   * @throws FileFaults when a file has faults, all of them at once
   * @throws InputException when the variant is not one of the map's
   */
  Maps read(Optional<String> inside) throws FileFaults, InputException {
    Read<PadMap> map = PadMapFile.read(given(pads));
    Read<FixtureMap> wiring = FixtureMapFile.read(given(fixture));
    List<Fault> warnings = new ArrayList<>(map.warnings());
    warnings.addAll(wiring.warnings());
    warnings.addAll(MapCheck.check(map.value(), wiring));
    return new Maps(map.value(), wiring.value(), interposer(map.value(), inside), warnings);
  }

  private Interposer interposer(PadMap map, Optional<String> inside) throws InputException {
    String wanted = Optional.ofNullable(variant).or(() -> inside).orElse("");
    if (wanted.isEmpty()) {
      return map.interposers().get(0);
    }
    return map.interposers().stream()
        .filter(i -> i.variant().equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new InputException(
                    "The "
                        + map.device()
                        + " has no interposer variant \""
                        + wanted
                        + "\". Its pad map knows: "
                        + map.interposers().stream()
                            .map(Interposer::variant)
                            .collect(Collectors.joining(", "))
                        + "."));
  }

  private static Path given(@Nullable Path path) {
    return Optional.ofNullable(path).orElseThrow();
  }
}

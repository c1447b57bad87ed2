package org.jointwalk.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Where the demo's files are, and which positions its story is about. Stateless. */
final class DemoFiles {

  static final String DRY_ONE = "N129";
  static final String DRY_TWO = "N131";
  static final String TORN = "N132";
  static final List<String> TOUCHED_UP = List.of("N110", "N111", "N138");

  /** The start script says where the program lies. */
  private static final String HOME = "jointwalk.home";

  private DemoFiles() {}

  /**
   * The folder with the maps.
   *
   * @throws InputException when the program was copied without it
   */
  static Path folder() throws InputException {
    Optional<Path> found =
        Stream.of(System.getProperty(HOME, "."), ".", "..")
            .map(base -> Path.of(base, "fixture-maps"))
            .filter(folder -> Files.isRegularFile(folder.resolve("saltmarsh-s2.pads.json")))
            .findFirst();
    return found.orElseThrow(
        () ->
            new InputException(
                "The demo's maps are not there: the folder fixture-maps belongs beside bin and lib."));
  }
}

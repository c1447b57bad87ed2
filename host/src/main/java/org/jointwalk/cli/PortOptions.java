package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.stack.Specimen;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The options that say where the fixture is. */
final class PortOptions {

  static final String VIRTUAL = "virtual";

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = VIRTUAL,
      description = "Where the fixture is; today only ${DEFAULT-VALUE}, the one in this program.")
  private String port = VIRTUAL;

  @Option(
      names = "--stack",
      paramLabel = "FILE",
      description = "What lies in the virtual fixture: a stack file.")
  private @Nullable Path stack;

  @Option(
      names = "--seed",
      paramLabel = "NUMBER",
      description = "Another draw of everything that chance decides in the virtual fixture.")
  private @Nullable Long seed;

  /**
   * The stack in the virtual fixture.
   *
   * @throws InputException when no virtual fixture is asked for, or no stack is named
   * @throws FileFaults when the stack file has faults
   */
  Specimen specimen() throws InputException, FileFaults {
    if (!port.equals(VIRTUAL)) {
      throw new InputException(
          "\""
              + port
              + "\" is no port of this version, which reaches the virtual fixture only: --port "
              + VIRTUAL
              + " --stack FILE.");
    }
    if (stack == null) {
      throw new InputException(
          "The virtual fixture needs to know what lies in it: --stack FILE, for example"
              + " fixture-maps/saltmarsh-dropped.stack.json.");
    }
    Specimen read = SpecimenFile.read(stack).value().specimen();
    long drawn = Optional.ofNullable(seed).orElse(read.seed());
    return new Specimen(read.variant(), drawn, read.defects(), read.outcomes(), read.troubles());
  }
}

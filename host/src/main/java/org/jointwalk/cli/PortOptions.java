package org.jointwalk.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ports;
import org.jointwalk.stack.Specimen;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options that say where the fixture is. */
final class PortOptions {

  static final String VIRTUAL = "virtual";

  @Option(
      names = "--port",
      paramLabel = "PORT",
      defaultValue = VIRTUAL,
      description =
          "Where the fixture is: a serial port such as /dev/ttyACM0, tcp:HOST:NUMBER, or"
              + " ${DEFAULT-VALUE}, the one in this program, which is meant without this option.")
  private String port = VIRTUAL;

  @Mixin private BaudOption baud = new BaudOption();

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
   * The stack in the virtual fixture; empty when a real one is asked for.
   *
   * @throws InputException when the options do not go together
   * @throws FileFaults when the stack file has faults
   */
  Optional<Specimen> specimen() throws InputException, FileFaults {
    if (!port.equals(VIRTUAL)) {
      if (stack != null || seed != null) {
        throw new InputException(
            "--stack and --seed say what lies in the virtual fixture, not in the one at \""
                + port
                + "\". Leave them out, or give --port "
                + VIRTUAL
                + ".");
      }
      return Optional.empty();
    }
    if (stack == null) {
      throw new InputException(
          "The virtual fixture needs to know what lies in it: --stack FILE, for example"
              + " fixture-maps/saltmarsh-dropped.stack.json.");
    }
    Specimen read = SpecimenFile.read(stack).value().specimen();
    long drawn = Optional.ofNullable(seed).orElse(read.seed());
    return Optional.of(
        new Specimen(read.variant(), drawn, read.defects(), read.outcomes(), read.troubles()));
  }

  /** The same for a command to which a stack does not matter: another one where none is given. */
  Optional<Specimen> specimenOr(Supplier<Specimen> other) throws InputException, FileFaults {
    return port.equals(VIRTUAL) && stack == null && seed == null
        ? Optional.of(other.get())
        : specimen();
  }

  /** How lines are opened. */
  LinkSettings settings() throws InputException {
    return baud.settings();
  }

  /** The port of a real fixture. */
  Port real() throws InputException {
    return named(port, settings());
  }

  /**
   * The port that a text means.
   *
   * @throws InputException when it means none
   */
  static Port named(String text, LinkSettings settings) throws InputException {
    try {
      return Ports.named(text, settings);
    } catch (IllegalArgumentException e) {
      throw new InputException(String.valueOf(e.getMessage()));
    }
  }
}

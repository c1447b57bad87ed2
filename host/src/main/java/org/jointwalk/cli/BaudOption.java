package org.jointwalk.cli;

import org.jointwalk.link.LinkSettings;
import picocli.CommandLine.Option;

/** The option that says how fast a serial line is. */
final class BaudOption {

  @Option(
      names = "--baud",
      paramLabel = "RATE",
      defaultValue = "115200",
      description = "Rate of a serial line; USB does not care. Without it, ${DEFAULT-VALUE}.")
  private int baud;

  /**
   * How lines are opened.
   *
   * @throws InputException when there is no such rate
   */
  LinkSettings settings() throws InputException {
    if (baud <= 0) {
      throw new InputException(
          "--baud " + baud + " is no rate. Usual are 9600, 115200 and 921600.");
    }
    return LinkSettings.DEFAULTS.withBaud(baud);
  }
}

package org.jointwalk.cli;

import java.util.List;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;

/** The command {@code fixture}: what its parts share. */
@Command(
    footer = {
      "",
      "Example:",
      "  jointwalk fixture find",
      "  jointwalk fixture virtual --tcp 0 --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
          + " --stack fixture-maps/saltmarsh-dropped.stack.json"
    })
final class FixtureCommand {

  private final Main main;

  private FixtureCommand(Main main) {
    this.main = main;
  }

  /** The command with all its parts; one entry each. */
  static CommandLine line(Main main, List<String> arguments) {
    FixtureCommand fixture = new FixtureCommand(main);
    return new Menu(new CommandLine(fixture), arguments)
        .add(
            "conform",
            "Looks whether the fixture at a port keeps the protocol, clause by clause.",
            () -> new FixtureConform(fixture))
        .add(
            "check",
            "Looks the fixture over with nothing in it, and names what is wrong.",
            () -> new FixtureCheck(fixture))
        .add(
            "find",
            "Asks every port which fixture is there, and says why others cannot be used.",
            () -> new FixtureFind(fixture))
        .add(
            "probes",
            "Tells which probes have got worse over all jobs, and what to do about them.",
            () -> new FixtureProbes(fixture))
        .add(
            "study",
            "Finds out how well the fixture repeats, in the hands of those who use it.",
            () -> new FixtureStudy(fixture))
        .add(
            "virtual",
            "A fixture that exists in numbers only, at the end of a line like a real one.",
            () -> new FixtureVirtual(fixture))
        .add(
            "zero",
            "Measures the fixture's own switches on the shorting plate.",
            () -> new FixtureZero(fixture))
        .line();
  }

  Surroundings surroundings() {
    return main.surroundings();
  }

  Console console(CommandSpec command) {
    return main.console(command);
  }
}

package org.jointwalk.link;

import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;

/** Whether a fixture is the one that a map describes. Stateless. */
final class Mapped {

  private Mapped() {}

  /**
   * Compares what decides whether readings belong to the pads that the map says.
   *
   * @throws FixtureException.Mismatch naming what differs
   */
  static void require(Opened opened, FixtureMap map, String port) throws FixtureException {
    Capabilities says = opened.capabilities();
    Capabilities expected = map.capabilities();
    requireSame(port, map, "identity", says.identity(), expected.identity());
    requireSame(port, map, "calibration", says.calibration(), expected.calibration());
    requireSame(
        port, map, "switching", says.switching().toString(), expected.switching().toString());
    requireSame(port, map, "kelvin", says.kelvin().toString(), expected.kelvin().toString());
    int needed = map.channels().stream().mapToInt(Channel::number).max().orElse(-1) + 1;
    if (needed > opened.welcome().channels()) {
      throw new FixtureException.Mismatch(
          "The fixture at "
              + port
              + " has "
              + opened.welcome().channels()
              + " channels, the map "
              + map.name()
              + " wires "
              + needed
              + ". Give the map of this fixture, or plug its missing boards in.");
    }
  }

  private static void requireSame(
      String port, FixtureMap map, String what, String says, String expected)
      throws FixtureException {
    if (!says.equals(expected)) {
      throw new FixtureException.Mismatch(
          "The fixture at "
              + port
              + " says "
              + what
              + " \""
              + Words.shown(says)
              + "\", the map "
              + map.name()
              + " is for \""
              + expected
              + "\". Give the map of this fixture, or correct the map.");
    }
  }
}

package org.jointwalk.pass;

import java.util.List;
import java.util.Set;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * What a watch is to do.
 *
 * @param job id of its stream
 * @param assembly what is in the fixture
 * @param wired contacts that the fixture can reach
 * @param positions suspects, at least one
 * @param good positions that the last pass found good
 * @param aboveOhms a joint has dropped out when it reads so much above its own level
 * @param seconds how long to watch, in time of the fixture; infinite to watch until stopped
 * @param padMap content hash of the pad map
 * @param fixtureMap content hash of the fixture map
 * @param by initials of whoever clamps
 * @param program version of the program
 */
public record WatchRequest(
    String job,
    Assembly assembly,
    Set<Contact> wired,
    List<String> positions,
    Set<String> good,
    double aboveOhms,
    double seconds,
    String padMap,
    String fixtureMap,
    String by,
    String program) {

  public WatchRequest {
    wired = Set.copyOf(wired);
    positions = List.copyOf(positions);
    good = Set.copyOf(good);
    if (positions.isEmpty() || !(aboveOhms > 0) || !(seconds > 0)) {
      throw new IllegalArgumentException("a watch has joints, a resistance and a time");
    }
  }
}

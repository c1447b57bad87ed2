package org.jointwalk.pass;

import java.util.Set;
import org.jointwalk.job.Purpose;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * What a pass is to do.
 *
 * @param job id of its stream
 * @param assembly what is in the fixture
 * @param wired contacts that the fixture can reach
 * @param purpose what for
 * @param padMap content hash of the pad map
 * @param fixtureMap content hash of the fixture map
 * @param by initials of whoever clamps
 * @param program version of the program
 * @param resume whether to go on with a pass of this set-up that was interrupted
 */
public record Request(
    String job,
    Assembly assembly,
    Set<Contact> wired,
    Purpose purpose,
    String padMap,
    String fixtureMap,
    String by,
    String program,
    boolean resume) {

  public Request {
    wired = Set.copyOf(wired);
  }
}

package org.jointwalk.study;

import java.util.List;
import java.util.Set;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/**
 * What a study is to do.
 *
 * @param assembly what is clamped: the bare interposer
 * @param wired contacts that the fixture can reach
 * @param positions to read; none for some from all around
 * @param operators initials of who clamps in turn
 * @param seatings clampings by each
 * @param fixtureMap content hash of the fixture map
 * @param program version of the program
 */
public record Order(
    Assembly assembly,
    Set<Contact> wired,
    List<String> positions,
    List<String> operators,
    int seatings,
    String fixtureMap,
    String program) {

  public Order {
    wired = Set.copyOf(wired);
    positions = List.copyOf(positions);
    operators = List.copyOf(operators);
    if (operators.isEmpty()
        || operators.size() > Ranges.MOST
        || seatings < 2
        || seatings > Ranges.MOST) {
      throw new IllegalArgumentException(
          "a study has 1 to 10 operators and 2 to 10 seatings, not "
              + operators.size()
              + " and "
              + seatings);
    }
  }
}

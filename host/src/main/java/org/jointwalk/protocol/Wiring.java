package org.jointwalk.protocol;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Scan;
import org.jointwalk.stack.Contact;

/** Which working channel leads to which contact. Immutable. */
public final class Wiring {

  private final Map<Contact, Integer> force = new HashMap<>();
  private final Map<Contact, Integer> sense = new HashMap<>();
  private final Map<Integer, Contact> forced = new HashMap<>();

  /**
   * @param fixture whose channels are looked up; its defective ones do not exist
   */
  public Wiring(FixtureMap fixture) {
    for (Channel channel : fixture.channels()) {
      if (fixture.defective().contains(channel.number())) {
        continue;
      }
      if (channel.use() == Channel.Use.FORCE) {
        force.put(channel.contact(), channel.number());
        forced.put(channel.number(), channel.contact());
      } else {
        sense.put(channel.contact(), channel.number());
      }
    }
  }

  /** The channel that can force a contact. */
  public OptionalInt force(Contact contact) {
    return find(force, contact);
  }

  /** The channel that senses a contact apart from the one that forces it. */
  public OptionalInt sense(Contact contact) {
    return find(sense, contact);
  }

  private static OptionalInt find(Map<Contact, Integer> channels, Contact contact) {
    Integer channel = channels.get(contact);
    return channel == null ? OptionalInt.empty() : OptionalInt.of(channel);
  }

  /** The contact that a channel forces. */
  public Optional<Contact> contact(int channel) {
    return Optional.ofNullable(forced.get(channel));
  }

  /** The contacts of a scan that no working channel can force, in the order they come. */
  public List<Contact> missing(Scan scan) {
    Set<Contact> seen = new HashSet<>();
    return scan.steps().stream()
        .flatMap(step -> List.of(step.high(), step.low()).stream())
        .flatMap(List::stream)
        .filter(contact -> !force.containsKey(contact) && seen.add(contact))
        .toList();
  }
}

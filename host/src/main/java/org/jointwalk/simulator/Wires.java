package org.jointwalk.simulator;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Contact;

/** Where the channels of a fixture lead; a defective one leads nowhere. Immutable. */
final class Wires {

  private final Map<Integer, Contact> wires = new HashMap<>();

  Wires(FixtureMap map) {
    for (Channel channel : map.channels()) {
      if (!map.defective().contains(channel.number())) {
        wires.put(channel.number(), channel.contact());
      }
    }
  }

  /** What channels lead to, each contact once; a channel without a wire leads to thin air. */
  List<Contact> contacts(List<Integer> channels) {
    return channels.stream().map(this::contact).distinct().collect(Collectors.toList());
  }

  private Contact contact(int channel) {
    return Optional.ofNullable(wires.get(channel))
        .orElseGet(() -> new Contact.Point("channel " + channel));
  }

  /**
   * Where the voltage of a side is read.
   *
   * @param channels on its sense bus
   * @param forced what is on its force bus
   */
  Manner.Sense sense(List<Integer> channels, List<Contact> forced) {
    if (channels.isEmpty()) {
      return new Manner.Sense.Force();
    }
    List<Contact> sensed = contacts(channels);
    return sensed.stream().anyMatch(forced::contains)
        ? new Manner.Sense.Own()
        : new Manner.Sense.At(sensed.get(0));
  }
}

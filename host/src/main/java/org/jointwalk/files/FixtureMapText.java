package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Supplier;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Contact;

/** A fixture map to text and back. Stateless. */
final class FixtureMapText {

  private FixtureMapText() {}

  /** Where a channel stands in a {@link Read}. */
  static String thing(int channel) {
    return "channel " + channel;
  }

  static Supplier<FixtureMap> read(Field root) {
    root.only(
        List.of("format", "name", "device", "capabilities", "channels", "defective", "$schema"));
    String name = root.at("name").words();
    String device = root.at("device").words();
    root.faults().stands("device", root.at("device")::place);
    Field able = root.at("capabilities");
    CapabilitiesCheck.check(able);
    List<Channel> channels = channels(root.at("channels"));
    Set<Integer> defective = defective(root.at("defective"), channels);
    return () -> {
      warnOfLoneSense(channels, root.faults());
      Capabilities capabilities = CapabilitiesText.read(able);
      return new FixtureMap(name, device, capabilities, channels, defective);
    };
  }

  private static List<Channel> channels(Field field) {
    List<Channel> channels = new ArrayList<>();
    Map<Integer, Field> numbers = new HashMap<>();
    Map<Wire, Integer> wires = new HashMap<>();
    for (Field item : field.items()) {
      int before = field.faults().count();
      List<Channel> run = ChannelRuns.read(item);
      // What a half-read channel seems to collide with would only mislead.
      boolean sound = field.faults().count() == before;
      for (Channel channel : sound ? run : List.<Channel>of()) {
        channels.add(channel);
        Field earlier = numbers.putIfAbsent(channel.number(), item);
        if (earlier != null) {
          item.at(item.at("from").given() ? "from" : "channel")
              .error(
                  "channel " + channel.number() + " is there twice",
                  "each channel once",
                  "Correct the number; the other is at " + earlier.place());
        }
        Integer other =
            wires.putIfAbsent(new Wire(channel.contact(), channel.use()), channel.number());
        if (other != null) {
          item.at(item.at("from").given() ? "contacts" : "contact")
              .error(
                  "channels "
                      + other
                      + " and "
                      + channel.number()
                      + " are both wired to "
                      + Names.of(channel.contact()),
                  "one channel for force and one for sense on a contact",
                  "Follow the wire of one of the two and correct its contact, or its \"use\"");
        }
        field.faults().stands(thing(channel.number()), item::place);
      }
    }
    if (field.isList() && field.items().isEmpty()) {
      field.error("the fixture has no channel", "at least one channel", "Add its channels");
    }
    return channels;
  }

  private static void warnOfLoneSense(List<Channel> channels, Faults faults) {
    Set<Contact> forced = new HashSet<>();
    channels.stream()
        .filter(channel -> channel.use() == Channel.Use.FORCE)
        .forEach(channel -> forced.add(channel.contact()));
    for (Channel channel : channels) {
      if (channel.use() == Channel.Use.SENSE && !forced.contains(channel.contact())) {
        faults.warning(
            new Fault(
                faults.placeOf(thing(channel.number())),
                "channel " + channel.number() + " senses a contact that no channel forces",
                JsonOut.quoted(Names.of(channel.contact())),
                "a force channel beside each sense channel",
                "Without one this contact is not measured"));
      }
    }
  }

  private static Set<Integer> defective(Field field, List<Channel> channels) {
    Set<Integer> there = new HashSet<>();
    channels.forEach(channel -> there.add(channel.number()));
    Set<Integer> defective = new LinkedHashSet<>();
    for (Field item : field.given() ? field.items() : List.<Field>of()) {
      int number = item.count(0);
      if (item.isNumber() && !there.contains(number)) {
        item.error(
            "the fixture has no such channel",
            "numbers from the list of channels",
            "Correct the number, or drop it");
      }
      defective.add(number);
    }
    return defective;
  }

  static String write(FixtureMap map) {
    JsonOut out =
        JsonOut.airy()
            .objectInLines()
            .with("format", FixtureMapFile.FORMAT)
            .with("name", map.name())
            .with("device", map.device());
    out.key("capabilities");
    CapabilitiesText.write(out, map.capabilities());
    out.key("channels").arrayInLines();
    ChannelRuns.write(out, map.channels());
    out.end().key("defective").array();
    new TreeSet<>(map.defective()).forEach(out::whole);
    return out.end().end() + "\n";
  }

  private record Wire(Contact contact, Channel.Use use) {}
}

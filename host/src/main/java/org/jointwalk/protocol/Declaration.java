package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * What a fixture is told about what is clamped, as it holds it.
 *
 * @param declare parts and classes
 * @param places one for each channel of the fixture: 0 never closed, n the n-th class
 */
public record Declaration(Request.Declare declare, List<Integer> places) {

  /** A nominal voltage from here on lowers no ceiling. */
  private static final int HARMLESS = Units.volt(1);

  public Declaration {
    places = List.copyOf(places);
    for (int place : places) {
      Ranges.check("a place", place, 0, declare.classes().size());
    }
  }

  /**
   * What the host declares.
   *
   * @param assembly what is in the fixture
   * @param fixture how it is wired; channels that are defective or touch nothing are never closed
   * @param channels how many the fixture has
   * @throws IllegalArgumentException when a wired channel is beyond them, or when the nets have
   *     more kinds of metal than a declaration can tell apart
   */
  public static Declaration of(Assembly assembly, FixtureMap fixture, int channels) {
    List<Touch> classes = new ArrayList<>();
    List<Integer> places = new ArrayList<>(Collections.nCopies(channels, 0));
    for (Channel channel : fixture.channels()) {
      if (fixture.defective().contains(channel.number())) {
        continue;
      }
      Ranges.check("a channel of " + fixture.name(), channel.number(), 0, channels - 1);
      touch(assembly, channel)
          .ifPresent(
              touch -> {
                if (!classes.contains(touch)) {
                  classes.add(touch);
                }
                places.set(channel.number(), classes.indexOf(touch) + 1);
              });
    }
    SetUp setUp = assembly.setUp();
    Request.Declare declare = new Request.Declare(present(setUp), setUp.name(), classes);
    return new Declaration(declare, places);
  }

  private static Set<Request.Part> present(SetUp setUp) {
    Set<Request.Part> present = EnumSet.noneOf(Request.Part.class);
    if (setUp.boards().contains(Side.UPPER)) {
      present.add(Request.Part.UPPER_BOARD);
    }
    if (setUp.boards().contains(Side.LOWER)) {
      present.add(Request.Part.LOWER_BOARD);
    }
    if (setUp.interposer()) {
      present.add(Request.Part.INTERPOSER);
    }
    if (setUp.shorted()) {
      present.add(Request.Part.SHORTING_PLATE);
    }
    return present;
  }

  private static Optional<Touch> touch(Assembly assembly, Channel channel) {
    boolean sense = channel.use() == Channel.Use.SENSE;
    if (assembly.setUp().bare()) {
      return Optional.of(new Touch(Touch.Kind.BARE, sense, false, 0));
    }
    Contact contact = channel.contact();
    if (!assembly.contacts().contains(contact)) {
      return Optional.empty();
    }
    Optional<Net> net = assembly.net(contact);
    Touch.Kind kind = net.map(Declaration::kind).orElse(Touch.Kind.SIGNAL);
    if (sense) {
      // The force wire of the same contact says the rest; saying it twice costs classes.
      return Optional.of(new Touch(kind, true, false, 0));
    }
    // Whoever may bear less than others in a junction step is delicate, wherever that is decided.
    Ceilings ceilings = new Ceilings(assembly);
    boolean delicate = ceilings.current(Kind.JUNCTION, List.of(contact)).value() < 1e-3;
    int nominal = net.flatMap(Net::nominal).map(volts -> Units.volt(volts.value())).orElse(0);
    return Optional.of(
        new Touch(kind, false, delicate, nominal > 0 && nominal < HARMLESS ? nominal : 0));
  }

  private static Touch.Kind kind(Net net) {
    return switch (net.role()) {
      case GROUND -> Touch.Kind.GROUND;
      case RAIL -> Touch.Kind.RAIL;
      case SIGNAL, UNUSED -> Touch.Kind.SIGNAL;
    };
  }

  /** What tells it to the fixture, in this order. */
  public List<Request> requests() {
    List<Request> requests = new ArrayList<>();
    requests.add(declare);
    for (int first = 0; first < places.size(); first += Request.Channels.MOST) {
      int after = Math.min(first + Request.Channels.MOST, places.size());
      List<Integer> some = places.subList(first, after);
      if (some.stream().anyMatch(place -> place != 0)) {
        requests.add(new Request.Channels(first, some));
      }
    }
    return requests;
  }

  /** The check that DECLARED and RUN carry (9.3). */
  public long check() {
    Out out = new Out().bytes(declare.payload());
    places.forEach(out::u8);
    byte[] all = out.done().toArray();
    return Crc.of(all, 0, all.length);
  }

  /** The channels that a step means by "rest" when nothing else is closed. */
  Set<Integer> forcible() {
    Set<Integer> channels = new TreeSet<>();
    for (int i = 0; i < places.size(); i++) {
      int place = places.get(i);
      if (place > 0 && !declare.classes().get(place - 1).sense()) {
        channels.add(i);
      }
    }
    return channels;
  }

  /**
   * What a fixture holds after DECLARE.
   *
   * @param channels how many it has
   */
  public static Declaration begun(Request.Declare declare, int channels) {
    return new Declaration(declare, Collections.nCopies(channels, 0));
  }

  /** What a fixture holds after CHANNELS; empty when they are a bad value (M38). */
  public Optional<Declaration> with(Request.Channels channels) {
    List<Integer> changed = new ArrayList<>(places);
    if (channels.first() + channels.places().size() > changed.size()) {
      return Optional.empty();
    }
    for (int i = 0; i < channels.places().size(); i++) {
      int place = channels.places().get(i);
      if (place > declare.classes().size()) {
        return Optional.empty();
      }
      changed.set(channels.first() + i, place);
    }
    return Optional.of(new Declaration(declare, changed));
  }
}

package org.jointwalk.files;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Specimen;

/**
 * Whether a fixture map or a stack fits a pad map. What names something that the pad map lacks is a
 * fault; a position that the fixture cannot reach is a warning, since it is listed as not seen.
 * Stateless.
 */
public final class MapCheck {

  private MapCheck() {}

  /**
   * Compares a fixture map with a pad map.
   *
   * @return warnings, such as positions that no probe reaches
   * @throws FileFaults with all places where the two contradict each other
   */
  public static List<Fault> check(PadMap map, Read<FixtureMap> fixture) throws FileFaults {
    Faults faults = new Faults(fixture.file());
    device(map, fixture, faults);
    for (Channel channel : fixture.value().channels()) {
      contact(
          map,
          channel.contact(),
          fixture.place(FixtureMapText.thing(channel.number())),
          "channel " + channel.number(),
          faults);
    }
    reach(map, fixture.value(), faults);
    faults.stopIfAny();
    return faults.warnings();
  }

  /**
   * Compares a fixture map that was not read from a file with a pad map; faults name the map
   * instead of a file.
   *
   * @return warnings, such as positions that no probe reaches
   * @throws FileFaults with all places where the two contradict each other
   */
  public static List<Fault> check(PadMap map, FixtureMap fixture) throws FileFaults {
    return check(map, Read.unfiled(fixture, fixture.name()));
  }

  /**
   * Compares a simulated stack with a pad map.
   *
   * @throws FileFaults with all that names what the pad map does not have
   */
  public static void checkStack(PadMap map, Read<SpecimenFile.Stack> stack) throws FileFaults {
    Faults faults = new Faults(stack.file());
    Specimen specimen = stack.value().specimen();
    List<String> variants = map.interposers().stream().map(Interposer::variant).toList();
    if (!variants.contains(specimen.variant())) {
      faults.unknown(
          stack.place("variant"),
          "the pad map has no such interposer variant",
          specimen.variant(),
          variants);
    }
    new Defective(map, stack, faults).check(specimen);
    faults.stopIfAny();
  }

  private static void device(PadMap map, Read<FixtureMap> fixture, Faults faults) {
    if (!map.device().equals(fixture.value().device())) {
      faults.error(
          new Fault(
              fixture.place("device"),
              "this fixture map is for another device than the pad map",
              JsonOut.quoted(fixture.value().device()),
              JsonOut.quoted(map.device()),
              "Take the two maps of one device"));
    }
  }

  static void contact(PadMap map, Contact contact, Place place, String who, Faults faults) {
    if (contact instanceof Contact.Pad pad && !map.positions().containsKey(pad.position())) {
      faults.unknown(
          place,
          who + " names a position that the pad map does not have",
          pad.position(),
          map.positions().keySet());
    }
    if (contact instanceof Contact.Point point && !map.points().containsKey(point.point())) {
      faults.unknown(
          place,
          who + " names an access point that the pad map does not have",
          point.point(),
          map.points().keySet());
    }
  }

  private static void reach(PadMap map, FixtureMap fixture, Faults faults) {
    Set<Contact> contacts = fixture.contacts();
    Set<String> reached = new LinkedHashSet<>();
    for (Plate plate : Plate.values()) {
      reachedBy(plate, contacts, map).forEach(reached::add);
    }
    for (Plate plate : Plate.values()) {
      Set<String> here = reachedBy(plate, contacts, map);
      List<String> missed = reached.stream().filter(id -> !here.contains(id)).toList();
      boolean used = !here.isEmpty();
      if (used && !missed.isEmpty()) {
        notReached(missed, "working channel on the " + Words.of(plate) + " plate", faults);
      }
    }
    List<String> nowhere =
        map.positions().keySet().stream().filter(id -> !reached.contains(id)).toList();
    if (!nowhere.isEmpty()) {
      notReached(nowhere, "working channel on any plate", faults);
    }
  }

  private static Set<String> reachedBy(Plate plate, Set<Contact> contacts, PadMap map) {
    Set<String> reached = new LinkedHashSet<>(map.positions().keySet());
    reached.removeIf(id -> !contacts.contains(new Contact.Pad(plate, id)));
    return reached;
  }

  private static void notReached(List<String> ids, String what, Faults faults) {
    faults.warning(
        new Fault(
            Place.whole(faults.file()),
            ids.size() + (ids.size() == 1 ? " position has no " : " positions have no ") + what,
            Words.listed(ids),
            "a force channel for each position on each plate that the fixture has",
            "They are listed as not seen; wire them, or accept that"));
  }
}

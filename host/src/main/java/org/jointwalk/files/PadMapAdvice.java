package org.jointwalk.files;

import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * Warnings about a map that can be used but says less, or something else, than it could. For one
 * map and one thread.
 */
final class PadMapAdvice {

  private final PadMap map;
  private final Faults faults;
  private final Map<NetId, String> padOf = new HashMap<>();

  private PadMapAdvice(PadMap map, Faults faults) {
    this.map = map;
    this.faults = faults;
    for (Side side : Side.values()) {
      map.padsByNet(side).forEach((net, pads) -> padOf.put(net, pads.get(0)));
    }
  }

  static void give(PadMap map, Faults faults) {
    PadMapAdvice advice = new PadMapAdvice(map, faults);
    advice.grounds();
    advice.rails();
    advice.functions();
    for (Side side : Side.values()) {
      advice.currents(side);
    }
  }

  private void grounds() {
    for (Side side : Side.values()) {
      if (map.nets().values().stream()
          .noneMatch(net -> net.id().side() == side && net.role() == Role.GROUND)) {
        warn(
            Place.whole(faults.file()),
            "no net of the " + Words.of(side) + " board has the role ground",
            "",
            "one net with \"role\": \"ground\" on each board",
            "Without it nothing of this board can be measured against ground");
      }
    }
  }

  private void rails() {
    for (Net net : map.nets().values()) {
      if (net.role() == Role.RAIL && net.nominal().isEmpty()) {
        warn(
            faults.placeOf(NetText.thing(net.id())),
            "this rail has no nominal voltage",
            JsonOut.quoted(net.id().name()),
            "\"nominal_volts\" with the voltage in operation",
            "Without it junctions are tested with up to 1 V, which may be more than the rail bears");
      }
    }
  }

  private void functions() {
    Set<String> told = new HashSet<>();
    for (Net net : map.nets().values()) {
      String function = net.function();
      if (function.equals(Defaults.FUNCTION) || !told.add(function)) {
        continue;
      }
      boolean served =
          map.nets().values().stream()
              .anyMatch(n -> n.function().equals(function) && padOf.containsKey(n.id()));
      if (!served) {
        warn(
            faults.placeOf(NetText.thing(net.id())),
            "no net with a position serves this function",
            JsonOut.quoted(function),
            "a function that at least one net of the ring serves",
            "Without one, a fault of this function cannot be seen from the ring");
      }
      Optional<String> alike =
          told.stream()
              .filter(other -> !other.equals(function) && alike(other, function))
              .findAny();
      if (alike.isPresent()) {
        warn(
            faults.placeOf(NetText.thing(net.id())),
            "this function is nearly named like another",
            JsonOut.quoted(function),
            "one name for one function",
            "Did you mean " + JsonOut.quoted(alike.get()) + "?");
      }
    }
  }

  private static boolean alike(String a, String b) {
    return a.equalsIgnoreCase(b) || Words.edits(a, b) == 1;
  }

  /** The program measures with its own currents; a reference at others helps less. */
  private void currents(Side side) {
    SetUp alone = SetUp.named(Words.of(side) + "-board").orElseThrow();
    Ceilings ceilings = new Ceilings(new Assembly(map, map.interposers().get(0), alone));
    Plate plate = side == Side.UPPER ? Plate.UNDER : Plate.OVER;
    for (Reference reference : map.references()) {
      String pad = padOf.getOrDefault(reference.net(), "");
      if (reference instanceof Reference.Drop drop && drop.net().side() == side && !pad.isEmpty()) {
        List<Amps> used = ceilings.junctionCurrents(List.of(new Contact.Pad(plate, pad)));
        if (!used.equals(drop.amps())) {
          warn(
              faults.placeOf(ReferenceText.thing(reference)),
              "this reference was taken at other currents than the program uses",
              figures(drop.amps()) + " A",
              figures(used) + " A for this net",
              "Learn it again with this program");
        }
      }
    }
  }

  private static String figures(List<Amps> amps) {
    return String.join(", ", amps.stream().map(a -> JsonOut.shortest(a.value())).toList());
  }

  private void warn(Place place, String reason, String value, String allowed, String hint) {
    faults.warning(new Fault(place, reason, value, allowed, hint));
  }
}

package org.jointwalk.spice;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;

/**
 * What can be seen of each position, by cutting one conductor after the other out of the copper. An
 * open is seen when it leaves a probe of its position without any other probe and without a direct
 * path to ground, where there was one before. Immutable once made.
 */
final class Sight {

  /** What can be seen of a position. */
  enum View {
    /** An open in any part of its path. */
    WHOLE,
    /** Some part only as one of several in parallel. */
    MASKED,
    /** Nothing: no probe, or nothing that a probe could be read against. */
    NOTHING
  }

  private static final String GROUND = "by direct current to ground";

  private final SetUp setUp;
  private final Map<Contact, String> tips;
  private final Map<String, List<Copper.Strip>> at = new LinkedHashMap<>();
  private final Map<String, List<Component>> parts = new LinkedHashMap<>();
  private final Set<String> flowing = new LinkedHashSet<>();
  private final Map<String, NetId> power = new LinkedHashMap<>();

  Sight(PadMap map, SetUp setUp) {
    this.setUp = setUp;
    Copper copper = new Copper(map, map.interposers().get(0), setUp);
    tips = copper.tips();
    for (Copper.Strip strip : copper.strips()) {
      at.computeIfAbsent(strip.a(), k -> new ArrayList<>()).add(strip);
      at.computeIfAbsent(strip.b(), k -> new ArrayList<>()).add(strip);
      strip
          .component()
          .ifPresent(c -> parts.computeIfAbsent(position(c), k -> new ArrayList<>()).add(c));
    }
    for (Net net : map.nets().values()) {
      if (net.dcPath() && (net.role() == Role.SIGNAL || net.role() == Role.RAIL)) {
        flowing.add(Copper.net(net.id()));
      }
      if (net.role() == Role.GROUND || net.role() == Role.RAIL) {
        power.put(Copper.net(net.id()), net.id());
      }
    }
  }

  /** The position of a conductor. */
  static String position(Component component) {
    if (component instanceof Component.Pad pad) {
      return pad.position();
    }
    if (component instanceof Component.Joint joint) {
      return joint.position();
    }
    return ((Component.Via) component).position();
  }

  /** What can be seen of a position. */
  View of(String position) {
    if (probes(position).stream().allMatch(c -> reached(c, Optional.empty()).isEmpty())) {
      return View.NOTHING;
    }
    return parts.getOrDefault(position, List.of()).stream().allMatch(this::shows)
        ? View.WHOLE
        : View.MASKED;
  }

  /** Whether an open in a component would be seen at its position. */
  boolean shows(Component component) {
    return parts.getOrDefault(position(component), List.of()).contains(component)
        && probes(position(component)).stream()
            .anyMatch(
                c ->
                    !reached(c, Optional.empty()).isEmpty()
                        && reached(c, Optional.of(component)).isEmpty());
  }

  private List<Contact> probes(String position) {
    List<Contact> probes = new ArrayList<>();
    for (Plate plate : Plate.values()) {
      Contact contact = new Contact.Pad(plate, position);
      if (setUp.touches(plate).isPresent()) {
        probes.add(contact);
      }
    }
    return probes;
  }

  /** The nodes that are one piece of metal with a node, when one component is cut. */
  private Set<String> metal(String start, Optional<Component> cut) {
    Set<String> seen = new LinkedHashSet<>(Set.of(start));
    Deque<String> next = new ArrayDeque<>(seen);
    while (!next.isEmpty()) {
      String here = next.remove();
      for (Copper.Strip strip : at.getOrDefault(here, List.of())) {
        String there = strip.a().equals(here) ? strip.b() : strip.a();
        if ((cut.isEmpty() || !strip.component().equals(cut)) && seen.add(there)) {
          next.add(there);
        }
      }
    }
    return seen;
  }

  /** What a position's probe lies on by design; empty when none does. */
  Set<String> metal(String position) {
    return probes(position).stream()
        .flatMap(c -> Optional.ofNullable(tips.get(c)).stream())
        .findFirst()
        .map(tip -> metal(tip, Optional.empty()))
        .orElse(Set.of());
  }

  /** The rails and grounds of a board in a piece of metal. */
  Set<NetId> power(Set<String> metal) {
    Set<NetId> nets = new LinkedHashSet<>();
    metal.stream().flatMap(n -> Optional.ofNullable(power.get(n)).stream()).forEach(nets::add);
    return nets;
  }

  /** What a probe can be read against when one component is cut. */
  private Set<Object> reached(Contact from, Optional<Component> cut) {
    Set<String> seen = metal(tips.getOrDefault(from, "nowhere"), cut);
    Set<Object> reached = new LinkedHashSet<>();
    tips.forEach(
        (contact, tip) -> {
          if (seen.contains(tip) && !contact.equals(from)) {
            reached.add(contact);
          }
        });
    if (seen.stream().anyMatch(flowing::contains)) {
      reached.add(GROUND);
    }
    return reached;
  }
}

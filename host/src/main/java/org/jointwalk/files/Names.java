package org.jointwalk.files;

import java.util.Locale;
import java.util.Optional;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/**
 * How contacts and components are written in files, logs and results: {@code over N014}, {@code
 * point P07}, {@code lower joint N014}, {@code via N014}, {@code upper pad N014}, {@code lower net
 * RING_TX}, {@code lower bridge N014 N015}, {@code upper hidden radio}, {@code probe over N014}.
 * Ids hold no white space; a function may. Stateless.
 */
public final class Names {

  private Names() {}

  /** Writes a contact. */
  public static String of(Contact contact) {
    if (contact instanceof Contact.Pad pad) {
      return lower(pad.plate()) + " " + pad.position();
    }
    if (contact instanceof Contact.Point point) {
      return "point " + point.point();
    }
    throw new IllegalArgumentException("unknown contact " + contact);
  }

  /** Writes a component. */
  public static String of(Component component) {
    if (component instanceof Component.Pad pad) {
      return lower(pad.side()) + " pad " + pad.position();
    }
    if (component instanceof Component.Joint joint) {
      return lower(joint.side()) + " joint " + joint.position();
    }
    if (component instanceof Component.Via via) {
      return "via " + via.position();
    }
    if (component instanceof Component.NetOf net) {
      return lower(net.net().side()) + " net " + net.net().name();
    }
    if (component instanceof Component.Bridge bridge) {
      return lower(bridge.side()) + " bridge " + bridge.a() + " " + bridge.b();
    }
    if (component instanceof Component.Hidden hidden) {
      return lower(hidden.side()) + " hidden " + hidden.function();
    }
    if (component instanceof Component.Probe probe) {
      return "probe " + of(probe.contact());
    }
    throw new IllegalArgumentException("unknown component " + component);
  }

  /** Reads a contact; empty when the text is none. */
  public static Optional<Contact> contact(String text) {
    String[] words = text.trim().split("\\s+", -1);
    if (words.length != 2) {
      return Optional.empty();
    }
    return switch (words[0]) {
      case "over" -> Optional.of(new Contact.Pad(Plate.OVER, words[1]));
      case "under" -> Optional.of(new Contact.Pad(Plate.UNDER, words[1]));
      case "point" -> Optional.of(new Contact.Point(words[1]));
      default -> Optional.empty();
    };
  }

  /** Reads a component; empty when the text is none. */
  public static Optional<Component> component(String text) {
    String[] words = text.trim().split("\\s+", 2);
    if (words.length < 2) {
      return Optional.empty();
    }
    return switch (words[0]) {
      case "via" ->
          words[1].contains(" ") ? Optional.empty() : Optional.of(new Component.Via(words[1]));
      case "probe" -> contact(words[1]).map(Component.Probe::new);
      case "upper" -> ofBoard(Side.UPPER, words[1]);
      case "lower" -> ofBoard(Side.LOWER, words[1]);
      default -> Optional.empty();
    };
  }

  private static Optional<Component> ofBoard(Side side, String text) {
    String[] words = text.split("\\s+", 2);
    if (words.length < 2) {
      return Optional.empty();
    }
    String rest = words[1];
    if (words[0].equals("hidden")) {
      return Optional.of(new Component.Hidden(side, rest));
    }
    String[] ids = rest.split("\\s+", -1);
    if (words[0].equals("bridge")) {
      return ids.length == 2 && !ids[0].equals(ids[1])
          ? Optional.of(Component.Bridge.between(side, ids[0], ids[1]))
          : Optional.empty();
    }
    if (ids.length != 1) {
      return Optional.empty();
    }
    return switch (words[0]) {
      case "pad" -> Optional.of(new Component.Pad(side, rest));
      case "joint" -> Optional.of(new Component.Joint(side, rest));
      case "net" -> Optional.of(new Component.NetOf(new NetId(side, rest)));
      default -> Optional.empty();
    };
  }

  private static String lower(Enum<?> constant) {
    return constant.name().toLowerCase(Locale.ROOT);
  }
}

package org.jointwalk.spice;

import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * What is in the fixture, and the fixture, as ngspice reads it: the conductors with their faults,
 * what hangs on the boards, a contact and two switches for each wired probe, and the source between
 * the node {@code fh}, the high bus, and 0, the low bus. The source is {@code vs} behind {@code
 * rint}, with {@code is} beside it; what drives the bus above {@code vtop} runs back through {@code
 * vback}.
 */
final class Deck {

  /** An open switch; the source when it is taken off. */
  static final double APART_OHMS = 1e11;

  /** Never 0: ngspice would make one milliohm of it without a word. */
  private static final double LEAST_OHMS = 1e-3;

  /** Ideality and series resistance of a silicon junction of unit area. */
  static final double IDEALITY = 1.05;

  static final double SERIES_OHMS = 6;

  /** How far joints and copper, loads, and the areas of junctions lie from those of their like. */
  private static final double COPPER_SPREAD = 0.2;

  private static final double LOAD_SPREAD = 0.03;
  private static final double DIE_SPREAD = 0.2;

  private final StringBuilder text = new StringBuilder();
  private final Map<String, String> nodes = new LinkedHashMap<>();
  private final Map<Contact, Integer> numbers = new LinkedHashMap<>();
  private final Map<Contact, String> touched = new LinkedHashMap<>();
  private final Map<Contact, Double> high = new LinkedHashMap<>();
  private final Map<Contact, Double> low = new LinkedHashMap<>();
  private final Handset handset;
  private final Spread parts;
  private int elements;

  /**
   * @param seating counted from 1; each has its own contacts
   */
  Deck(Handset handset, SetUp setUp, FixtureMap fixture, int seating) {
    this.handset = handset;
    this.parts = new Spread(handset.seed());
    text.append("* ").append(setUp.name()).append('\n');
    options();
    Copper copper = new Copper(handset.map(), handset.interposer(), setUp);
    copper.strips().forEach(this::lay);
    handset.map().loads().stream()
        .filter(load -> setUp.boards().contains(load.side()))
        .forEach(this::lay);
    handset.defects().conditions().forEach((c, wrong) -> add(c, wrong, setUp));
    wire(copper, fixture, new Spread(handset.seed() * 31 + seating));
    text.append("vs source 0 0\nrint source fh 1\nis 0 fh 0\n");
    text.append("vtop top 0 1000\nbtop fh back i = 10*uramp(v(fh)-v(top))\nvback back 0 0\n");
  }

  /**
   * Junctions of chip pins have the figures of common parts, from memory. Shunts hold what an open
   * fault leaves adrift; ten times larger ones drown in the rounding of a joint's two thousand
   * siemens, and the matrix is singular. With tighter tolerances, or less beside the junctions, the
   * same rounding keeps the solution from settling; these are far below any reading's own.
   */
  private void options() {
    text.append(
        String.format(
            Locale.ROOT,
            """
            .options rshunt=1e11 gmin=1e-9 reltol=1e-5 vntol=1e-7 itl1=500 temp=%.2f
            .model silicon d(is=2e-15 n=%.4g rs=%.4g)
            .model schottky d(is=5e-8 n=1.03 rs=4 eg=0.69 xti=2)
            """,
            handset.celsius(),
            IDEALITY,
            SERIES_OHMS));
  }

  private String node(String name) {
    return nodes.computeIfAbsent(name, k -> "n" + nodes.size());
  }

  private void resistor(String a, String b, double ohms) {
    element("r", a, b, String.format(Locale.ROOT, "%.9g", ohms));
  }

  private void element(String letter, String a, String b, String value) {
    text.append(letter).append('e').append(elements++);
    text.append(' ').append(node(a)).append(' ').append(node(b));
    text.append(' ').append(value).append('\n');
  }

  private void lay(Copper.Strip strip) {
    Optional<Condition> wrong = strip.component().flatMap(handset.defects()::of);
    String name = strip.a() + " to " + strip.b();
    double ohms = strip.ohms() * (1 + COPPER_SPREAD * parts.of(name));
    if (wrong.isEmpty()) {
      resistor(strip.a(), strip.b(), ohms);
    } else if (wrong.get() instanceof Condition.High more) {
      resistor(strip.a(), strip.b(), ohms + more.ohms().value());
    } else if (!(wrong.get() instanceof Condition.Open)) {
      throw new IllegalArgumentException(name + " cannot be " + wrong.get());
    }
  }

  private void lay(Load load) {
    String a = Copper.net(load.side(), load.from());
    String b = Copper.net(load.side(), load.to());
    double differs = parts.of("from " + a + " to " + b);
    double factor = 1 + LOAD_SPREAD * differs;
    if (load instanceof Load.Resistor resistor) {
      resistor(a, b, resistor.ohms().value() * factor);
    } else if (load instanceof Load.Inductor inductor) {
      resistor(a, b, inductor.ohms().value() * factor);
    } else if (load instanceof Load.Capacitor capacitor) {
      element("c", a, b, String.format(Locale.ROOT, "%.6g", capacitor.farads()));
    } else if (load instanceof Load.Junction junction) {
      String model = junction.material().name().toLowerCase(Locale.ROOT);
      element(
          "d", a, b, String.format(Locale.ROOT, "%s area=%.6f", model, 1 + DIE_SPREAD * differs));
    }
  }

  private void add(Component component, Condition wrong, SetUp setUp) {
    if (component instanceof Component.Bridge bridge && wrong instanceof Condition.Bridged by) {
      layBridge(bridge, by.ohms().value(), setUp);
    } else if (component instanceof Component.NetOf of) {
      if (setUp.boards().contains(of.net().side())) {
        layNet(of.net(), wrong);
      }
    }
  }

  /** Solder stays on the interposer while it is there, else on the board. */
  private void layBridge(Component.Bridge bridge, double ohms, SetUp setUp) {
    Side side = bridge.side();
    if (setUp.interposer()) {
      resistor(Copper.land(side, bridge.a()), Copper.land(side, bridge.b()), ohms);
    } else if (setUp.boards().contains(side)) {
      resistor(Copper.pad(side, bridge.a()), Copper.pad(side, bridge.b()), ohms);
    }
  }

  private void layNet(NetId net, Condition wrong) {
    if (wrong instanceof Condition.Shorted shorted) {
      resistor(Copper.net(net), Copper.net(net.side(), shorted.to()), shorted.ohms().value());
    } else if (wrong instanceof Condition.Charged charged) {
      String cell = "cell of " + net;
      element("v", cell, ground(net.side()), String.format(Locale.ROOT, "%.9g", charged.volts()));
      resistor(cell, Copper.net(net), charged.ohms().value());
    } else {
      throw new IllegalArgumentException(net + " cannot be " + wrong);
    }
  }

  private String ground(Side side) {
    PadMap map = handset.map();
    return map.nets().values().stream()
        .filter(n -> n.role() == Role.GROUND && n.id().side() == side)
        .map(n -> Copper.net(n.id()))
        .findFirst()
        .orElseThrow();
  }

  private void wire(Copper copper, FixtureMap fixture, Spread seat) {
    Capabilities can = fixture.capabilities();
    Spread switches = new Spread(1);
    for (Channel channel : fixture.channels()) {
      Contact contact = channel.contact();
      String tip = copper.tips().get(contact);
      if (tip == null || channel.use() != Channel.Use.FORCE) {
        continue;
      }
      int k = numbers.size();
      numbers.put(contact, k);
      touched.put(contact, node(tip));
      double sd = can.path().sd().value();
      high.put(contact, switched(can.path().highOhms().value(), sd * switches.of("high " + k)));
      low.put(contact, switched(can.path().lowOhms().value(), sd * switches.of("low " + k)));
      double ohms =
          switched(
              can.probes().typical().value(), can.probes().sd().value() * seat.of("probe " + k));
      text.append(String.format(Locale.ROOT, "rc%d c%d %s %.9g\n", k, k, node(tip), ohms));
      text.append(String.format(Locale.ROOT, "rh%d fh c%d %g\n", k, k, APART_OHMS));
      text.append(String.format(Locale.ROOT, "rl%d 0 c%d %g\n", k, k, APART_OHMS));
    }
  }

  private static double switched(double typical, double more) {
    return Math.max(typical + more, LEAST_OHMS);
  }

  /** All of it but the orders. */
  String circuit() {
    return text.toString();
  }

  /** The resistor that joins a contact to a bus, and what it measures when it is closed. */
  String closing(Contact contact, boolean toHigh) {
    return String.format(
        Locale.ROOT, "%s = %.9g", name(contact, toHigh), of(toHigh ? high : low, contact));
  }

  /** The same resistor, open. */
  String opening(Contact contact, boolean toHigh) {
    return String.format(Locale.ROOT, "%s = %g", name(contact, toHigh), APART_OHMS);
  }

  private String name(Contact contact, boolean toHigh) {
    return (toHigh ? "rh" : "rl") + of(numbers, contact);
  }

  /** The node behind a probe, where its wires join. */
  String behind(Contact contact) {
    return "c" + of(numbers, contact);
  }

  /** The node under a probe. */
  String under(Contact contact) {
    return of(touched, contact);
  }

  private static <T> T of(Map<Contact, T> values, Contact contact) {
    T value = values.get(contact);
    if (value == null) {
      throw new IllegalArgumentException(contact + " is not wired or touches nothing");
    }
    return value;
  }
}

package org.jointwalk.saltmarsh;

import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.random.RandomGenerator;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * Broken stacks at random. Rates and values are assumptions of what drops, bends, water and irons
 * do; joints break most, each kind of fault occurs often enough to be met in a few hundred stacks.
 */
public final class Specimens {

  /** The most faults that a random stack has. */
  public static final int MOST_FAULTS = 12;

  /** Reach of a bridge: the eight nearest positions. */
  private static final double BRIDGE_MM = 1.5 * Ring.PITCH_MM;

  /** Kinds of fault with how often they occur, in parts of all weights together. */
  private enum Fault {
    JOINT_OPEN(30),
    JOINT_HIGH(18),
    JOINT_COMES_AND_GOES(8),
    PAD_TORN(10),
    PAD_HIGH(4),
    VIA_OPEN(4),
    VIA_HIGH(2),
    SOLDER_BRIDGE(8),
    RESIDUE(4),
    NET_SHORTED(4),
    NET_ABNORMAL(4),
    NET_CUT_OFF(2),
    HIDDEN_DEAD(4);

    private final int weight;

    Fault(int weight) {
      this.weight = weight;
    }

    private static Fault draw(RandomGenerator random) {
      int sum = 0;
      for (Fault fault : values()) {
        sum += fault.weight;
      }
      int at = random.nextInt(sum);
      for (Fault fault : values()) {
        at -= fault.weight;
        if (at < 0) {
          return fault;
        }
      }
      return JOINT_OPEN;
    }
  }

  private final PadMap map;
  private final RandomGenerator random;
  private final List<Position> everywhere;
  private final List<Position> hit;

  private Specimens(PadMap map, RandomGenerator random) {
    this.map = map;
    this.random = random;
    everywhere = List.copyOf(map.positions().values());
    double pattern = random.nextDouble();
    if (pattern < 0.3) {
      hit = aroundOnePlace();
    } else if (pattern < 0.6) {
      hit = alongOneSide();
    } else {
      hit = everywhere;
    }
  }

  private List<Position> aroundOnePlace() {
    Position centre = everywhere.get(random.nextInt(everywhere.size()));
    return everywhere.stream()
        .sorted(Comparator.comparingDouble(centre::distanceMm))
        .limit(20)
        .toList();
  }

  private List<Position> alongOneSide() {
    boolean across = random.nextBoolean();
    double sign = random.nextBoolean() ? 1 : -1;
    ToDoubleFunction<Position> depth = p -> sign * (across ? p.xMm() : p.yMm());
    double edge = everywhere.stream().mapToDouble(depth).min().orElse(0);
    return everywhere.stream()
        .filter(p -> depth.applyAsDouble(p) - edge < 2.5 * Ring.PITCH_MM)
        .toList();
  }

  /** A stack with 0 to {@value #MOST_FAULTS} faults; everything follows from the seed. */
  public static Specimen broken(PadMap map, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    return stack(map, seed, defects(map, random.nextInt(MOST_FAULTS + 1), random));
  }

  /** A sound stack; dies, good joints and contacts follow from the seed. */
  public static Specimen good(PadMap map, long seed) {
    return stack(map, seed, Defects.NONE);
  }

  /** A stack of the usual variant with these faults, nothing going wrong later. */
  public static Specimen stack(PadMap map, long seed, Defects defects) {
    return new Specimen(map.interposers().get(0).variant(), seed, defects, List.of(), List.of());
  }

  /**
   * So many faults: in three of ten stacks most of them around one place, in three along one side,
   * else all over the ring. No component has two.
   */
  public static Defects defects(PadMap map, int faults, RandomGenerator random) {
    return defects(map, faults, random, component -> true);
  }

  /** So many faults, spread in the same way, of what a set-up has in the fixture. */
  public static Defects defects(PadMap map, SetUp setUp, int faults, RandomGenerator random) {
    return defects(map, faults, random, component -> isIn(setUp, component));
  }

  private static Defects defects(
      PadMap map, int faults, RandomGenerator random, Predicate<Component> there) {
    Specimens drawn = new Specimens(map, random);
    Defects defects = Defects.NONE;
    while (defects.conditions().size() < faults) {
      Defects next = drawn.withOneMore(defects, Fault.draw(random));
      if (next.conditions().keySet().stream().allMatch(there)) {
        defects = next;
      }
    }
    return defects;
  }

  private static boolean isIn(SetUp setUp, Component component) {
    if (component instanceof Component.Pad pad) {
      return setUp.boards().contains(pad.side());
    }
    if (component instanceof Component.Joint joint) {
      return setUp.joints().contains(joint.side());
    }
    if (component instanceof Component.NetOf net) {
      return setUp.boards().contains(net.net().side());
    }
    if (component instanceof Component.Hidden hidden) {
      return setUp.boards().contains(hidden.side());
    }
    if (component instanceof Component.Bridge bridge) {
      return setUp.interposer() || setUp.boards().contains(bridge.side());
    }
    return setUp.interposer();
  }

  /** One rail of one board that still carries up to its nominal voltage; no pass may go on. */
  public static Defects charged(PadMap map, RandomGenerator random) {
    List<Net> rails =
        map.nets().values().stream()
            .filter(net -> net.role() == Role.RAIL && net.nominal().isPresent())
            .toList();
    Net rail = rails.get(random.nextInt(rails.size()));
    double nominal = rail.nominal().orElseThrow().value();
    double volts = Figures.round(random.nextDouble(0.2, nominal), 2);
    return Defects.NONE.with(
        new Component.NetOf(rail.id()),
        new Condition.Charged(volts, new Ohms(Figures.round(random.nextDouble(1, 300), 2))));
  }

  /** So many bad probes of a fixture: dirty, or not landing ever or now and then. */
  public static Defects badProbes(PadMap map, int probes, RandomGenerator random) {
    List<String> ids = List.copyOf(map.positions().keySet());
    Defects defects = Defects.NONE;
    while (defects.conditions().size() < Math.min(probes, ids.size())) {
      Plate plate = random.nextBoolean() ? Plate.OVER : Plate.UNDER;
      Contact contact = new Contact.Pad(plate, ids.get(random.nextInt(ids.size())));
      Ohms dirt = new Ohms(Figures.round(0.3 * Math.exp(1.2 * random.nextGaussian()), 2));
      Condition condition =
          switch (random.nextInt(3)) {
            case 0 -> new Condition.Open();
            case 1 -> new Condition.TwoState(dirt, 0.5);
            default -> new Condition.High(dirt);
          };
      defects = add(defects, new Component.Probe(contact), condition);
    }
    return defects;
  }

  private Defects withOneMore(Defects defects, Fault fault) {
    Side side = random.nextBoolean() ? Side.UPPER : Side.LOWER;
    String at = place().id();
    return switch (fault) {
      case JOINT_OPEN -> add(defects, new Component.Joint(side, at), new Condition.Open());
      case JOINT_HIGH -> add(defects, new Component.Joint(side, at), crack());
      case JOINT_COMES_AND_GOES ->
          add(
              defects,
              new Component.Joint(side, at),
              new Condition.TwoState(
                  new Ohms(Figures.round(random.nextDouble(0.005, 0.3), 2)),
                  Figures.round(random.nextDouble(0.2, 0.9), 2)));
      case PAD_TORN -> add(defects, new Component.Pad(side, at), new Condition.Open());
      case PAD_HIGH -> add(defects, new Component.Pad(side, at), crack());
      case VIA_OPEN -> add(defects, new Component.Via(at), new Condition.Open());
      case VIA_HIGH -> add(defects, new Component.Via(at), crack());
      case SOLDER_BRIDGE -> bridged(defects, side, at, -2.3, -1.3);
      case RESIDUE -> bridged(defects, side, at, 4, 8);
      case NET_SHORTED -> shorted(defects, side, at);
      case NET_ABNORMAL -> abnormal(defects, side, at);
      case NET_CUT_OFF -> cutOff(defects, side, at);
      case HIDDEN_DEAD -> hidden(defects, side);
    };
  }

  /** A cracked joint: half of them below 0.2 ohm, one in fifteen above 2. */
  private Condition crack() {
    double ohms = 0.2 * Math.exp(1.5 * random.nextGaussian());
    return new Condition.High(new Ohms(Figures.round(Math.max(0.02, Math.min(500, ohms)), 2)));
  }

  private Defects bridged(
      Defects defects, Side side, String at, double lowestDecade, double highestDecade) {
    Position from = map.position(at);
    List<Position> partners =
        map.positions().values().stream()
            .filter(other -> !other.net(side).equals(from.net(side)))
            .filter(other -> other.distanceMm(from) < BRIDGE_MM)
            .toList();
    if (partners.isEmpty()) {
      return defects;
    }
    String to = partners.get(random.nextInt(partners.size())).id();
    double ohms = Math.pow(10, random.nextDouble(lowestDecade, highestDecade));
    return add(
        defects,
        Component.Bridge.between(side, at, to),
        new Condition.Bridged(new Ohms(Figures.round(ohms, 2))));
  }

  private Defects shorted(Defects defects, Side side, String at) {
    NetId ground = new NetId(side, Ring.GROUND);
    NetId net = map.position(at).net(side);
    if (net.equals(ground) || map.net(net).role() == Role.UNUSED) {
      return defects;
    }
    double ohms = Math.pow(10, random.nextDouble(-1.3, 1.3));
    return add(
        defects,
        new Component.NetOf(net),
        new Condition.Shorted(ground.name(), new Ohms(Figures.round(ohms, 2))));
  }

  private Defects abnormal(Defects defects, Side side, String at) {
    Net net = map.netAt(at, side);
    if (net.role() == Role.GROUND || !net.dcPath()) {
      return defects;
    }
    double factor = random.nextBoolean() ? random.nextDouble(0.1, 0.5) : random.nextDouble(2, 8);
    return add(
        defects, new Component.NetOf(net.id()), new Condition.Abnormal(Figures.round(factor, 2)));
  }

  /** What hung on the net came off, as a chip does whose balls let go. */
  private Defects cutOff(Defects defects, Side side, String at) {
    Net net = map.netAt(at, side);
    return net.role() == Role.SIGNAL && net.dcPath()
        ? add(defects, new Component.NetOf(net.id()), new Condition.Open())
        : defects;
  }

  private Defects hidden(Defects defects, Side side) {
    List<String> functions = List.copyOf(map.functions());
    return add(
        defects,
        new Component.Hidden(side, functions.get(random.nextInt(functions.size()))),
        new Condition.Dead());
  }

  private static Defects add(Defects defects, Component component, Condition condition) {
    return defects.of(component).isPresent() ? defects : defects.with(component, condition);
  }

  private Position place() {
    List<Position> among = random.nextDouble() < 0.85 ? hit : everywhere;
    return among.get(random.nextInt(among.size()));
  }
}

package org.jointwalk.trial;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;

/**
 * A pad map for a test, written down position by position. Both boards name their nets alike unless
 * said otherwise; positions stand in a row, one millimetre apart, unless said otherwise. Not
 * thread-safe.
 */
public final class SmallMap {

  /** Resistance of a good via of these maps, in ohm. */
  public static final double VIA_OHMS = 0.001;

  private final Map<String, Position> positions = new LinkedHashMap<>();
  private final Map<NetId, Net> nets = new LinkedHashMap<>();
  private final List<Load> loads = new ArrayList<>();
  private final Map<String, AccessPoint> points = new LinkedHashMap<>();
  private final List<Tie> ties = new ArrayList<>();
  private final List<Reference> references = new ArrayList<>();
  private Limits limits = new Limits(new Ohms(2), new Ohms(0.5), Map.of());

  /** A net on both boards, with a way to ground. */
  public SmallMap net(String name, Role role) {
    return net(name, role, "unknown", 0, true);
  }

  /**
   * A net on both boards.
   *
   * @param volts nominal voltage, 0 when nobody knows
   */
  public SmallMap net(String name, Role role, String function, double volts, boolean dcPath) {
    for (Side side : Side.values()) {
      NetId id = new NetId(side, name);
      Optional<Volts> nominal = volts > 0 ? Optional.of(new Volts(volts)) : Optional.empty();
      nets.put(id, new Net(id, role, function, nominal, dcPath, new Ohms(0.002)));
    }
    return this;
  }

  /** The next position of the row. */
  public SmallMap pad(String id, String net) {
    return pad(id, net, net);
  }

  /** The next position of the row, on nets of different names. */
  public SmallMap pad(String id, String upperNet, String lowerNet) {
    return at(id, positions.size(), 0, upperNet, lowerNet);
  }

  /** A position anywhere, in millimetres. */
  public SmallMap at(String id, double x, double y, String upperNet, String lowerNet) {
    positions.put(id, new Position(id, x, y, upperNet, lowerNet));
    return this;
  }

  /** Lands that the interposer joins through a milliohm each. */
  public SmallMap tie(Tie.Where where, String... ids) {
    ties.add(new Tie(where, List.of(ids), new Ohms(0.001)));
    return this;
  }

  /** A load of one board. */
  public SmallMap load(Load load) {
    loads.add(load);
    return this;
  }

  /** A resistance between two nets of the lower board. */
  public SmallMap resistor(String from, String to, double ohms) {
    return load(new Load.Resistor(Side.LOWER, from, to, new Ohms(ohms)));
  }

  /** An access point. */
  public SmallMap point(String id, Side side, String net) {
    points.put(id, new AccessPoint(id, new NetId(side, net), "somewhere"));
    return this;
  }

  /** Limits by role; 2 ohm and 0.5 ohm when nothing is said. */
  public SmallMap limits(double signal, double power) {
    return limits(new Limits(new Ohms(signal), new Ohms(power), Map.of()));
  }

  /** Limits with exceptions. */
  public SmallMap limits(Limits others) {
    limits = others;
    return this;
  }

  /** A known-good reading. */
  public SmallMap reference(Reference reference) {
    references.add(reference);
    return this;
  }

  /** The map. */
  public PadMap map() {
    return new PadMap(
        "Test ring",
        "1",
        Map.of(Side.UPPER, "radio board", Side.LOWER, "main board"),
        List.of(new Interposer("plain", 1.0, false, new Ohms(VIA_OHMS), ties)),
        positions,
        nets,
        loads,
        points,
        limits,
        references);
  }

  /** The map in a set-up. */
  public Assembly in(String setUp) {
    return assembly(map(), setUp);
  }

  /** A map's first variant in a set-up. */
  public static Assembly assembly(PadMap map, String setUp) {
    return new Assembly(map, map.interposers().get(0), SetUp.named(setUp).orElseThrow());
  }
}

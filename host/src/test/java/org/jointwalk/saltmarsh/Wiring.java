package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;

/**
 * What hangs on the nets of each board. Values are those of a typical part, drawn once from a seed
 * and rounded to what a parts list would say.
 */
final class Wiring {

  /** Every so many singles, one has its part on one board only. */
  private static final int ONE_BOARD_ONLY = 17;

  private final SplittableRandom random;
  private final List<Draft> drafts;
  private final Map<NetId, Net> nets = new LinkedHashMap<>();
  private final List<Load> loads = new ArrayList<>();

  Wiring(List<Draft> drafts, long seed) {
    this.drafts = drafts;
    this.random = new SplittableRandom(seed);
    for (Side side : Side.values()) {
      int singles = 0;
      for (Draft draft : drafts) {
        boolean bare = false;
        if (draft.kind() == Draft.Kind.SINGLE) {
          int turn = singles++ % (2 * ONE_BOARD_ONLY);
          bare = turn == (side == Side.UPPER ? ONE_BOARD_ONLY - 1 : 2 * ONE_BOARD_ONLY - 1);
        }
        layNets(draft, side, bare);
      }
      layBodyDiodes(side);
    }
  }

  private void layNets(Draft draft, Side side, boolean bare) {
    Optional<Draft> supply = supply(draft);
    double volts = draft.kind() == Draft.Kind.RAIL ? draft.volts() : 0;
    if (draft.role() == Role.SIGNAL && !draft.function().equals("unknown")) {
      volts = supply.map(Draft::volts).orElse(1.8);
    }
    boolean dcPath =
        !bare && draft.kind() != Draft.Kind.BLOCKED && draft.kind() != Draft.Kind.SPARE;
    List<NetId> ids = new ArrayList<>(List.of(draft.net(side, 0)));
    if (draft.partedOn(side)) {
      ids.add(draft.net(side, draft.pads() - 1));
    }
    for (NetId id : ids) {
      Optional<Volts> nominal = volts > 0 ? Optional.of(new Volts(volts)) : Optional.empty();
      nets.put(id, new Net(id, draft.role(), draft.function(), nominal, dcPath, trace(draft)));
      switch (draft.kind()) {
        case RAIL -> loadRail(draft, id);
        case PAIR, SINGLE -> {
          if (dcPath) {
            loadSignal(draft, id, supply.map(rail -> rail.net(side, 0).name()));
          }
        }
        case BLOCKED -> {
          String chip = id.name() + "_CHIP";
          loads.add(new Load.Capacitor(side, id.name(), chip, pick(22e-12, 47e-12, 100e-12)));
          loads.add(new Load.Junction(side, Ring.GROUND, chip, Load.Material.SILICON));
        }
        case GROUND, SPARE -> {}
      }
    }
  }

  /** Copper from a pad to where its net's pads meet: planes, then wide traces, then thin ones. */
  private Ohms trace(Draft draft) {
    return switch (draft.kind()) {
      case GROUND -> new Ohms(0.0005);
      case RAIL -> new Ohms(Figures.round(random.nextDouble(0.002, 0.006), 1));
      case PAIR -> new Ohms(Figures.round(random.nextDouble(0.01, 0.03), 2));
      case SINGLE, BLOCKED -> new Ohms(Figures.round(random.nextDouble(0.02, 0.12), 2));
      case SPARE -> new Ohms(0);
    };
  }

  private void loadRail(Draft rail, NetId id) {
    double ohms = rail.ohms() * Math.exp(random.nextDouble(-0.7, 0.7));
    double bounded = Figures.round(Math.max(2, Math.min(100_000, ohms)), 2);
    loads.add(new Load.Resistor(id.side(), id.name(), Ring.GROUND, new Ohms(bounded)));
    loads.add(
        new Load.Capacitor(id.side(), id.name(), Ring.GROUND, pick(1e-6, 4.7e-6, 10e-6, 22e-6)));
    loads.add(new Load.Junction(id.side(), Ring.GROUND, id.name(), Load.Material.SILICON));
  }

  private void loadSignal(Draft draft, NetId id, Optional<String> rail) {
    Side side = id.side();
    String chip = id.name();
    double between = random.nextDouble();
    if (between < 0.22) {
      chip = id.name() + "_CHIP";
      loads.add(new Load.Resistor(side, id.name(), chip, new Ohms(pick(22, 33, 47))));
    } else if (between < 0.30) {
      chip = id.name() + "_CHIP";
      loads.add(new Load.Inductor(side, id.name(), chip, new Ohms(pick(0.2, 0.35, 0.6))));
    }
    boolean schottky = draft.function().equals("charge") && random.nextDouble() < 0.35;
    loads.add(
        new Load.Junction(
            side, Ring.GROUND, chip, schottky ? Load.Material.SCHOTTKY : Load.Material.SILICON));
    if (rail.isPresent() && random.nextDouble() < 0.65) {
      loads.add(new Load.Junction(side, chip, rail.get(), Load.Material.SILICON));
    }
    // The small currents that radio and positioning bear would all run through a pull-up.
    boolean delicate = List.of("radio", "positioning").contains(draft.function());
    if (rail.isPresent() && !delicate && random.nextDouble() < 0.15) {
      loads.add(new Load.Resistor(side, id.name(), rail.get(), new Ohms(10_000)));
    }
    if (random.nextDouble() < 0.2) {
      loads.add(
          new Load.Capacitor(side, id.name(), Ring.GROUND, pick(10e-12, 33e-12, 100e-12, 1e-9)));
    }
    if (draft.function().equals("unknown") && random.nextDouble() < 0.2) {
      loads.add(new Load.Unknown(side, id.name(), Ring.GROUND));
    }
  }

  /** Where one rail is made from another, the switch between them conducts backwards. */
  private void layBodyDiodes(Side side) {
    List<Draft> rails = drafts.stream().filter(draft -> draft.kind() == Draft.Kind.RAIL).toList();
    for (int i = side == Side.UPPER ? 0 : 1; i < rails.size(); i += 2) {
      Draft low = rails.get(i);
      rails.stream()
          .filter(high -> high.volts() > low.volts() + 0.5)
          .findFirst()
          .ifPresent(
              high ->
                  loads.add(
                      new Load.Junction(
                          side,
                          low.net(side, 0).name(),
                          high.net(side, 0).name(),
                          Load.Material.SILICON)));
    }
  }

  /** The rail that feeds a signal: one of its function, high enough for a junction to be read. */
  private Optional<Draft> supply(Draft draft) {
    if (draft.role() != Role.SIGNAL) {
      return Optional.empty();
    }
    List<Draft> fit =
        drafts.stream()
            .filter(rail -> rail.kind() == Draft.Kind.RAIL && rail.volts() >= 1.2)
            .toList();
    List<Draft> own =
        fit.stream().filter(rail -> rail.function().equals(draft.function())).toList();
    List<Draft> among = own.isEmpty() ? fit : own;
    return among.isEmpty()
        ? Optional.empty()
        : Optional.of(among.get(Math.floorMod(draft.name().hashCode(), among.size())));
  }

  private double pick(double... values) {
    return values[random.nextInt(values.length)];
  }

  /** The nets of both boards, the upper first. */
  Map<NetId, Net> nets() {
    return nets;
  }

  /** The loads of both boards, the upper first. */
  List<Load> loads() {
    return List.copyOf(loads);
  }
}

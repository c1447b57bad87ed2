package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jointwalk.stack.AccessPoint;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SaltmarshS2Test {

  private final PadMap map = SaltmarshS2.unlearned();

  @Test
  void ringHas420PositionsNumberedRoundIt() {
    List<String> ids = List.copyOf(map.positions().keySet());

    assertThat(ids).hasSize(420).startsWith("N001", "N002").endsWith("N419", "N420");
  }

  @Test
  void positionsAreSharedOutAsADesignerWould() {
    assertThat(positions(Side.UPPER, net -> net.role() == Role.GROUND)).isEqualTo(147);
    assertThat(positions(Side.UPPER, net -> net.role() == Role.RAIL)).isEqualTo(63);
    assertThat(positions(Side.UPPER, net -> net.role() == Role.UNUSED)).isEqualTo(21);
    assertThat(positions(Side.UPPER, net -> isSignal(net) && pads(net) == 2)).isEqualTo(34);
    assertThat(positions(Side.UPPER, net -> isSignal(net) && pads(net) == 1)).isEqualTo(155);
  }

  @Test
  void railsHaveTwoToEightPadsAndVoltagesUpTo4400Millivolt() {
    List<Net> rails = nets(Side.UPPER, net -> net.role() == Role.RAIL);

    assertThat(rails).hasSize(16).allMatch(rail -> pads(rail) >= 2 && pads(rail) <= 8);
    assertThat(rails.stream().map(rail -> rail.nominal().orElseThrow().value()))
        .allMatch(volts -> volts >= 0.8 && volts <= 4.4)
        .contains(0.8, 4.4);
    assertThat(
            rails.stream()
                .mapToDouble(rail -> lowVoltageOhms(rail.id()))
                .allMatch(ohms -> ohms >= 2 && ohms <= 100_000))
        .isTrue();
  }

  @ParameterizedTest
  @EnumSource(Side.class)
  void seventeenSignalsAreBehindACapacitorAndFourHaveTheirPartOnTheOtherBoard(Side side) {
    List<Net> blocked = nets(side, net -> isSignal(net) && !net.dcPath());

    long behindCapacitor =
        blocked.stream()
            .filter(net -> loadsAt(net.id()).anyMatch(load -> load instanceof Load.Capacitor))
            .count();
    List<Net> bare = blocked.stream().filter(net -> loadsAt(net.id()).count() == 0).toList();

    assertThat(behindCapacitor).isEqualTo(17);
    assertThat(bare).hasSize(4).hasSize(blocked.size() - 17);
    assertThat(bare).allMatch(net -> map.net(new NetId(side.other(), net.id().name())).dcPath());
  }

  @ParameterizedTest
  @EnumSource(Side.class)
  void everySignalWithADirectPathHasAJunctionFromGround(Side side) {
    for (Net net : nets(side, net -> isSignal(net) && net.dcPath())) {
      Set<String> near = new HashSet<>(Set.of(net.id().name()));
      loadsAt(net.id())
          .filter(load -> load instanceof Load.Resistor || load instanceof Load.Inductor)
          .forEach(load -> near.add(load.to()));

      assertThat(map.loads())
          .as(net.id().name())
          .anyMatch(
              load ->
                  load instanceof Load.Junction
                      && load.side() == side
                      && load.from().equals(Ring.GROUND)
                      && near.contains(load.to()));
    }
  }

  @Test
  void linesOfABusLieSideBySide() {
    for (String bus : List.of("PERCH_X", "BEACON_D", "FLOCK_D", "ROAM_CTL", "STARS_D")) {
      List<Position> lines =
          map.positions().values().stream().filter(p -> p.upperNet().matches(bus + "\\d")).toList();

      assertThat(lines).hasSizeGreaterThan(3);
      for (int i = 1; i < lines.size(); i++) {
        assertThat(lines.get(i).distanceMm(lines.get(i - 1))).isLessThan(3.5 * Ring.PITCH_MM);
      }
    }
  }

  @Test
  void boardsDoNotTieTheSamePads() {
    assertThat(map.nets())
        .containsKeys(
            new NetId(Side.UPPER, "RAIL_QUILL"),
            new NetId(Side.LOWER, "RAIL_QUILL_A"),
            new NetId(Side.LOWER, "RAIL_QUILL_B"),
            new NetId(Side.UPPER, "TAIL_FEED"),
            new NetId(Side.LOWER, "TAIL_FEED_A"),
            new NetId(Side.LOWER, "TAIL_FEED_B"))
        .doesNotContainKeys(
            new NetId(Side.LOWER, "RAIL_QUILL"), new NetId(Side.LOWER, "TAIL_FEED"));
  }

  @Test
  void variantsDifferInThicknessAndArcsAndLeaveSomeGroundSingly() {
    Interposer thin = map.interposers().get(0);
    Interposer thick = map.interposers().get(1);

    assertThat(thin.thicknessMm()).isLessThan(thick.thicknessMm());
    assertThat(thick.mirrored()).isTrue();
    assertThat(thin.ties()).isNotEqualTo(thick.ties());
    for (Interposer variant : map.interposers()) {
      assertThat(variant.ties()).hasSize(2).allMatch(tie -> tie.where() == Tie.Where.EDGE);
      List<String> tied = variant.ties().stream().flatMap(tie -> tie.positions().stream()).toList();
      assertThat(tied)
          .doesNotHaveDuplicates()
          .allMatch(id -> map.netAt(id, Side.UPPER).role() == Role.GROUND);
      assertThat(147 - tied.size()).isBetween(40, 60);
    }
  }

  @Test
  void twentyPointsOfEachBoardReachGroundRailsAndSignals() {
    for (Side side : Side.values()) {
      Map<Role, Integer> roles = new EnumMap<>(Role.class);
      for (AccessPoint point : map.points().values()) {
        if (point.net().side() == side) {
          roles.merge(map.net(point.net()).role(), 1, Integer::sum);
        }
      }
      assertThat(roles)
          .containsExactlyInAnyOrderEntriesOf(
              Map.of(Role.GROUND, 3, Role.RAIL, 10, Role.SIGNAL, 7));
    }
    assertThat(map.points().values().stream().map(AccessPoint::place)).doesNotHaveDuplicates();
  }

  @Test
  void functionsAreThoseACustomerNames() {
    assertThat(map.functions())
        .containsExactlyInAnyOrder("radio", "positioning", "touch", "charge", "audio", "start-up");
  }

  @Test
  void idsHoldNoWhiteSpaceAndNamesAreOnePerNet() {
    List<String> ids = new ArrayList<>(map.positions().keySet());
    ids.addAll(map.points().keySet());
    map.nets().keySet().forEach(id -> ids.add(id.name()));
    map.loads().forEach(load -> ids.addAll(List.of(load.from(), load.to())));

    assertThat(ids).allMatch(id -> id.matches("[A-Z][A-Z0-9_]*"));
  }

  private boolean isSignal(Net net) {
    return net.role() == Role.SIGNAL;
  }

  private int pads(Net net) {
    return map.padsByNet(net.id().side()).getOrDefault(net.id(), List.of()).size();
  }

  private long positions(Side side, Predicate<Net> wanted) {
    return map.positions().keySet().stream().filter(id -> wanted.test(map.netAt(id, side))).count();
  }

  private List<Net> nets(Side side, Predicate<Net> wanted) {
    return map.nets().values().stream()
        .filter(net -> net.id().side() == side && wanted.test(net))
        .toList();
  }

  private Stream<Load> loadsAt(NetId id) {
    return map.loads().stream()
        .filter(load -> load.side() == id.side())
        .filter(load -> load.from().equals(id.name()) || load.to().equals(id.name()));
  }

  private double lowVoltageOhms(NetId rail) {
    Map<String, Double> ohms = new LinkedHashMap<>();
    loadsAt(rail)
        .filter(load -> load.from().equals(rail.name()) && load.to().equals(Ring.GROUND))
        .forEach(
            load -> {
              if (load instanceof Load.Resistor resistor) {
                ohms.put(load.from(), resistor.ohms().value());
              }
            });
    return ohms.getOrDefault(rail.name(), 0.0);
  }
}

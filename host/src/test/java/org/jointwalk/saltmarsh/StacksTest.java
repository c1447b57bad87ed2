package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.jointwalk.stack.Specimen.Trouble;
import org.junit.jupiter.api.Test;

class StacksTest {

  private final PadMap map = SaltmarshS2.unlearned();
  private final Specimen dropped = Stacks.dropped();

  @Test
  void dropLeavesSevenPositionsWithoutAPathAndOneWeakAllOnTheLowerSide() {
    List<Component> open = new ArrayList<>();
    List<Component> high = new ArrayList<>();
    dropped
        .defects()
        .conditions()
        .forEach(
            (component, condition) ->
                (condition instanceof Condition.Open ? open : high).add(component));

    assertThat(open).hasSize(7).filteredOn(c -> c instanceof Component.Joint).hasSize(6);
    assertThat(open).contains(new Component.Pad(Side.LOWER, Stacks.TORN));
    assertThat(high).containsExactly(new Component.Joint(Side.LOWER, Stacks.WEAK));
    assertThat(broken()).doesNotHaveDuplicates().hasSize(8);
    assertThat(open)
        .filteredOn(c -> c instanceof Component.Joint joint && joint.side() == Side.UPPER)
        .isEmpty();
  }

  @Test
  void dropStruckOneCornerAndTookTheRadio() {
    List<Position> struck = broken().stream().map(map::position).toList();

    for (Position a : struck) {
      for (Position b : struck) {
        assertThat(a.distanceMm(b)).isLessThan(5.0);
      }
    }
    assertThat(struck.stream().mapToDouble(Position::xMm).max().orElseThrow())
        .isEqualTo(map.positions().values().stream().mapToDouble(Position::xMm).max().orElse(0));
    assertThat(broken())
        .filteredOn(id -> map.netAt(id, Side.LOWER).function().equals("radio"))
        .hasSizeGreaterThanOrEqualTo(3);
  }

  @Test
  void everyFaultOfTheDropIsJudgedByItself() {
    Assembly assembly = onLower(dropped);
    List<String> all = new ArrayList<>(broken());
    all.addAll(Stacks.MISSED);

    for (String id : all) {
      Component joint = new Component.Joint(Side.LOWER, id);
      Net net = map.netAt(id, Side.LOWER);
      List<String> mates = map.padsByNet(Side.LOWER).getOrDefault(net.id(), List.of());
      assertThat(assembly.inBranches(id)).as(id).contains(joint);
      assertThat(net.dcPath()).as(id).isTrue();
      assertThat(net.role()).as(id).isIn(Role.SIGNAL, Role.RAIL);
      if (mates.size() == 2) {
        assertThat(mates).as("the pair of " + id).filteredOn(all::contains).containsExactly(id);
      }
      if (mates.size() > 2) {
        assertThat(mates).as(id).filteredOn(mate -> !all.contains(mate)).hasSizeGreaterThan(2);
      }
    }
  }

  @Test
  void weakJointIsFarAboveItsLimitAndWithinReachOfTwoWires() {
    Net net = map.netAt(Stacks.WEAK, Side.LOWER);
    Condition condition =
        dropped.defects().of(new Component.Joint(Side.LOWER, Stacks.WEAK)).orElseThrow();

    assertThat(net.role()).isEqualTo(Role.RAIL);
    assertThat(condition)
        .isInstanceOfSatisfying(
            Condition.High.class, high -> assertThat(high.ohms().value()).isBetween(3.0, 6.0));
    assertThat(map.limit(Stacks.WEAK, Side.LOWER).value()).isEqualTo(0.5);
  }

  @Test
  void twoSoundPositionsAreMissedInTheSecondSeatingOnly() {
    assertThat(dropped.troubles())
        .containsExactlyInAnyOrderElementsOf(
            Stacks.MISSED.stream()
                .map(id -> new Trouble.Missed(new Contact.Pad(Plate.OVER, id), 2))
                .toList());
    assertThat(broken()).doesNotContainAnyElementsOf(Stacks.MISSED);
    assertThat(onLower(dropped).contacts())
        .containsAll(
            Stacks.MISSED.stream().map(id -> (Contact) new Contact.Pad(Plate.OVER, id)).toList());
  }

  @Test
  void repairGoesFromTheSplitToAClosedRow() {
    Attachment attachment = Attachment.BOTH;
    List<Attachment> after = new ArrayList<>();
    for (Action action : Stacks.actionsOnDropped()) {
      attachment = action.after(attachment);
      after.add(attachment);
    }

    assertThat(after)
        .containsExactly(
            Attachment.LOWER, Attachment.NONE, Attachment.NONE, Attachment.LOWER, Attachment.LOWER);
    assertThat(SetUp.named("interposer-on-lower").orElseThrow().possible())
        .contains(after.get(0), after.get(3));
  }

  @Test
  void firstReballLeavesOneJointOpenAndJoinsTwoNeighboursTheSecondCuresThem() {
    Specimen.Outcome first = dropped.outcomes().get(0);
    Specimen.Outcome second = dropped.outcomes().get(1);
    Position a = map.position(Stacks.TOO_MUCH_SOLDER.a());
    Position b = map.position(Stacks.TOO_MUCH_SOLDER.b());

    assertThat(first.action()).isEqualTo(4);
    assertThat(first.adds().conditions().keySet())
        .containsExactlyInAnyOrder(
            new Component.Joint(Side.LOWER, Stacks.NOT_TAKEN), Stacks.TOO_MUCH_SOLDER);
    assertThat(a.distanceMm(b)).isLessThan(1.5 * Ring.PITCH_MM);
    assertThat(a.net(Side.LOWER)).isNotEqualTo(b.net(Side.LOWER));
    assertThat(List.of(a, b)).allMatch(p -> map.netAt(p.id(), Side.LOWER).role() == Role.SIGNAL);
    assertThat(map.netAt(Stacks.NOT_TAKEN, Side.LOWER).dcPath()).isTrue();
    assertThat(second.action()).isEqualTo(5);
    assertThat(Set.copyOf(second.cures())).isEqualTo(first.adds().conditions().keySet());
  }

  @Test
  void everyStackNamesWhatTheMapHas() {
    Set<String> variants =
        map.interposers().stream().map(i -> i.variant()).collect(Collectors.toSet());

    Stacks.all()
        .forEach(
            (name, stack) -> {
              assertThat(name).startsWith("saltmarsh-");
              assertThat(variants).contains(stack.variant());
              stack
                  .defects()
                  .conditions()
                  .keySet()
                  .forEach(component -> assertThat(isThere(component)).as(name).isTrue());
            });
  }

  @Test
  void bridgesOfTheWetStackLieBetweenNeighboursOnDifferentNets() {
    Specimen wet = Stacks.all().getOrDefault("saltmarsh-wet", dropped);

    assertThat(wet.defects().conditions().keySet())
        .filteredOn(component -> component instanceof Component.Bridge)
        .hasSizeGreaterThan(3)
        .allSatisfy(
            component -> {
              Component.Bridge bridge = (Component.Bridge) component;
              Position a = map.position(bridge.a());
              Position b = map.position(bridge.b());
              assertThat(a.distanceMm(b)).isLessThan(1.5 * Ring.PITCH_MM);
              assertThat(a.net(bridge.side())).isNotEqualTo(b.net(bridge.side()));
            });
  }

  private List<String> broken() {
    List<String> ids = new ArrayList<>(Stacks.CRACKED);
    ids.add(Stacks.TORN);
    ids.add(Stacks.WEAK);
    return ids;
  }

  private Assembly onLower(Specimen stack) {
    return new Assembly(
        map,
        map.interposers().stream()
            .filter(i -> i.variant().equals(stack.variant()))
            .findFirst()
            .orElseThrow(),
        SetUp.named("interposer-on-lower").orElseThrow());
  }

  private boolean isThere(Component component) {
    if (component instanceof Component.Pad pad) {
      return map.positions().containsKey(pad.position());
    }
    if (component instanceof Component.Joint joint) {
      return map.positions().containsKey(joint.position());
    }
    if (component instanceof Component.NetOf net) {
      NetId id = net.net();
      return map.nets().containsKey(id) && map.net(id).role() == Role.RAIL;
    }
    return component instanceof Component.Bridge bridge
        && map.positions().keySet().containsAll(List.of(bridge.a(), bridge.b()));
  }
}

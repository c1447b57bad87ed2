package org.jointwalk.stack;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class AssemblyTest {

  /** Two ties: E joins both faces and leads to ground alone, T the top to two nets. */
  private static final SmallMap MAP =
      new SmallMap()
          .net("GND", Role.GROUND)
          .net("A", Role.SIGNAL)
          .net("B", Role.SIGNAL)
          .pad("G1", "GND")
          .pad("G2", "GND")
          .pad("G3", "GND")
          .pad("P1", "A")
          .pad("P2", "A", "B")
          .pad("T1", "A")
          .pad("T2", "B")
          .tie(Tie.Where.EDGE, "G1", "G2")
          .tie(Tie.Where.TOP, "T1", "T2")
          .point("PG", Side.LOWER, "GND")
          .point("PU", Side.UPPER, "A");

  private static final NetId GROUND = new NetId(Side.LOWER, "GND");

  private static Contact over(String id) {
    return new Contact.Pad(Plate.OVER, id);
  }

  private static Contact under(String id) {
    return new Contact.Pad(Plate.UNDER, id);
  }

  @Test
  void theInterposerOnTheLowerBoardIsReadThroughViaJointAndPad() {
    Assembly assembly = MAP.in("interposer-on-lower");
    Branch branch = assembly.branch(over("P2"));
    assertThat(branch.touched()).isEqualTo(new Node.Land("P2", Face.TOP_LAND));
    assertThat(branch.chain())
        .containsExactly(
            new Component.Via("P2"),
            new Component.Joint(Side.LOWER, "P2"),
            new Component.Pad(Side.LOWER, "P2"));
    assertThat(branch.hub()).isEqualTo(new Node.OnBoard(Side.LOWER, "B"));
    assertThat(assembly.net(over("P2")).orElseThrow().id()).isEqualTo(new NetId(Side.LOWER, "B"));
  }

  @Test
  void theInterposerOnTheUpperBoardIsTheMirrorOfIt() {
    Assembly assembly = MAP.in("interposer-on-upper");
    assertThat(assembly.branch(under("P2")).chain())
        .containsExactly(
            new Component.Via("P2"),
            new Component.Joint(Side.UPPER, "P2"),
            new Component.Pad(Side.UPPER, "P2"));
    assertThat(assembly.branch(under("P2")).hub()).isEqualTo(new Node.OnBoard(Side.UPPER, "A"));
    assertThat(assembly.contacts()).doesNotContain(over("P2"));
  }

  @Test
  void aTieOnTheFarFaceEndsThePathBehindTheVia() {
    Assembly assembly = MAP.in("interposer-on-upper");
    assertThat(assembly.branch(under("T1")).chain()).containsExactly(new Component.Via("T1"));
    assertThat(assembly.branch(under("T1")).hub()).isEqualTo(new Node.TieMetal(1));
    assertThat(assembly.home(under("T1"))).isEqualTo(new Node.TieMetal(1));
    assertThat(assembly.net(under("T1"))).isEmpty();
  }

  @Test
  void aTieOnTheTouchedFaceHidesThePathAndStandsForTheOneNetItLeadsTo() {
    Assembly assembly = MAP.in("interposer-on-lower");
    assertThat(assembly.branch(over("G1")).chain()).isEmpty();
    assertThat(assembly.branch(over("G1")).hub()).isEqualTo(new Node.TieMetal(0));
    assertThat(assembly.home(over("G1"))).isEqualTo(Node.OnBoard.of(GROUND));
    assertThat(assembly.isGround(over("G1"))).isTrue();
    assertThat(assembly.home(over("T1"))).isEqualTo(new Node.TieMetal(1));
    assertThat(assembly.isGround(over("T1"))).isFalse();
    assertThat(assembly.beyond(new Node.TieMetal(0))).contains(Node.OnBoard.of(GROUND));
    assertThat(assembly.beyond(new Node.TieMetal(1))).isEmpty();
  }

  @Test
  void theTwoProbesOfABareViaMeetInItsLowerLand() {
    Assembly assembly = MAP.in("interposer");
    assertThat(assembly.branch(over("P1")).chain()).containsExactly(new Component.Via("P1"));
    assertThat(assembly.branch(under("P1")).chain()).isEmpty();
    assertThat(assembly.home(over("P1"))).isEqualTo(assembly.home(under("P1")));
    assertThat(assembly.home(over("P1"))).isNotEqualTo(assembly.home(over("P2")));
    assertThat(assembly.branch(over("T1")).chain()).isEmpty();
    assertThat(assembly.branch(under("T1")).chain()).containsExactly(new Component.Via("T1"));
    assertThat(assembly.home(under("T1"))).isEqualTo(assembly.home(over("T2")));
    assertThat(assembly.branch(over("G1")).chain()).isEmpty();
    assertThat(assembly.branch(under("G1")).chain()).isEmpty();
  }

  @Test
  void aBoardAloneShowsItsPadsAndItsPoints() {
    Assembly lower = MAP.in("lower-board");
    assertThat(lower.branch(over("P1")).chain())
        .containsExactly(new Component.Pad(Side.LOWER, "P1"));
    assertThat(lower.contacts()).contains(new Contact.Point("PG"));
    assertThat(lower.contacts()).doesNotContain(new Contact.Point("PU"), under("P1"));
    Assembly upper = MAP.in("upper-board");
    assertThat(upper.branch(under("P1")).chain())
        .containsExactly(new Component.Pad(Side.UPPER, "P1"));
    assertThat(upper.contacts()).contains(new Contact.Point("PU"));
  }

  @Test
  void theJoinedStackIsTouchedAtPointsOnly() {
    Assembly joined = MAP.in("joined");
    assertThat(joined.contacts()).containsExactly(new Contact.Point("PG"), new Contact.Point("PU"));
    assertThat(joined.present("P1"))
        .containsExactly(
            new Component.Pad(Side.UPPER, "P1"),
            new Component.Joint(Side.UPPER, "P1"),
            new Component.Via("P1"),
            new Component.Joint(Side.LOWER, "P1"),
            new Component.Pad(Side.LOWER, "P1"));
  }

  @Test
  void componentsBehindSharedMetalAreInNoBranch() {
    Assembly assembly = MAP.in("interposer-on-lower");
    assertThat(assembly.inBranches("G1")).isEmpty();
    assertThat(assembly.inBranches("P1")).hasSize(3);
    assertThat(MAP.in("interposer").inBranches("T1")).containsExactly(new Component.Via("T1"));
  }

  @Test
  void aContactThatTouchesNothingIsRefused() {
    assertThatThrownBy(() -> MAP.in("interposer-on-lower").branch(under("P1")))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("interposer-on-lower");
  }

  static Stream<SetUp> setUps() {
    return SetUp.all().stream();
  }

  @ParameterizedTest
  @MethodSource("setUps")
  void everyContactEndsInExactlyOneGroupAndEveryComponentPresentIsAConductor(SetUp setUp) {
    Assembly assembly = SmallMap.assembly(MAP.map(), setUp.name());
    List<Contact> grouped =
        assembly.groups().values().stream().flatMap(List::stream).map(Branch::contact).toList();
    assertThat(grouped).containsExactlyInAnyOrderElementsOf(assembly.contacts());
    Set<Component> conductors =
        assembly.links().stream()
            .flatMap(link -> link.component().stream())
            .collect(java.util.stream.Collectors.toSet());
    for (String id : assembly.map().positions().keySet()) {
      assertThat(conductors).containsAll(assembly.present(id));
      assertThat(assembly.present(id)).containsAll(assembly.inBranches(id));
    }
  }

  @ParameterizedTest
  @MethodSource("setUps")
  void aBranchIsAConnectedWayFromTheTipToItsHub(SetUp setUp) {
    Assembly assembly = SmallMap.assembly(MAP.map(), setUp.name());
    for (Contact contact : assembly.contacts()) {
      Branch branch = assembly.branch(contact);
      Node at = branch.touched();
      for (Component component : branch.chain()) {
        Node here = at;
        Link link =
            assembly.links().stream()
                .filter(l -> l.component().filter(component::equals).isPresent())
                .findFirst()
                .orElseThrow();
        assertThat(List.of(link.a(), link.b())).contains(here);
        at = link.a().equals(here) ? link.b() : link.a();
      }
      Node end = at;
      boolean reaches =
          end.equals(branch.hub())
              || assembly.links().stream()
                  .filter(l -> l.component().isEmpty())
                  .anyMatch(l -> Set.of(l.a(), l.b()).containsAll(Set.of(end, branch.hub())));
      assertThat(reaches).as("%s ends at %s, not %s", contact, end, branch.hub()).isTrue();
    }
  }

  @Test
  void loadsOfAnAbsentBoardAreLeftOut() {
    SmallMap loaded =
        new SmallMap()
            .net("GND", Role.GROUND)
            .pad("G", "GND")
            .load(new Load.Unknown(Side.UPPER, "GND", "X"))
            .load(new Load.Unknown(Side.LOWER, "GND", "Y"));
    assertThat(loaded.in("lower-board").loads()).extracting(Load::to).containsExactly("Y");
    assertThat(loaded.in("interposer").loads()).isEmpty();
    assertThat(loaded.in("joined").loads()).hasSize(2);
  }
}

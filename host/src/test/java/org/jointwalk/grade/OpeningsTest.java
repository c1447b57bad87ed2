package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.grade.Made.conducts;
import static org.jointwalk.grade.Made.contradictory;
import static org.jointwalk.grade.Made.none;
import static org.jointwalk.grade.Made.sum;
import static org.jointwalk.grade.Made.unproven;
import static org.jointwalk.grade.Made.value;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.under;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.job.Residual;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class OpeningsTest {

  /** Positions 10 mm apart, so that only the pads of each net concern each other. */
  private static SmallMap map() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("VCC", Role.RAIL)
            .net("SPARE", Role.UNUSED)
            .pad("E1", "GND")
            .pad("E2", "GND")
            .pad("G1", "GND")
            .pad("G2", "GND")
            .pad("G3", "GND")
            .pad("V1", "VCC")
            .pad("V2", "VCC")
            .pad("V3", "VCC")
            .pad("V4", "VCC")
            .pad("V5", "VCC");
    for (int i = 0; i < 12; i++) {
      map.net("S" + i, Role.SIGNAL).pad("P" + i, "S" + i);
    }
    return map.pad("X", "SPARE").tie(Tie.Where.EDGE, "E1", "E2");
  }

  private static final List<Contact> RAIL =
      List.of(over("V1"), over("V2"), over("V3"), over("V4"), over("V5"));

  private final Assembly assembly = map().in("interposer-on-lower");

  private static Grading grading(Assembly assembly) {
    return new Grading(assembly, Instruments.ideal(Switching.MULTIPLEXER), assembly.contacts());
  }

  private static Estimates estimates(List<Residual> residuals, PathEstimate... paths) {
    return new Estimates(Arrays.asList(paths), List.of(), residuals, List.of());
  }

  private List<Question> open(Estimates estimates, int seating, Need... exhausted) {
    Set<Need> set = EnumSet.noneOf(Need.class);
    set.addAll(Arrays.asList(exhausted));
    return grading(assembly).open(estimates, seating, set);
  }

  private static Set<Contact> contacts(List<Question> questions) {
    Set<Contact> contacts = new LinkedHashSet<>();
    questions.forEach(q -> contacts.addAll(q.contacts()));
    return contacts;
  }

  private static Need need(List<Question> questions) {
    assertThat(questions).isNotEmpty();
    assertThat(questions).allMatch(q -> q.need() == questions.get(0).need());
    return questions.get(0).need();
  }

  /** Every path of the map conducts with nothing in it. */
  private static List<PathEstimate> all(int seating) {
    List<PathEstimate> all = new ArrayList<>();
    for (String id : List.of("G1", "G2", "G3", "V1", "V2", "V3", "V4", "V5")) {
      all.add(value(seating, id, 0.01, 0.001, "E1"));
    }
    for (int i = 0; i < 12; i++) {
      all.add(conducts(seating, "P" + i, "G1"));
    }
    return all;
  }

  private static Estimates allBut(String id, PathEstimate instead) {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over(id)));
    paths.add(instead);
    return new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of());
  }

  // Safety

  @Test
  void groundIsProvenFirstByPadsWhosePathEndsOnTheBoard() {
    List<Question> questions = open(estimates(List.of()), 1);
    assertThat(need(questions)).isEqualTo(Need.SAFETY);
    assertThat(contacts(questions)).containsExactly(over("G1"), over("G2"), over("G3"));
  }

  @Test
  void metalOfTheInterposerProvesGroundOnlyWhereNothingElseCan() {
    Assembly tied =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .pad("E1", "GND")
            .pad("E2", "GND")
            .pad("G", "GND")
            .pad("S", "S")
            .tie(Tie.Where.EDGE, "E1", "E2")
            .in("interposer-on-lower");
    assertThat(contacts(grading(tied).open(estimates(List.of()), 1, Set.of())))
        .containsExactly(over("E1"), over("E2"), over("G"));
  }

  @Test
  void twoPadsAreEnoughToProveGround() {
    Assembly two =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .pad("E1", "GND")
            .pad("E2", "GND")
            .pad("G1", "GND")
            .pad("G2", "GND")
            .pad("S", "S")
            .tie(Tie.Where.EDGE, "E1", "E2")
            .in("interposer-on-lower");
    assertThat(contacts(grading(two).open(estimates(List.of()), 1, Set.of())))
        .containsExactly(over("G1"), over("G2"));
    Assembly tied =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .pad("E1", "GND")
            .pad("E2", "GND")
            .pad("S", "S")
            .tie(Tie.Where.EDGE, "E1", "E2")
            .in("interposer-on-lower");
    assertThat(contacts(grading(tied).open(estimates(List.of()), 1, Set.of())))
        .containsExactly(over("E1"), over("E2"));
  }

  @Test
  void oneGroundAloneIsNeverProvenAndNothingIsAsked() {
    Assembly lone =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("S", Role.SIGNAL)
            .pad("G", "GND")
            .pad("S", "S")
            .pad("T", "S")
            .in("interposer-on-lower");
    assertThat(grading(lone).open(estimates(List.of()), 1, Set.of())).isEmpty();
    Assembly none =
        new SmallMap().net("S", Role.SIGNAL).pad("S", "S").pad("T", "S").in("lower-board");
    assertThat(grading(none).open(estimates(List.of()), 1, Set.of())).isEmpty();
  }

  @Test
  void voltagesAreReadAgainstAProvenGroundBeforeAnyPath() {
    List<Question> questions =
        open(estimates(List.of(), unproven(1, "G1", "G2"), conducts(1, "G3", "G2")), 1);
    assertThat(need(questions)).isEqualTo(Need.SAFETY);
    assertThat(questions.get(0).contacts()).containsExactly(over("G3"));
  }

  @Test
  void aChargedNetIsAskedForUntilItIsCalm() {
    PathEstimate ground = conducts(1, "G1", "G2");
    Residual charged = new Residual(1, over("V1"), 0.03, 0.03);
    List<Question> questions = open(estimates(List.of(charged), ground), 1);
    assertThat(need(questions)).isEqualTo(Need.SAFETY);
    assertThat(questions.get(0).contacts()).containsExactly(over("G1"), over("V1"));
    assertThat(need(open(estimates(List.of(charged, Made.calm(1, "V1")), ground), 1)))
        .isEqualTo(Need.PATH);
  }

  @Test
  void everySeatingIsProvenAnew() {
    List<PathEstimate> paths = all(1);
    Estimates estimates = new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of());
    assertThat(need(open(estimates, 2))).isEqualTo(Need.SAFETY);
  }

  @Test
  void whenNoGroundConductsAnotherSeatingIsAskedForAndNothingElse() {
    Estimates blind = estimates(List.of(), unproven(1, "G1", "G2"), unproven(1, "G2", "G1"));
    List<Question> questions = open(blind, 1);
    assertThat(need(questions)).isEqualTo(Need.RESEAT);
    assertThat(contacts(questions)).isEmpty();
    PathEstimate[] paths = {
      unproven(1, "G1", "G2"),
      unproven(2, "G1", "G2"),
      unproven(3, "G1", "G2"),
      unproven(4, "G1", "G2")
    };
    assertThat(open(estimates(List.of(), paths), 4)).isEmpty();
    PathEstimate[] three = Arrays.copyOf(paths, 3);
    assertThat(need(open(estimates(List.of(), three), 3))).isEqualTo(Need.RESEAT);
  }

  @Test
  void whereNoVoltageCouldBeReadNothingIsRead() {
    Estimates ground = estimates(List.of(), conducts(1, "G1", "G2"), conducts(1, "G2", "G1"));
    assertThat(need(open(ground, 1))).isEqualTo(Need.SAFETY);
    assertThat(open(ground, 1, Need.SAFETY)).isEmpty();
  }

  @Test
  void aBareInterposerNeedsNoGround() {
    List<Question> questions =
        grading(map().in("interposer")).open(estimates(List.of()), 1, Set.of());
    assertThat(need(questions)).isEqualTo(Need.PATH);
    assertThat(contacts(questions)).contains(over("X"), under("X"), over("E1"), under("E1"));
  }

  @Test
  void anEmptyFixtureAsksNothing() {
    assertThat(grading(map().in("empty")).open(estimates(List.of()), 1, Set.of())).isEmpty();
    assertThat(grading(map().in("shorting-plate")).open(estimates(List.of()), 1, Set.of()))
        .isEmpty();
  }

  // Paths

  @Test
  void theFirstSeatingReadsEverythingThatCanBeReadByItself() {
    List<Question> questions =
        open(estimates(List.of(Made.calm(1, "V1")), conducts(1, "G1", "G2")), 1);
    assertThat(need(questions)).isEqualTo(Need.PATH);
    assertThat(contacts(questions))
        .hasSize(2 + 5 + 12)
        .doesNotContain(over("G1"), over("E1"), over("X"));
  }

  @Test
  void metalThatLeadsToNoOneNetIsProvenByThreeOfItsLands() {
    SmallMap tied = map();
    for (int i = 0; i < 6; i++) {
      tied.pad("T" + i, i % 2 == 0 ? "S0" : "S1");
    }
    tied.tie(Tie.Where.EDGE, "T0", "T1", "T2", "T3", "T4", "T5");
    List<Question> questions =
        grading(tied.in("interposer-on-lower"))
            .open(estimates(List.of(Made.calm(1, "V1")), conducts(1, "G1", "G2")), 1, Set.of());
    assertThat(contacts(questions))
        .contains(over("T0"), over("T2"), over("T4"))
        .doesNotContain(over("T1"), over("T3"), over("T5"), over("E1"));
  }

  @Test
  void aLaterSeatingReadsSuspectsNeighboursAndControls() {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over("P6")) || p.contact().equals(over("V3")));
    paths.add(none(1, "P6", "G1"));
    paths.add(value(1, "V3", 4, 0.01, "V1", "V2", "V4", "V5"));
    paths.add(conducts(2, "G1", "G2"));
    Estimates estimates =
        new Estimates(paths, List.of(), List.of(Made.calm(1, "V1"), Made.calm(2, "V1")), List.of());
    Set<Contact> again = contacts(open(estimates, 2));
    assertThat(need(open(estimates, 2))).isEqualTo(Need.PATH);
    assertThat(again)
        .contains(over("P6"), over("P5"), over("P7"), over("V3"), over("V2"), over("V4"))
        .doesNotContain(over("X"), over("E1"));
    assertThat(again.size()).isBetween(12, 19);
  }

  private static Estimates twoSeatings(List<PathEstimate> paths) {
    return new Estimates(
        paths, List.of(), List.of(Made.calm(1, "V1"), Made.calm(2, "V1")), List.of());
  }

  /** Every neighbour was cleared, so that nothing but the suspects brings anything back. */
  @Test
  void aSuspectBringsItsNeighboursTwoOfItsNetAndEightFromAllAround() {
    SmallMap apart = new SmallMap().net("GND", Role.GROUND).net("VCC", Role.RAIL);
    List<PathEstimate> paths = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      // Pads of one net have nothing to be cleared of.
      apart.at("R" + i, i, 0, "VCC", "VCC");
      paths.add(value(1, "R" + i, i == 20 ? 4 : 0.01, 0.001, "a", "b", "c", "d"));
    }
    apart.at("G1", 500, 0, "GND", "GND").at("G2", 700, 0, "GND", "GND");
    paths.add(value(1, "G1", 0.01, 0.001, "G2"));
    paths.add(value(1, "G2", 0.01, 0.001, "G1"));
    paths.add(conducts(2, "G1", "G2"));
    paths.add(conducts(2, "G2", "G1"));
    Set<Contact> again =
        contacts(
            grading(apart.in("interposer-on-lower"))
                .open(
                    new Estimates(
                        paths,
                        List.of(),
                        List.of(Made.calm(1, "R0"), Made.calm(2, "R0")),
                        List.of()),
                    2,
                    Set.of()));
    // Good are R0 to R29 without none, then G1 and G2: every fourth of thirty-two.
    assertThat(again)
        .containsExactlyInAnyOrder(
            over("R20"),
            over("R19"),
            over("R21"),
            over("R0"),
            over("R1"),
            over("R4"),
            over("R8"),
            over("R12"),
            over("R16"),
            over("R24"),
            over("R28"));
  }

  @Test
  void whatTheSeatingReadsDoesNotEndItsOwnList() {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over("P6")));
    paths.add(none(1, "P6", "G1"));
    paths.add(conducts(2, "G1", "G2"));
    paths.add(conducts(2, "P6", "G1"));
    assertThat(contacts(open(twoSeatings(paths), 2))).contains(over("P5"), over("P7"));
  }

  @Test
  void aSeatingAfterTheNextLooksAtBothBefore() {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over("P6")));
    paths.add(none(1, "P6", "G1"));
    for (PathEstimate path : all(2)) {
      paths.add(path.contact().equals(over("P6")) ? none(2, "P6", "G1") : path);
    }
    paths.add(conducts(3, "G1", "G2"));
    Estimates three =
        new Estimates(
            paths,
            List.of(),
            List.of(Made.calm(1, "V1"), Made.calm(2, "V1"), Made.calm(3, "V1")),
            List.of());
    assertThat(contacts(open(three, 3))).contains(over("P6"), over("P5"), over("P7"));
  }

  /** A single drop says nothing of what all have in common. */
  @Test
  void aHighDropIsReadAgainWithOthersOfItsKind() {
    SmallMap many = map();
    for (int i = 0; i < 22; i++) {
      String function = i % 2 == 0 ? "radio" : "touch";
      many.net("M" + i, Role.SIGNAL, function, 1.8, true).at("Q" + i, 2 * i, 50, "M" + i, "M" + i);
    }
    Assembly large = many.in("interposer-on-lower");
    List<PathEstimate> paths = all(1);
    for (int i = 0; i < 22; i++) {
      paths.add(Made.drop(1, "Q" + i, i == 20 ? 50 : 0, 0.2, 100));
    }
    paths.add(conducts(2, "G1", "G2"));
    Set<Contact> again =
        contacts(
            grading(large)
                .open(
                    new Estimates(
                        paths,
                        List.of(),
                        List.of(Made.calm(1, "V1"), Made.calm(2, "V1")),
                        List.of()),
                    2,
                    Set.of()));
    long delicate = IntStream.range(0, 11).filter(i -> again.contains(over("Q" + 2 * i))).count();
    assertThat(again).contains(over("Q20"));
    assertThat(delicate).isEqualTo(11);
    paths.removeIf(p -> p.contact().equals(over("Q20")));
    paths.add(none(1, "Q20", "G1"));
    Set<Contact> open =
        contacts(
            grading(large)
                .open(
                    new Estimates(
                        paths,
                        List.of(),
                        List.of(Made.calm(1, "V1"), Made.calm(2, "V1")),
                        List.of()),
                    2,
                    Set.of()));
    assertThat(open).contains(over("Q20"));
    assertThat(open.size()).isLessThan(again.size());
  }

  @Test
  void aSeatingThatWasCutShortLeavesWhatItDidNotReadToTheNext() {
    List<PathEstimate> paths = all(1).subList(0, 12);
    paths = new ArrayList<>(paths);
    paths.add(conducts(2, "G1", "G2"));
    Estimates estimates =
        new Estimates(paths, List.of(), List.of(Made.calm(1, "V1"), Made.calm(2, "V1")), List.of());
    Set<Contact> again = contacts(open(estimates, 2));
    for (int i = 4; i < 12; i++) {
      assertThat(again).contains(over("P" + i));
    }
    // Neighbours that nothing has cleared of each other need both sides in this seating.
    assertThat(again).contains(over("P3"), over("P0"));
  }

  @Test
  void aSeatingAfterOneWithoutGroundReadsEverything() {
    Estimates estimates =
        new Estimates(
            List.of(unproven(1, "G1", "G2"), conducts(2, "G1", "G2")),
            List.of(),
            List.of(Made.calm(2, "V1")),
            List.of());
    assertThat(contacts(open(estimates, 2))).hasSize(2 + 5 + 12);
  }

  // Partners

  private Set<Contact> partners(Estimates estimates) {
    List<Question> questions = open(estimates, 1);
    return questions.isEmpty() || questions.get(0).need() != Need.PARTNER
        ? Set.of()
        : contacts(questions);
  }

  @Test
  void aPathWhosePartnersShowedNoneIsReadAgainstAnother() {
    assertThat(partners(allBut("V1", unproven(1, "V1", "V2")))).containsExactly(over("V1"));
    assertThat(partners(allBut("V1", none(1, "V1", "V2")))).isEmpty();
    // Nobody else of its net conducts, but ground was not asked yet.
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> RAIL.contains(p.contact()));
    for (String id : List.of("V1", "V2", "V3", "V4", "V5")) {
      paths.add(unproven(1, id, "V1".equals(id) ? "V2" : "V1"));
    }
    Estimates alone = new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of());
    assertThat(partners(alone)).hasSize(5);
  }

  @Test
  void aPathThatGroundHasRefusedAsksNobodyElse() {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> RAIL.contains(p.contact()));
    for (String id : List.of("V1", "V2", "V3", "V4", "V5")) {
      paths.add(unproven(1, id, "G1"));
    }
    Estimates alone = new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of());
    assertThat(partners(alone)).isEmpty();
  }

  @Test
  void anOddValueIsReadAgainstOthersUntilFourHaveBeenTried() {
    assertThat(partners(allBut("V1", value(1, "V1", 4, 0.01, "V2", "V3"))))
        .containsExactly(over("V1"));
    assertThat(partners(allBut("V1", value(1, "V1", 4, 0.01, "V2", "V3", "V4"))))
        .containsExactly(over("V1"));
    assertThat(partners(allBut("V1", value(1, "V1", 4, 0.01, "V2", "V3", "V4", "V5")))).isEmpty();
    assertThat(partners(allBut("V1", value(1, "V1", 0.1, 0.01, "V2", "V3")))).isEmpty();
    assertThat(partners(allBut("V1", value(1, "V1", -0.1, 0.01, "V2", "V3"))))
        .containsExactly(over("V1"));
    assertThat(partners(allBut("P1", value(1, "P1", 40, 0.01, "G1")))).isEmpty();
  }

  @Test
  void fourPartnersAreEnoughWhereThereAreMoreAndNoneIsLeftWhereThereAreFewer() {
    SmallMap large = map().pad("V6", "VCC").pad("V7", "VCC").net("TWO", Role.SIGNAL);
    large.pad("T1", "TWO").pad("T2", "TWO");
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over("V1")));
    paths.add(value(1, "V1", 4, 0.01, "V2", "V3", "V4", "V5"));
    paths.add(value(1, "V6", 0.01, 0.001, "V7"));
    paths.add(value(1, "V7", 0.01, 0.001, "V6"));
    paths.add(sum(1, "T1", 9, 0.01, "T2"));
    paths.add(sum(1, "T2", 9, 0.01, "T1"));
    List<Question> questions =
        grading(large.in("interposer-on-lower"))
            .open(
                new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of()),
                1,
                Set.of());
    assertThat(questions).noneMatch(q -> q.need() == Need.PARTNER);
  }

  // Another seating

  private Set<Contact> suspects(Estimates estimates) {
    List<Question> questions = open(estimates, 1, Need.ISOLATION, Need.PARTNER);
    return questions.isEmpty() ? Set.of() : contacts(questions);
  }

  @Test
  void whatAnotherSeatingCouldConfirmOrChangeIsASuspect() {
    assertThat(suspects(allBut("P4", none(1, "P4", "G1")))).containsExactly(over("P4"));
    assertThat(suspects(allBut("V1", value(1, "V1", 4, 0.01)))).containsExactly(over("V1"));
    assertThat(suspects(allBut("V1", value(1, "V1", 0.5, 0.01)))).containsExactly(over("V1"));
    assertThat(suspects(allBut("V1", contradictory(value(1, "V1", 0.1, 0.01)))))
        .containsExactly(over("V1"));
    assertThat(suspects(allBut("V1", sum(1, "V1", 3, 0.01, "V2")))).containsExactly(over("V1"));
    assertThat(suspects(allBut("V1", value(1, "V1", 0.1, 0.01)))).isEmpty();
    assertThat(suspects(allBut("V1", conducts(1, "V1")))).isEmpty();
  }

  @Test
  void twoSeatingsOfAValueAndThreeOfAMissingPathAreEnough() {
    List<PathEstimate> paths = all(1);
    paths.removeIf(p -> p.contact().equals(over("V1")));
    paths.add(value(1, "V1", 4, 0.01));
    paths.add(conducts(2, "G1", "G2"));
    paths.add(value(2, "V1", 4, 0.01));
    Estimates two =
        new Estimates(paths, List.of(), List.of(Made.calm(1, "V1"), Made.calm(2, "V1")), List.of());
    assertThat(open(two, 2, Need.PATH, Need.PARTNER, Need.ISOLATION)).isEmpty();
  }

  @Test
  void aProbeOnSharedMetalIsNoReasonToSeatAgain() {
    assertThat(suspects(allBut("G1", value(1, "G1", 0.01, 0.001, "E1")))).isEmpty();
    List<PathEstimate> paths = all(1);
    paths.add(none(1, "E1", "G1"));
    assertThat(suspects(new Estimates(paths, List.of(), List.of(Made.calm(1, "V1")), List.of())))
        .isEmpty();
  }

  @Test
  void needsThatAreExhaustedArePassedOver() {
    Estimates estimates = estimates(List.of(Made.calm(1, "V1")), conducts(1, "G1", "G2"));
    assertThat(need(open(estimates, 1))).isEqualTo(Need.PATH);
    assertThat(open(estimates, 1, Need.PATH)).isEmpty();
    Estimates suspect = allBut("P4", none(1, "P4", "G1"));
    assertThat(need(open(suspect, 1))).isEqualTo(Need.ISOLATION);
    assertThat(need(open(suspect, 1, Need.ISOLATION))).isEqualTo(Need.RESEAT);
    assertThat(open(suspect, 1, Need.values())).isEmpty();
  }
}

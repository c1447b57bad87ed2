package org.jointwalk.plan;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.ohms;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.residual;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class PrecautionTest {

  private static final Capabilities ALL = Instruments.ideal(Switching.MULTIPLEXER);
  private static final Measurement PROOF = ohms(1, over("G0"), over("G1"), 0.1);

  private static SmallMap map() {
    SmallMap map =
        new SmallMap()
            .net("GND", Role.GROUND)
            .net("VCC", Role.RAIL)
            .net("S", Role.SIGNAL)
            .net("BLOCKED", Role.SIGNAL, "radio", 0, false)
            .net("SPARE", Role.UNUSED);
    for (int i = 0; i < 9; i++) {
      map.pad("G" + i, "GND");
    }
    return map.pad("V0", "VCC")
        .pad("V1", "VCC")
        .pad("V2", "VCC")
        .pad("S0", "S")
        .pad("S1", "S")
        .pad("B", "BLOCKED")
        .pad("X", "SPARE");
  }

  private static List<Step> scan(
      SmallMap map, Capabilities capabilities, List<Question> questions, Measurement... before) {
    Assembly assembly = map.in("interposer-on-lower");
    Solve solve = new Solve(assembly, capabilities, List.of());
    return new Plan(assembly, capabilities, assembly.contacts(), solve)
        .scan(questions, solve.estimates(List.of(before)), 1)
        .steps();
  }

  private static List<Question> safety(Contact... contacts) {
    return List.of(new Question(Need.SAFETY, Arrays.asList(contacts)));
  }

  private static List<String> words(List<Step> steps) {
    List<String> words = new ArrayList<>();
    for (Step step : steps) {
      words.add(
          step.kind() + (step.high().isEmpty() ? "" : " " + name(step.a()) + " " + name(step.b())));
    }
    return words;
  }

  private static String name(Contact contact) {
    return contact instanceof Contact.Pad pad ? pad.position() : ((Contact.Point) contact).point();
  }

  @Test
  void sixGroundsFromAllAroundAreReadInARingAfterTheInstrumentItself() {
    Contact[] grounds = new Contact[9];
    for (int i = 0; i < 9; i++) {
      grounds[i] = over("G" + i);
    }
    assertThat(words(scan(map(), ALL, safety(grounds))))
        .containsExactly(
            "ALL_OPEN",
            "LOW_LEVEL G0 G1",
            "LOW_LEVEL G1 G3",
            "LOW_LEVEL G3 G4",
            "LOW_LEVEL G4 G6",
            "LOW_LEVEL G6 G7",
            "LOW_LEVEL G0 G7");
  }

  @Test
  void twoGroundsAreReadOnce() {
    assertThat(words(scan(map(), ALL, safety(over("G0"), over("G1")))))
        .containsExactly("ALL_OPEN", "LOW_LEVEL G0 G1");
  }

  @Test
  void groundsOfTwoBoardsAreReadEachAmongThemselves() {
    SmallMap map = map();
    for (Side side : Side.values()) {
      map.point(side + "1", side, "GND").point(side + "2", side, "GND");
    }
    Assembly assembly = map.in("joined");
    Solve solve = new Solve(assembly, ALL, List.of());
    List<Step> steps =
        new Plan(assembly, ALL, assembly.contacts(), solve)
            .scan(
                List.of(new Question(Need.SAFETY, List.copyOf(assembly.contacts()))),
                solve.estimates(List.of()),
                1)
            .steps();
    assertThat(words(steps))
        .containsExactly("ALL_OPEN", "LOW_LEVEL UPPER1 UPPER2", "LOW_LEVEL LOWER1 LOWER2");
  }

  @Test
  void twoProbesOfEveryRailAreReadUnloadedAndLoadedThenOneOfEverySignal() {
    assertThat(words(scan(map(), ALL, safety(over("G0")), PROOF)))
        .containsExactly(
            "RESIDUAL V0 G1",
            "RESIDUAL_LOADED V0 G1",
            "RESIDUAL V1 G1",
            "RESIDUAL_LOADED V1 G1",
            "RESIDUAL S0 G1");
  }

  @Test
  void laterSeatingsReadTheRailsOnly() {
    assertThat(
            words(
                scan(
                    map(),
                    ALL,
                    safety(over("G0")),
                    PROOF,
                    residual(0, Kind.RESIDUAL, over("V0"), over("G0"), 0))))
        .containsExactly(
            "RESIDUAL V0 G1", "RESIDUAL_LOADED V0 G1", "RESIDUAL V1 G1", "RESIDUAL_LOADED V1 G1");
  }

  @Test
  void aBoardWithoutRailsReadsItsSignalsInEverySeating() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).net("S", Role.SIGNAL).pad("G0", "GND");
    map.pad("G1", "GND").pad("S0", "S");
    Measurement earlier = residual(0, Kind.RESIDUAL, over("S0"), over("G0"), 0);
    assertThat(words(scan(map, ALL, safety(over("G0")), PROOF, earlier)))
        .containsExactly("RESIDUAL S0 G1");
  }

  @Test
  void aBoardOfGroundAloneIsStillReadSomewhere() {
    SmallMap map = new SmallMap().net("GND", Role.GROUND).pad("G0", "GND").pad("G1", "GND");
    assertThat(words(scan(map, ALL, safety(over("G0")), PROOF)))
        .containsExactly("RESIDUAL G1 G0", "RESIDUAL_LOADED G1 G0");
  }

  @Test
  void aChargedNetIsDischargedAndReadAgain() {
    List<Question> again =
        List.of(
            new Question(Need.SAFETY, List.of(over("G0"), over("V1"))),
            new Question(Need.SAFETY, List.of(over("G0"), over("S0"))));
    assertThat(words(scan(map(), ALL, again, PROOF)))
        .containsExactly(
            "DISCHARGE V1 G1",
            "RESIDUAL V1 G1",
            "RESIDUAL_LOADED V1 G1",
            "DISCHARGE S0 G1",
            "RESIDUAL S0 G1",
            "RESIDUAL_LOADED S0 G1");
  }

  @Test
  void whatTheFixtureCannotReadIsLeftOut() {
    Capabilities few = Instruments.without(ALL, Kind.ALL_OPEN, Kind.RESIDUAL_LOADED);
    assertThat(words(scan(map(), few, safety(over("G0"), over("G1")))))
        .containsExactly("LOW_LEVEL G0 G1");
    assertThat(words(scan(map(), few, safety(over("G0")), PROOF)))
        .containsExactly("RESIDUAL V0 G1", "RESIDUAL V1 G1", "RESIDUAL S0 G1");
    Capabilities none = Instruments.without(ALL, Kind.RESIDUAL);
    assertThat(scan(map(), none, safety(over("G0")), PROOF)).isEmpty();
  }

  @Test
  void anUnwiredProbeIsLeftOut() {
    Assembly assembly = map().in("interposer-on-lower");
    Solve solve = new Solve(assembly, ALL, List.of());
    List<Contact> wired = new ArrayList<>(assembly.contacts());
    wired.remove(over("V0"));
    List<Step> steps =
        new Plan(assembly, ALL, Set.copyOf(wired), solve)
            .scan(safety(over("G0")), solve.estimates(List.of(PROOF)), 1)
            .steps();
    assertThat(words(steps)).contains("RESIDUAL V1 G1", "RESIDUAL V2 G1").hasSize(5);
  }
}

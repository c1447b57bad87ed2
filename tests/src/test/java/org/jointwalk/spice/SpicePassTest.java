package org.jointwalk.spice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.job.Action;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.Measurement;
import org.jointwalk.pass.PassException;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Whole passes over a handset that ngspice computes: the grades are what was done to it. */
@NeedsTool("ngspice")
class SpicePassTest {

  /** The bench is warmer than the one where the good stacks were read. */
  private static final double WARM_CELSIUS = 31;

  @TempDir private static Path folder;
  private static Ngspice ngspice;
  private static PadMap map;

  @BeforeAll
  static void learnGoodStacks() throws Exception {
    ngspice = new Ngspice(folder);
    map = Bench.learned(ngspice, Ring.of(60, 3, 1));
  }

  private static SetUp setUp(String name) {
    return SetUp.named(name).orElseThrow();
  }

  private static Stream<Arguments> passes() {
    return Stream.of(
            "upper-board",
            "lower-board",
            "interposer",
            "interposer-on-lower",
            "interposer-on-upper")
        .flatMap(s -> Stream.of("photo relays", "relay matrix").map(f -> Arguments.of(s, f)));
  }

  private static FixtureMap fixture(String build) {
    return build.equals("photo relays")
        ? FixtureMaps.photoRelay(map)
        : FixtureMaps.relayMatrix(map);
  }

  private static Handset handset(Defects defects) {
    return new Handset(map, defects, 5, WARM_CELSIUS);
  }

  private static Finding at(Findings findings, String position) {
    return findings.positions().stream()
        .filter(f -> f.position().equals(position))
        .findFirst()
        .orElseThrow();
  }

  @Test
  void everyFaultOfAPathShowsInSomeSetUp() {
    assertThat(Faults.ofEveryKind().conditions().keySet())
        .filteredOn(c -> !(c instanceof Component.Bridge || c instanceof Component.NetOf))
        .hasSize(17)
        .allMatch(c -> SetUp.all().stream().anyMatch(s -> new Sight(map, s).shows(c)));
  }

  @ParameterizedTest
  @MethodSource("passes")
  void gradesAreTheInjectedFaults(String name, String build) throws Exception {
    Handset broken = handset(Faults.ofEveryKind());

    Findings findings = new Bench(ngspice, fixture(build)).pass(broken, setUp(name)).findings();

    assertThat(new Truth(broken, setUp(name)).differences(findings)).isEmpty();
    assertThat(findings.graded(Grade.OPEN)).isNotEmpty();
    assertThat(findings.bridges()).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("passes")
  void soundHandsetShowsNothingAndWhatIsHiddenIsCounted(String name, String build)
      throws Exception {
    Handset sound = handset(Defects.NONE);

    Findings findings = new Bench(ngspice, fixture(build)).pass(sound, setUp(name)).findings();

    assertThat(new Truth(sound, setUp(name)).differences(findings)).isEmpty();
    assertThat(findings.anyFault()).isFalse();
    assertThat(findings.graded(Grade.GOOD)).hasSizeGreaterThan(20);
    // Twelve ground positions lie on the edge plating; nothing ties the pads of a board alone.
    assertThat(findings.graded(Grade.MASKED)).hasSize(setUp(name).interposer() ? 12 : 0);
  }

  @Test
  void highJointOfANewRowIsSeenAgainstTheSameBoardsEarlierPass() throws Exception {
    Component.Joint joint = new Component.Joint(Side.LOWER, "N045");
    Handset dull = handset(Defects.NONE.with(joint, Faults.high(4)));
    Handset cooler = new Handset(map, Defects.NONE, dull.seed(), WARM_CELSIUS - 6);
    SetUp onLower = setUp("interposer-on-lower");

    Finding alone =
        at(new Bench(ngspice, fixture("photo relays")).pass(dull, onLower).findings(), "N045");
    Bench bench = new Bench(ngspice, fixture("photo relays"));
    bench.pass(cooler, setUp("lower-board"));
    bench.done(new Action.Reball(Side.LOWER, List.of()));
    Findings findings = bench.pass(dull, onLower).findings();

    assertThat(alone.detectable().orElseThrow()).isGreaterThan(new Ohms(4));
    assertThat(at(findings, "N045").grade()).isEqualTo(Grade.HIGH);
    assertThat(new Truth(dull, onLower).differences(findings)).isEmpty();
  }

  @Test
  void chargedRailStopsThePassBeforeAnyNetIsSourced() {
    Component rail = new Component.NetOf(new NetId(Side.LOWER, "RAIL_QUILL_A"));
    Condition charged = new Condition.Charged(1.1, new Ohms(50));
    Bench bench = new Bench(ngspice, fixture("photo relays"));

    assertThatThrownBy(
            () ->
                bench.pass(handset(Defects.NONE.with(rail, charged)), setUp("interposer-on-lower")))
        .isInstanceOf(PassException.Unsafe.class)
        .hasMessageContaining("RAIL_QUILL_A carries 1.10 V");

    assertThat(Job.fold(Bench.JOB, bench.log().read(Bench.JOB)).passes().get(0).measurements())
        .isNotEmpty()
        .extracting(Measurement::step)
        .extracting(step -> step.kind())
        // Ground against ground is the one thing that may be sourced before.
        .containsOnly(Kind.ALL_OPEN, Kind.LOW_LEVEL, Kind.RESIDUAL, Kind.RESIDUAL_LOADED);
  }
}

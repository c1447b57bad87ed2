package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.jointwalk.simulator.Clamped.MAP;
import static org.jointwalk.simulator.Clamped.ON_LOWER;
import static org.jointwalk.simulator.Clamped.SPLIT;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Terminal;
import org.jointwalk.protocol.WireStep;
import org.jointwalk.protocol.Wiring;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.SetUp;
import org.junit.jupiter.api.Test;

/** Steps that a device takes and a scan in contacts cannot say, and those of a matrix. */
class DeviceStepsTest {

  private static final FixtureMap MATRIX = kelvin(Kelvin.TIP, 2, 2);

  /** A matrix with a sense wire for every contact, after all the force wires. */
  private static FixtureMap kelvin(Kelvin kelvin, int banks, int readers) {
    FixtureMap force = Rings.fixture(MAP, kelvin, Switching.MATRIX);
    List<Contact> contacts = List.copyOf(force.contacts());
    List<Channel> channels = new ArrayList<>();
    for (Channel.Use use : Channel.Use.values()) {
      contacts.forEach(contact -> channels.add(new Channel(channels.size(), contact, use)));
    }
    Capabilities able = force.capabilities();
    return new FixtureMap(
        force.name(),
        force.device(),
        new Capabilities(
            able.identity(),
            able.build(),
            able.calibration(),
            able.switching(),
            able.kelvin(),
            banks,
            readers,
            able.ranges(),
            able.path(),
            able.probes(),
            able.ratings()),
        channels,
        Set.of());
  }

  /** A host whose run of some steps has begun, with credit for all of them. */
  private static final class Bench {

    private final DeviceHost host = new DeviceHost(DeviceTest.device(0, MATRIX));
    private final Declaration declaration;
    private final Wiring wiring = new Wiring(MATRIX);
    private int loaded;

    private Bench(int steps) {
      host.hello(5, false, 0);
      declaration = host.declare(DeviceTest.assembly(ON_LOWER), MATRIX);
      host.begin(1, 0, steps, steps, declaration);
    }

    private Terminal force(int k) {
      return new Terminal.Channel(wiring.force(Rings.over(k)).orElseThrow());
    }

    private Terminal sense(int k) {
      return new Terminal.Channel(wiring.sense(Rings.over(k)).orElseThrow());
    }

    private void setting(int slot, Kind kind, boolean brief, int samples, int most, long limit) {
      boolean resistance = kind == Kind.LOW_LEVEL;
      host.stream(
          new Streamed.Setting(
              1,
              slot,
              kind,
              brief,
              samples,
              most,
              resistance ? 2_000_000 : 5_000_000,
              resistance ? List.of(100_000_000) : List.of(),
              0,
              limit,
              limit == 0 ? 0 : Math.max(1, limit / 2),
              limit == 0 ? 0 : Math.max(1, limit / 2),
              List.of()));
    }

    private void step(int slot, boolean together, Terminal... four) {
      host.stream(
          new Streamed.Steps(
              1,
              loaded++,
              List.of(new WireStep(slot, together, four[0], four[1], four[2], four[3]))));
    }

    private List<Taken> results() {
      host.pass(50_000);
      assertThat(host.end().end()).isEqualTo(RunEnd.DONE.code());
      return host.told(Notice.Results.class).stream()
          .flatMap(results -> results.results().stream())
          .toList();
    }
  }

  private static double ohms(Taken taken) {
    Raw raw = points(taken).get(0);
    return raw.volt() / 1e8 / (raw.amp() / 1e10);
  }

  private static List<Raw> points(Taken taken) {
    return ((Taken.Measured) taken).points();
  }

  private static final Terminal NOTHING = new Terminal.Nothing();

  @Test
  void matrixReadsGroupsAndSenseWiresAsInProcess() throws FixtureException {
    List<Step> steps = new ArrayList<>();
    for (int k = 0; k < 30; k++) {
      steps.add(Clamped.lowLevel(Rings.over(k), Rings.over(k + 1)));
      steps.add(
          new Step(
              Kind.ISOLATION,
              List.of(Rings.over(k), Rings.over(k + 1)),
              List.of(Rings.over(k + 2), Rings.over(k + 3), Rings.over(k + 5)),
              List.of(),
              new Volts(0.05),
              3));
    }
    for (Kelvin kelvin : List.of(Kelvin.TAIL, Kelvin.TIP)) {
      FixtureMap wired = kelvin(kelvin, 1, 1);
      DeviceHost host = new DeviceHost(DeviceTest.device(0, wired));
      host.hello(5, false, 0);
      host.run(
          1, Scan.of(ON_LOWER, steps), wired, host.declare(DeviceTest.assembly(ON_LOWER), wired));
      VirtualFixture fixture =
          new VirtualFixture(
              MAP, Rings.specimen(7, Defects.NONE), wired, VirtualFixture.Conditions.CALM);
      fixture.clamp(SetUp.named(ON_LOWER).orElseThrow(), List.of(SPLIT));
      List<Reading> readings = new ArrayList<>();
      fixture.run(Scan.of(ON_LOWER, steps), batch -> readings.addAll(batch.readings()));

      assertThat(host.readings)
          .isEqualTo(
              readings.stream()
                  .map(r -> Results.reading(r.index(), Results.taken(r, StepRefusal.KIND)))
                  .toList());
    }
  }

  @Test
  void withoutSenseWiresSwitchesAndContactsAreRead() {
    Bench bench = new Bench(2);
    bench.setting(0, Kind.LOW_LEVEL, false, 1, 1, 0);
    bench.step(0, false, bench.force(3), bench.force(23), bench.sense(3), bench.sense(23));
    bench.step(0, false, bench.force(3), bench.force(23), NOTHING, NOTHING);
    List<Taken> results = bench.results();
    Capabilities able = MATRIX.capabilities();
    double both =
        able.path().highOhms().value()
            + able.path().lowOhms().value()
            + 2 * able.probes().typical().value();

    assertThat(ohms(results.get(1)) - ohms(results.get(0))).isCloseTo(both, within(0.5 * both));
  }

  @Test
  void tapReadsThePartOfTheWayThatLiesBehindIt() {
    // Force between two grounds; a third ground lies somewhere between them, near the plane.
    Bench bench = new Bench(3);
    bench.setting(0, Kind.LOW_LEVEL, false, 24, 24, 0);
    bench.step(0, false, bench.force(0), bench.force(1), bench.sense(0), bench.sense(1));
    bench.step(0, false, bench.force(0), bench.force(1), bench.sense(0), bench.sense(2));
    bench.step(0, false, bench.force(0), bench.force(1), bench.sense(2), bench.sense(1));
    List<Taken> results = bench.results();
    double whole = mean(results.get(0));

    assertThat(mean(results.get(1)) + mean(results.get(2))).isCloseTo(whole, within(0.2 * whole));
    assertThat(mean(results.get(1))).isBetween(0.1 * whole, 0.9 * whole);
  }

  private static double mean(Taken taken) {
    return points(taken).stream()
        .mapToDouble(raw -> raw.volt() / 1e8 / (raw.amp() / 1e10))
        .average()
        .orElseThrow();
  }

  @Test
  void stepIsExtendedOnlyWhileItIsUndecided() {
    Bench bench = new Bench(2);
    bench.setting(0, Kind.LOW_LEVEL, false, 2, 10, 1_000_000_000L);
    bench.step(0, false, bench.force(3), bench.force(23), bench.sense(3), bench.sense(23));
    bench.setting(1, Kind.RESIDUAL, false, 2, 10, 0);
    bench.step(1, false, bench.force(3), bench.force(23), NOTHING, NOTHING);
    List<Taken> results = bench.results();

    assertThat(results).extracting(taken -> points(taken).size()).containsExactly(2, 2);
  }

  @Test
  void briefStepsComeAsBits() {
    Bench bench = new Bench(4);
    bench.setting(0, Kind.LOW_LEVEL, true, 1, 1, 1_000_000);
    bench.step(0, false, bench.force(3), bench.force(23), bench.sense(3), bench.sense(23));
    bench.step(0, false, bench.force(3), bench.force(8), bench.sense(3), bench.sense(8));
    bench.step(0, false, bench.force(3), bench.force(3), NOTHING, NOTHING);
    bench.step(0, false, bench.force(8), bench.force(3), bench.sense(8), bench.sense(3));
    bench.host.pass(50_000);

    assertThat(
            bench.host.told(Notice.Bits.class).stream()
                .flatMap(bits -> bits.answers().stream())
                .toList())
        .containsExactly(
            Notice.Brief.BELOW, Notice.Brief.ABOVE, Notice.Brief.REFUSED, Notice.Brief.ABOVE);
    assertThat(bench.host.told(Notice.Results.class)).isEmpty();
  }

  @Test
  void joinedStepsAreTakenTogetherOrEachRefused() {
    Bench bench = new Bench(6);
    bench.setting(0, Kind.ISOLATION, false, 1, 1, 0);
    // Two readers: three are too many, whatever their channels are.
    bench.step(0, true, bench.force(1), bench.force(2), NOTHING, NOTHING);
    bench.step(0, true, bench.force(3), bench.force(4), NOTHING, NOTHING);
    bench.step(0, false, bench.force(5), bench.force(6), NOTHING, NOTHING);
    // The two banks are the force wires and the sense wires.
    bench.step(0, true, bench.force(7), bench.force(8), NOTHING, NOTHING);
    bench.step(0, false, bench.sense(9), bench.sense(10), NOTHING, NOTHING);
    bench.step(0, true, bench.force(7), bench.force(8), NOTHING, NOTHING);
    List<Taken> results = bench.results();

    assertThat(results.subList(0, 3))
        .isEqualTo(
            Stream.generate(() -> new Taken.Refused(StepRefusal.SWITCHING.code()))
                .limit(3)
                .toList());
    assertThat(results.subList(3, 6)).allMatch(Taken.Measured.class::isInstance);
  }

  @Test
  void stepThatNamesAnEmptySlotIsRefusedAndAnUnreadableProgramEndsTheRun() {
    Bench bench = new Bench(2);
    bench.step(3, false, bench.force(1), bench.force(2), NOTHING, NOTHING);
    bench.host.pass(20_000);
    bench.host.stream(new Streamed.SetChange(1, 2, 3, List.of(1)));
    bench.host.pass(20_000);

    assertThat(bench.host.told(Notice.Results.class).get(0).results())
        .containsExactly(new Taken.Refused(StepRefusal.SETTING.code()));
    assertThat(bench.host.end().end()).isEqualTo(RunEnd.BAD_PROGRAM.code());
    assertThat(bench.host.end().done()).isEqualTo(1);
  }
}

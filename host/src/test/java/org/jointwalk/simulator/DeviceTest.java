package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.simulator.Clamped.JUNCTION;
import static org.jointwalk.simulator.Clamped.MAP;
import static org.jointwalk.simulator.Clamped.ON_LOWER;
import static org.jointwalk.simulator.Clamped.SPLIT;
import static org.jointwalk.simulator.Clamped.isolation;
import static org.jointwalk.simulator.Clamped.lowLevel;
import static org.jointwalk.simulator.Clamped.step;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Declaration;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramWriter;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Results;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;
import org.jointwalk.protocol.Wiring;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

/** A virtual fixture as whoever stands at the other end of its line meets it. */
class DeviceTest {

  private static final FixtureMap TWO_WIRE = Rings.fixture(MAP, Kelvin.NONE, Switching.MULTIPLEXER);

  static Device device(double pace, FixtureMap wired, Specimen.Trouble... troubles) {
    return new Device(
        MAP,
        Rings.specimen(7, Defects.NONE, troubles),
        wired,
        VirtualFixture.Conditions.CALM,
        DeviceTest::actions,
        pace,
        new Device.Start(77, 1),
        Device.Witness.NONE);
  }

  private static List<Action> actions(SetUp setUp) {
    return setUp.name().equals(ON_LOWER)
        ? List.of(SPLIT)
        : setUp.name().equals("interposer") ? List.of(SPLIT, new Action.Lift()) : List.of();
  }

  static Assembly assembly(String setUp) {
    return new Assembly(MAP, MAP.interposers().get(0), SetUp.named(setUp).orElseThrow());
  }

  private static DeviceHost host(double pace, Specimen.Trouble... troubles) {
    return host(device(pace, TWO_WIRE, troubles));
  }

  private static DeviceHost host(Device device) {
    DeviceHost host = new DeviceHost(device);
    assertThat(host.hello(0x1234_0005, false, 0)).isInstanceOf(Answer.Welcome.class);
    return host;
  }

  private static Scan scan(int steps) {
    return new Scan(
        ON_LOWER,
        100,
        IntStream.range(0, steps)
            .mapToObj(
                k ->
                    k % 3 == 0
                        ? step(Kind.JUNCTION, Rings.over(0), Rings.over(7 + k % 30), 1, JUNCTION)
                        : k % 3 == 1
                            ? lowLevel(Rings.over(k % 39), Rings.over(k % 39 + 1))
                            : isolation(Rings.over(k % 39), Rings.over(k % 39 + 1)))
            .toList());
  }

  private static Declaration declared(DeviceHost host) {
    return host.declare(assembly(ON_LOWER), TWO_WIRE);
  }

  private static ProgramWriter writer(
      DeviceHost host, long run, Scan scan, Declaration declaration) {
    return new ProgramWriter(run, scan, new Wiring(TWO_WIRE), declaration, host.welcome());
  }

  private static List<Reading> inProcess(FixtureMap wired, Scan scan) throws FixtureException {
    VirtualFixture fixture =
        new VirtualFixture(
            MAP, Rings.specimen(7, Defects.NONE), wired, VirtualFixture.Conditions.CALM);
    fixture.clamp(SetUp.named(ON_LOWER).orElseThrow(), List.of(SPLIT));
    List<Reading> readings = new ArrayList<>();
    fixture.run(scan, batch -> readings.addAll(batch.readings()));
    return readings.stream()
        .map(r -> Results.reading(r.index(), Results.taken(r, StepRefusal.KIND)))
        .toList();
  }

  @Test
  void scanReadsWhatTheVirtualFixtureReadsRoundedToTheUnitsOfTheProtocol() throws FixtureException {
    for (double pace : new double[] {0, 1}) {
      DeviceHost host = host(pace);
      Account account = host.run(1, scan(700), TWO_WIRE, declared(host));

      assertThat(account.end()).isEqualTo(RunEnd.DONE.code());
      assertThat(account.checked()).isEqualTo(800);
      assertThat(host.readings).isEqualTo(inProcess(TWO_WIRE, scan(700)));
    }
  }

  @Test
  void pacedRunTakesTheTimeThatItSays() {
    DeviceHost host = host(1);
    host.run(1, scan(300), TWO_WIRE, declared(host));
    long took = host.told(Notice.Results.class).stream().mapToLong(r -> r.span().took()).sum();

    assertThat(host.now).isBetween(took, took + 100_000);
    assertThat(took).isGreaterThan(500_000);
  }

  @Test
  void busChecksComeAfterSixtyFourConfigurationsAtTheLatest() {
    DeviceHost host = host(0);
    host.run(1, scan(150), TWO_WIRE, declared(host));

    assertThat(host.told(Notice.Check.class))
        .extracting(Notice.Check::upto)
        .containsExactly(100L, 164L, 228L, 250L);
    assertThat(host.told(Notice.Check.class)).noneMatch(Notice.Check::bad);
    assertThat(host.notices.get(host.notices.size() - 1).message()).isInstanceOf(Notice.End.class);
  }

  @Test
  void weldedRelayEndsEveryRunAtItsFirstCheck() {
    DeviceHost host = host(0, new Specimen.Trouble.StuckClosed(Rings.over(3)));
    Account account = host.run(1, scan(5), TWO_WIRE, declared(host));

    assertThat(account.end()).isEqualTo(RunEnd.BUS_CHECK.code());
    assertThat(account.done()).isEqualTo(100);
    assertThat(host.readings).isEmpty();
  }

  @Test
  void runWithoutCreditWaitsOpenAndGoesOnWhenItComes() {
    DeviceHost host = host(0);
    Declaration declaration = declared(host);
    host.begin(1, 100, 20, 108, declaration);
    ProgramWriter writer = writer(host, 1, scan(20), declaration);
    while (!writer.finished()) {
      writer.next(100).ifPresent(host::stream);
    }
    host.pass(200_000);
    Answer.State waiting = (Answer.State) host.ask(new Request.Status());

    assertThat(waiting.doing()).isEqualTo(3);
    assertThat(waiting.account().done()).isEqualTo(108);
    assertThat(host.device.closed()).isEmpty();
    host.stream(new Streamed.Credit(1, 104));
    host.stream(new Streamed.Credit(1, 120));
    host.pass(100_000);
    assertThat(host.end().end()).isEqualTo(RunEnd.DONE.code());
  }

  @Test
  void runThatHasNoMoreStepsWaitsForThem() {
    DeviceHost host = host(0);
    Declaration declaration = declared(host);
    host.begin(1, 100, 2, 200, declaration);
    host.pass(20_000);
    assertThat(((Answer.State) host.ask(new Request.Status())).doing()).isEqualTo(2);

    ProgramWriter writer = writer(host, 1, scan(2), declaration);
    while (!writer.finished()) {
      writer.next(100).ifPresent(host::stream);
    }
    host.pass(20_000);
    assertThat(host.end().end()).isEqualTo(RunEnd.DONE.code());
  }

  /** A run whose steps are loaded and which waits for credit. */
  private static DeviceHost waiting() {
    DeviceHost host = host(0);
    Declaration declaration = declared(host);
    host.begin(1, 100, 20, 108, declaration);
    ProgramWriter writer = writer(host, 1, scan(20), declaration);
    while (!writer.finished()) {
      writer.next(100).ifPresent(host::stream);
    }
    host.pass(5_000);
    return host;
  }

  @Test
  void silenceOfASecondEndsTheRunAndNotASecondBefore() {
    DeviceHost host = waiting();
    host.pass(900_000);
    assertThat(host.device.running()).isTrue();
    host.pass(200_000);

    assertThat(host.end().end()).isEqualTo(RunEnd.HOST_SILENT.code());
    assertThat(host.device.closed()).isEmpty();
  }

  @Test
  void framesOfAnotherSessionDoNotCountAgainstSilence() {
    DeviceHost host = waiting();
    for (int i = 0; i < 12; i++) {
      host.pass(100_000);
      host.send(new Frame(host.session() + 1, 9, new Request.Status()));
    }

    assertThat(host.device.running()).isFalse();
  }

  @Test
  void lidInMidRunEndsItForgetsTheDeclarationAndMakesANewSeating() {
    DeviceHost host = waiting();
    Declaration declaration = Declaration.of(assembly(ON_LOWER), TWO_WIRE, 1_000);
    host.device.openLid();
    host.pass(10_000);

    assertThat(host.end().end()).isEqualTo(RunEnd.LID_OPENED.code());
    assertThat(refusal(host.begin(2, 100, 20, 108, declaration))).isEqualTo(Refusal.LID_OPEN);
    host.device.closeLid();
    assertThat(refusal(host.begin(2, 100, 20, 108, declaration))).isEqualTo(Refusal.NOT_DECLARED);
    assertThat(host.told(Notice.Event.class)).extracting(Notice.Event::kind).containsExactly(1, 2);
    assertThat(host.told(Notice.Event.class))
        .extracting(Notice.Event::count)
        .containsExactly(1L, 1L);
    assertThat(host.device.fixture().clamping().lid()).isEqualTo(2);
  }

  private static Refusal refusal(Answer answer) {
    assertThat(answer).isInstanceOf(Answer.Refused.class);
    return Refusal.of(((Answer.Refused) answer).code()).orElseThrow();
  }

  @Test
  void lidStaysWhereItIsForWhateverBecomesOfTheHostsOfOneSetUp() {
    DeviceHost host = host(0);
    host.run(1, scan(5), TWO_WIRE, declared(host));
    declared(host);
    assertThat(lid(host)).isZero();

    host.begin(2, 100, 20, 108, Declaration.of(assembly(ON_LOWER), TWO_WIRE, channels(host)));
    host.ask(new Request.Stop());
    declared(host);
    assertThat(lid(host)).isZero();

    host.hello(0x1999_0007, true, 0);
    declared(host);
    assertThat(lid(host)).isZero();
    host.line.close();
    DeviceHost later = new DeviceHost(host.device);
    later.now = host.now;
    later.hello(0x4444_0009, false, 0);
    declared(later);
    assertThat(lid(later)).isZero();
  }

  @Test
  void lidMovesForAnotherSetUpInTheSessionThatDeclaresIt() {
    DeviceHost host = host(0);
    host.run(1, scan(5), TWO_WIRE, declared(host));

    host.declare(assembly("interposer"), TWO_WIRE);

    assertThat(lid(host)).isEqualTo(1);
    assertThat(host.device.fixture().truth().assembly().setUp().name()).isEqualTo("interposer");
    host.declare(assembly("interposer"), TWO_WIRE);
    assertThat(lid(host)).isEqualTo(1);
  }

  @Test
  void lidMovesForPartsThatWereWorkedOnMeanwhile() {
    List<Action> work = new ArrayList<>(List.of(SPLIT));
    DeviceHost host =
        host(
            new Device(
                MAP,
                Rings.specimen(7, Defects.NONE),
                TWO_WIRE,
                VirtualFixture.Conditions.CALM,
                setUp -> List.copyOf(work),
                0,
                new Device.Start(77, 1),
                Device.Witness.NONE));
    declared(host);
    work.add(new Action.Reball(Side.LOWER, List.of()));
    declared(host);

    assertThat(lid(host)).isEqualTo(1);
    declared(host);
    assertThat(lid(host)).isEqualTo(1);
  }

  private static int channels(DeviceHost host) {
    return host.welcome().channels();
  }

  private static long lid(DeviceHost host) {
    return ((Answer.State) host.ask(new Request.Status())).lidCount();
  }

  @Test
  void anotherProgramIsBusyUnlessItTakesOver() {
    DeviceHost host = waiting();
    DeviceHost other = new DeviceHost(host.device);
    other.now = host.now + 120_000;

    Answer busy = other.hello(0x4444_0009, false, 0);
    assertThat(refusal(busy)).isEqualTo(Refusal.BUSY);
    assertThat(((Answer.Refused) busy).detail()).isBetween(115L, 130L);
    assertThat(host.device.running()).isTrue();
    assertThat(other.hello(0x4444_0009, true, 0)).isInstanceOf(Answer.Welcome.class);
    assertThat(host.device.running()).isFalse();
    int before = host.notices.size();
    host.now = other.now;
    host.pass(50_000);
    assertThat(host.notices).hasSize(before);
    assertThat(refusal(host.ask(new Request.Status()))).isEqualTo(Refusal.NO_SESSION);
  }

  @Test
  void hostThatComesBackReplacesItsOwnSession() {
    DeviceHost host = waiting();
    host.line.close();
    DeviceHost again = new DeviceHost(host.device);
    again.now = host.now;

    assertThat(again.hello(0x4444_0009, false, 0x1234_0005)).isInstanceOf(Answer.Welcome.class);
    assertThat(lid(again)).isZero();
  }

  @Test
  void repeatedRequestGetsTheSameBytesAndIsNotExecutedAgain() {
    DeviceHost host = host(0);
    Declaration declaration = declared(host);
    Answer first = host.begin(1, 100, 2, 200, declaration);
    host.pass(30_000);
    Frame again =
        host.exchange(
            new Frame(
                host.session(),
                host.number(),
                new Request.Run(1, 100, 2, 200, declaration.check())));

    assertThat(again.message()).isEqualTo(first);
    Frame reused = host.exchange(new Frame(host.session(), host.number(), new Request.Status()));
    assertThat(refusal((Answer) reused.message())).isEqualTo(Refusal.NUMBER_REUSED);
    Frame old = host.exchange(new Frame(host.session(), host.number() - 1, new Request.Status()));
    assertThat(refusal((Answer) old.message())).isEqualTo(Refusal.NUMBER_OLD);
  }

  @Test
  void stopIsObeyedFromAnySessionAndAnsweredAfterTheEnd() {
    DeviceHost host = waiting();
    Frame answer = host.exchange(new Frame(3, 9, new Request.Stop()));

    assertThat(refusal((Answer) answer.message())).isEqualTo(Refusal.NO_SESSION);
    assertThat(host.end().end()).isEqualTo(RunEnd.STOPPED.code());
    assertThat(host.end().checked()).isEqualTo(108);
    assertThat(host.end().records()).isEqualTo(lastRecord(host));
  }

  private static int lastRecord(DeviceHost host) {
    return host.notices.stream()
        .filter(frame -> frame.message() instanceof Notice.Recorded)
        .mapToInt(Frame::number)
        .max()
        .orElse(0);
  }

  @Test
  void lostStreamedFrameIsToldOnceAndTakenWhenItComesAgain() {
    DeviceHost host = host(0);
    Declaration declaration = declared(host);
    host.begin(1, 100, 20, 120, declaration);
    ProgramWriter writer = writer(host, 1, scan(20), declaration);
    List<Frame> frames = new ArrayList<>();
    while (!writer.finished()) {
      writer.next(100).ifPresent(m -> frames.add(new Frame(host.session(), frames.size() + 1, m)));
    }
    for (int i = 0; i < frames.size(); i++) {
      if (i != 1) {
        host.send(frames.get(i));
      }
      host.pass(1_000);
    }
    host.pass(10_000);
    assertThat(host.told(Notice.Heard.class)).filteredOn(Notice.Heard::gap).hasSize(1);
    frames.subList(1, frames.size()).forEach(host::send);
    host.pass(50_000);

    assertThat(host.end().end()).isEqualTo(RunEnd.DONE.code());
    assertThat(host.end().heard()).isEqualTo(frames.size());
  }

  @Test
  void restartForgetsTheSessionAndHasAnotherBootIdAndTheSameParts() {
    DeviceHost host = waiting();
    host.device.restart(new Device.Start(78, 3));

    assertThat(refusal(host.ask(new Request.Status()))).isEqualTo(Refusal.NO_SESSION);
    Answer.Welcome welcome = (Answer.Welcome) host.hello(0x7777_0001, false, 0);
    assertThat(welcome.boot()).isEqualTo(78);
    assertThat(welcome.resetCause()).isEqualTo(3);
    declared(host);
    assertThat(lid(host)).isZero();
  }

  @Test
  void brokenFixtureRefusesRunsUntilItIsRestarted() {
    DeviceHost host = waiting();
    host.device.breakDown(3);
    host.pass(5_000);

    assertThat(host.end().end()).isEqualTo(RunEnd.FAULT.code());
    assertThat(refusal(host.begin(2, 100, 20, 108, declared(host)))).isEqualTo(Refusal.FAULT);
  }

  @Test
  void fiveVoltsAreRefusedUntilBothChannelsAreProvedBare() {
    FixtureMap strong = withRange(Kind.ISOLATION, 5);
    DeviceHost host = host(device(0, strong));
    Declaration declaration = host.declare(assembly("interposer"), strong);
    Step five = step(Kind.ISOLATION, Rings.over(7), Rings.over(8), 5);
    Step proof = step(Kind.JUNCTION, Rings.over(7), Rings.over(8), 1, 0.01e-3);
    host.run(1, Scan.of("interposer", List.of(five, proof, five)), strong, declaration);

    assertThat(host.readings.get(0)).isEqualTo(new Reading.Refused(0, StepRefusal.NOT_BARE.text()));
    assertThat(host.readings.get(2)).isInstanceOf(Reading.Measured.class);
  }

  /** The two-wire fixture with more voltage for one kind of step. */
  private static FixtureMap withRange(Kind kind, double volts) {
    Capabilities able = TWO_WIRE.capabilities();
    Map<Kind, Range> ranges = new EnumMap<>(able.ranges());
    Range range = able.range(kind).orElseThrow();
    ranges.put(
        kind,
        new Range(
            range.current(),
            new Volts(volts),
            range.gain(),
            range.offset(),
            range.noise(),
            range.currentNoise(),
            range.seconds()));
    return new FixtureMap(
        TWO_WIRE.name(),
        TWO_WIRE.device(),
        new Capabilities(
            able.identity(),
            able.build(),
            able.calibration(),
            able.switching(),
            able.kelvin(),
            able.banks(),
            able.readers(),
            ranges,
            able.path(),
            able.probes(),
            able.ratings()),
        TWO_WIRE.channels(),
        TWO_WIRE.defective());
  }

  @Test
  void stepOverACeilingHasARefusalAsItsResultAndTheRunGoesOn() {
    DeviceHost host = host(0);
    Step over = step(Kind.LOW_LEVEL, Rings.over(7), Rings.over(8), 0.05, 0.01);
    Account account =
        host.run(
            1,
            Scan.of(ON_LOWER, List.of(over, lowLevel(Rings.over(3), Rings.over(23)))),
            TWO_WIRE,
            declared(host));

    assertThat(host.readings.get(0)).isEqualTo(new Reading.Refused(0, StepRefusal.VOLTAGE.text()));
    assertThat(host.readings.get(1)).isInstanceOf(Reading.Measured.class);
    assertThat(account.end()).isEqualTo(RunEnd.DONE.code());
  }

  @Test
  void liveRailIsReadAndNothingIsSourcedIntoIt() {
    Defects charged =
        Defects.NONE.with(
            new Component.NetOf(new NetId(Side.LOWER, "RAIL1")),
            new Condition.Charged(1.1, new Ohms(50)));
    DeviceHost host = host(device(charged));
    Step residual = step(Kind.RESIDUAL, Rings.over(13), Rings.over(0), 0.2);
    host.run(
        1,
        Scan.of(ON_LOWER, List.of(residual, lowLevel(Rings.over(13), Rings.over(0)))),
        TWO_WIRE,
        declared(host));

    assertThat(host.readings.get(0)).isInstanceOf(Reading.Measured.class);
    assertThat(host.readings.get(1)).isEqualTo(new Reading.Refused(1, StepRefusal.LIVE.text()));
  }

  private static Device device(Defects defects) {
    return new Device(
        MAP,
        Rings.specimen(7, defects),
        TWO_WIRE,
        VirtualFixture.Conditions.CALM,
        DeviceTest::actions,
        0,
        new Device.Start(77, 1),
        Device.Witness.NONE);
  }

  @Test
  void creditTellsTheWitnessWhatIsDurable() {
    List<Long> durable = new ArrayList<>();
    List<Long> taken = new ArrayList<>();
    Device device =
        new Device(
            MAP,
            Rings.specimen(7, Defects.NONE),
            TWO_WIRE,
            VirtualFixture.Conditions.CALM,
            DeviceTest::actions,
            0,
            new Device.Start(1, 1),
            new Device.Witness() {
              @Override
              public void taken(long run, long index, Taken result) {
                taken.add(index);
              }

              @Override
              public void acknowledged(long run, long below) {
                durable.add(below);
              }
            });
    DeviceHost host = new DeviceHost(device);
    host.hello(5, false, 0);
    Declaration declaration = declared(host);
    host.begin(1, 100, 20, 108, declaration);
    ProgramWriter writer = writer(host, 1, scan(20), declaration);
    while (!writer.finished()) {
      writer.next(100).ifPresent(host::stream);
    }
    host.pass(5_000);
    host.stream(new Streamed.Credit(1, 113));
    host.pass(5_000);

    assertThat(durable).containsExactly(105L);
    assertThat(taken)
        .containsExactlyElementsOf(IntStream.range(100, 113).mapToObj(Long::valueOf).toList());
  }
}

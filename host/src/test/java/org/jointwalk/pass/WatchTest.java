package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.job.WatchRecord;
import org.jointwalk.job.Watched;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

/** Watching twenty joints of the Saltmarsh S2 in simulated time. */
class WatchTest {

  private static final PadMap MAP = SaltmarshS2.map();
  private static final Action SPLIT = new Action.Split(Side.UPPER);
  private static final int JOINTS = 20;

  private JobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  private final Person person = new Person();

  /** Somebody who presses, says nothing and closes the lid so many times. */
  private static class Person implements Watcher {

    private final List<WatchEvent.Edge> heard = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private final List<String> typed = new ArrayList<>();
    private Runnable closing = () -> {};
    private int willing;

    @Override
    public void looking(WatchEvent.Looking looking) {}

    @Override
    public void changed(WatchEvent.Edge edge) {
      heard.add(edge);
    }

    @Override
    public void progress(double seconds, long looks) {}

    @Override
    public List<String> notes() {
      List<String> now = List.copyOf(typed);
      typed.clear();
      return now;
    }

    @Override
    public boolean lidOpened() {
      closing.run();
      return willing-- > 0;
    }

    @Override
    public void remark(String text) {
      remarks.add(text);
    }

    @Override
    public void stop() {}
  }

  private static Assembly assembly() {
    return new Assembly(
        MAP, MAP.interposers().get(0), SetUp.named("interposer-on-lower").orElseThrow());
  }

  /** Positions with a joint of their own in the path: some alone on their net, some not. */
  private static List<String> suspects() {
    Assembly assembly = assembly();
    Map<NetId, List<String>> pads = MAP.padsByNet(Side.LOWER);
    List<String> alone = new ArrayList<>();
    List<String> shared = new ArrayList<>();
    for (String id : MAP.positions().keySet()) {
      NetId net = MAP.position(id).net(Side.LOWER);
      if (!MAP.net(net).dcPath()
          || !assembly.inBranches(id).contains(new Component.Joint(Side.LOWER, id))) {
        continue;
      }
      int size = pads.getOrDefault(net, List.of()).size();
      // Two pads of a net lie in one look and drop out together.
      if (size != 2) {
        (size == 1 ? alone : shared).add(id);
      }
    }
    List<String> all = new ArrayList<>(alone.subList(0, JOINTS / 2));
    all.addAll(shared.subList(0, JOINTS / 2));
    return all;
  }

  private static Specimen specimen(Defects defects, long seed) {
    return new Specimen(MAP.interposers().get(0).variant(), seed, defects, List.of(), List.of());
  }

  private static Defects flicker(String position, double period, double open) {
    return Defects.NONE.with(
        new Component.Joint(Side.LOWER, position),
        new Condition.Intermittent(new Ohms(0.01), period, open));
  }

  private void begin() {
    log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
    log.append(
        "J-0001",
        0,
        List.of(
            new Event.Opened(new Intake(MAP.device(), "", "dropped", List.of("radio"), ""), "ab"),
            new Event.Done(SPLIT, "ab")));
  }

  private static VirtualFixture fixture(FixtureMap map, Specimen specimen) {
    VirtualFixture fixture = new VirtualFixture(MAP, specimen, map, VirtualFixture.Conditions.CALM);
    fixture.clamp(assembly().setUp(), List.of(SPLIT));
    return fixture;
  }

  private Watch watch(Fixture fixture, FixtureMap map, List<String> positions, double seconds) {
    return new Watch(fixture, log, person, request(map, positions, seconds));
  }

  private static WatchRequest request(FixtureMap map, List<String> positions, double seconds) {
    return new WatchRequest(
        "J-0001",
        assembly(),
        map.contacts(),
        positions,
        Set.of(),
        5,
        seconds,
        "p",
        "f",
        "ab",
        "test");
  }

  private WatchRecord record() {
    List<WatchRecord> all = WatchRecord.of(Job.fold("J-0001", log.read("J-0001")));
    return all.get(all.size() - 1);
  }

  private static List<String> dropping(Watched watched) {
    return watched.dropping().stream().map(Watched.Joint::position).toList();
  }

  @Test
  void dropoutOfThirtyMillisecondsASecondIsNamedWithinTenSeconds() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    for (int i = 0; i < JOINTS; i++) {
      String bad = suspects.get(i);
      begin();

      Watched watched =
          watch(fixture(map, specimen(flicker(bad, 1, 0.03), 40 + i)), map, suspects, 10).run();

      assertThat(dropping(watched)).as("seed %d", 40 + i).containsExactly(bad);
      assertThat(watched.seconds()).isBetween(10.0, 10.5);
      assertThat(watched.joints()).hasSize(JOINTS);
    }
  }

  @Test
  void soundJointsDoNotDropOutInAnHour() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    begin();

    Watched watched = watch(fixture(map, specimen(Defects.NONE, 3)), map, suspects(), 3600).run();

    assertThat(dropping(watched)).isEmpty();
    assertThat(watched.looks()).isGreaterThan(100_000);
    assertThat(log.read("J-0001")).hasSizeLessThan(1500);
  }

  @Test
  void dropoutAsLongAsIsCalledCertainIsNeverMissed() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    begin();
    double certain =
        watch(fixture(map, specimen(Defects.NONE, 3)), map, suspects, 5).run().certainSeconds();
    String bad = suspects.get(7);
    begin();

    Watched watched =
        watch(fixture(map, specimen(flicker(bad, 1, certain), 8)), map, suspects, 20).run();

    assertThat(certain).isBetween(0.05, 0.32);
    assertThat(watched.dropping()).hasSize(1);
    assertThat(watched.dropping().get(0).dropouts()).isBetween(19, 21);
    assertThat(watched.dropping().get(0).longestSeconds()).isLessThanOrEqualTo(certain + 0.01);
  }

  @Test
  void fixtureThatTakesTwentyMillisecondsALookSeesALongerDropout() throws Exception {
    FixtureMap map = slow(FixtureMaps.photoRelay(MAP), 0.0193);
    List<String> suspects = suspects();
    String bad = suspects.get(12);
    begin();

    Watched watched =
        watch(fixture(map, specimen(flicker(bad, 3, 0.8), 8)), map, suspects, 30).run();

    assertThat(dropping(watched)).containsExactly(bad);
    assertThat(watched.dropping().get(0).dropouts()).isBetween(9, 11);
  }

  private static FixtureMap slow(FixtureMap map, double seconds) {
    Capabilities able = map.capabilities();
    Map<Kind, Range> ranges = new LinkedHashMap<>();
    able.ranges()
        .forEach(
            (kind, r) ->
                ranges.put(
                    kind,
                    new Range(
                        r.current(),
                        r.compliance(),
                        r.gain(),
                        r.offset(),
                        r.noise(),
                        r.currentNoise(),
                        kind == Kind.JUNCTION ? seconds / 2 : seconds)));
    return FixtureMaps.wired(
        "slow",
        MAP,
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
            able.ratings()));
  }

  @Test
  void liveRailIsRefusedBeforeAnythingIsSourced() {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    NetId rail =
        MAP.nets().values().stream()
            .filter(n -> n.id().side() == Side.LOWER && n.role() == Role.RAIL)
            .findFirst()
            .orElseThrow()
            .id();
    Defects live =
        Defects.NONE.with(new Component.NetOf(rail), new Condition.Charged(3.8, new Ohms(10)));
    begin();

    assertThatThrownBy(() -> watch(fixture(map, specimen(live, 3)), map, suspects(), 10).run())
        .isInstanceOf(PassException.Unsafe.class)
        .hasMessageContaining(rail.name());
  }

  @Test
  void notesAreKeptWithTheirTime() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    begin();
    person.typed.add("pressing left corner");

    watch(fixture(map, specimen(flicker(suspects.get(0), 0.5, 0.2), 8)), map, suspects, 5).run();

    assertThat(record().notes())
        .extracting(WatchEvent.Noted::text)
        .containsExactly("pressing left corner");
    assertThat(record().after(record().notes().get(0))).containsOnlyKeys(suspects.get(0));
  }

  @Test
  void watchThatIsKilledKeepsWhatItSaw() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    begin();
    watch(fixture(map, specimen(flicker(suspects.get(3), 1, 0.3), 8)), map, suspects, 10).run();
    Watched whole = record().watched();
    List<Event> events = new ArrayList<>();
    log.read("J-0001").forEach(l -> events.add(l.event()));
    assertThat(events.remove(events.size() - 1)).isInstanceOf(WatchEvent.Ended.class);
    begin();
    log.append("J-0001", 2, events.subList(2, events.size()));

    Watched cut = record().watched();

    assertThat(record().ended()).isEmpty();
    assertThat(dropping(cut)).containsExactly(suspects.get(3));
    assertThat(cut.dropping().get(0).dropouts()).isEqualTo(whole.dropping().get(0).dropouts());
    assertThat(cut.seconds()).isGreaterThan(5);
  }

  @Test
  void lidThatOpensIsNoEndWhenItIsClosedAgain() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    VirtualFixture inside = fixture(map, specimen(flicker(suspects.get(3), 1, 0.3), 8));
    person.willing = 1;
    person.closing = inside::reseat;
    begin();

    Watched watched = watch(new Lidded(inside), map, suspects, 20).run();

    assertThat(dropping(watched)).containsExactly(suspects.get(3));
    assertThat(record().looking()).hasSize(2);
    assertThat(record().notes())
        .extracting(WatchEvent.Noted::text)
        .containsExactly("the lid was opened");
    assertThat(Job.fold("J-0001", log.read("J-0001")).seatings()).isEqualTo(2);
  }

  /** A fixture whose lid is opened once, in the midst of a long scan. */
  private static final class Lidded implements Fixture {

    private final VirtualFixture inside;
    private boolean opened;

    private Lidded(VirtualFixture inside) {
      this.inside = inside;
    }

    @Override
    public Capabilities capabilities() {
      return inside.capabilities();
    }

    @Override
    public Clamping clamping() {
      return inside.clamping();
    }

    @Override
    public void run(Scan scan, Keep keep) throws FixtureException {
      if (opened || scan.steps().size() < 1000) {
        inside.run(scan, keep);
        return;
      }
      opened = true;
      inside.run(new Scan(scan.setUp(), scan.first(), scan.steps().subList(0, 500)), keep);
      throw new FixtureException.LidOpened("the lid is open");
    }

    @Override
    public void stop() {
      inside.stop();
    }
  }

  @Test
  void stopEndsTheWatchWithWhatWasSeen() throws Exception {
    FixtureMap map = FixtureMaps.photoRelay(MAP);
    List<String> suspects = suspects();
    begin();
    List<Watch> running = new ArrayList<>();
    Watch watch =
        new Watch(
            fixture(map, specimen(flicker(suspects.get(3), 1, 0.3), 8)),
            log,
            new Person() {
              @Override
              public void progress(double seconds, long looks) {
                if (seconds > 3) {
                  running.get(0).stop();
                }
              }
            },
            request(map, suspects, Double.POSITIVE_INFINITY));
    running.add(watch);

    Watched watched = watch.run();

    assertThat(watched.seconds()).isBetween(3.0, 3.5);
    assertThat(dropping(watched)).containsExactly(suspects.get(3));
  }

  @Test
  void contactThatSlidesAFewMilliohmsIsNoDropout() {
    Dropouts dropouts = new Dropouts(5);
    Step step =
        new Step(
            Kind.LOW_LEVEL,
            List.of(new Contact.Pad(Plate.OVER, "N001")),
            List.of(new Contact.Pad(Plate.OVER, "N002")),
            List.of(new Amps(0.01)),
            new Volts(0.02),
            1);
    List<WatchEvent.Edge> edges = new ArrayList<>();
    double[] ohms = {0.5, 0.5, 0.52, 0.7, 1.5, 4.9, 0.5, 5.8, 0.5};

    for (int i = 0; i < ohms.length; i++) {
      Reading reading = new Reading.Measured(i, List.of(new Reading.Point(ohms[i] * 0.01, 0.01)));
      dropouts.look("N001", step, reading, i, i + 0.1).ifPresent(edges::add);
    }

    assertThat(edges)
        .containsExactly(
            new WatchEvent.Edge("N001", true, 7), new WatchEvent.Edge("N001", false, 7.1));
  }
}

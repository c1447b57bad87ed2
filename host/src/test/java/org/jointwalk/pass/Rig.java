package org.jointwalk.pass;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Intake;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** A job, a fixture and an operator, ready for a pass. Not thread-safe. */
final class Rig implements Operator {

  static final String JOB = "J-0001";

  private final Assembly assembly;
  private final Set<Contact> wired;
  private final PlainFixture fixture;
  private final Defects damage;
  private final List<String> remarks = new ArrayList<>();
  private final List<List<String>> asked = new ArrayList<>();
  private final Map<Need, Integer> progress = new EnumMap<>(Need.class);
  private JobLog log = emptyLog();
  private int willing = Integer.MAX_VALUE;
  private boolean noticed = true;
  private Runnable afterBatch = () -> {};
  private Runnable whileAsked = () -> {};

  Rig(PadMap map, String setUp, Capabilities capabilities, Defects defects) {
    this(map, setUp, capabilities, defects, 1);
  }

  /**
   * @param scale of every resistance of a path
   */
  Rig(PadMap map, String setUp, Capabilities capabilities, Defects defects, double scale) {
    this(
        new Assembly(map, map.interposers().get(0), SetUp.named(setUp).orElseThrow()),
        capabilities,
        defects,
        scale);
  }

  private Rig(Assembly assembly, Capabilities capabilities, Defects defects, double scale) {
    this.assembly = assembly;
    this.wired = new LinkedHashSet<>(assembly.contacts());
    this.fixture = new PlainFixture(assembly, capabilities, defects, scale);
    this.damage = defects;
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Opened(
            new Intake(assembly.map().device(), "", "dropped", List.of("radio"), ""), "ab"));
    for (Action action : before(assembly.setUp())) {
      events.add(new Event.Done(action, "ab"));
    }
    log.append(JOB, 0, events);
  }

  /** What has to be done before a set-up can be there. */
  static List<Action> before(SetUp setUp) {
    if (setUp.possible().contains(Attachment.BOTH)) {
      return List.of();
    }
    if (setUp.possible().contains(Attachment.LOWER)) {
      return List.of(new Action.Split(Side.UPPER));
    }
    return setUp.possible().contains(Attachment.UPPER)
        ? List.of(new Action.Split(Side.LOWER))
        : List.of(new Action.Split(Side.UPPER), new Action.Lift());
  }

  private static JobLog emptyLog() {
    return new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC);
  }

  PlainFixture fixture() {
    return fixture;
  }

  /** What is wrong with the parts in the fixture. */
  Defects damage() {
    return damage;
  }

  Assembly assembly() {
    return assembly;
  }

  JobLog log() {
    return log;
  }

  /** Leaves a contact without a wire. */
  void cut(Contact contact) {
    wired.remove(contact);
  }

  /** The log holds these events and no more. */
  void remember(List<Event> events) {
    log = emptyLog();
    log.append(JOB, 0, events);
  }

  /** Something that happens between two passes. */
  void append(Event event) {
    log.append(JOB, log.read(JOB).size(), List.of(event));
  }

  /** Another log, which may stand before this rig's own. */
  void log(JobLog other) {
    log = other;
  }

  /** What happens whenever a batch has been kept. */
  void whenRead(Runnable then) {
    afterBatch = then;
  }

  /** What happens while the operator is waited for. */
  void whenAsked(Runnable then) {
    whileAsked = then;
  }

  /** The operator seats again so many times and no more. */
  void seatAgainAtMost(int times) {
    willing = times;
  }

  /** The fixture does not notice that its lid was opened. */
  void withoutLidSwitch() {
    noticed = false;
  }

  List<String> remarks() {
    return remarks;
  }

  /** The positions of every request to seat again. */
  List<List<String>> asked() {
    return asked;
  }

  /** How many batches each need took. */
  Map<Need, Integer> progress() {
    return progress;
  }

  Outcome run() throws FixtureException, PassException {
    return run(false);
  }

  Outcome resume() throws FixtureException, PassException {
    return run(true);
  }

  Outcome run(boolean resume) throws FixtureException, PassException {
    return run(fixture, resume);
  }

  /** Runs on another fixture, which may stand before this rig's own. */
  Outcome run(Fixture other, boolean resume) throws FixtureException, PassException {
    return pass(other, resume).run();
  }

  /** A pass that is still to be run. */
  Pass pass(Fixture other, boolean resume) {
    return new Pass(
        other,
        log,
        this,
        new Request(JOB, assembly, wired, Purpose.DIAGNOSIS, "p", "f", "ab", "test", resume));
  }

  @Override
  public boolean reseat(List<String> positions) {
    asked.add(positions);
    whileAsked.run();
    if (willing-- <= 0) {
      return false;
    }
    if (noticed) {
      fixture.reseat();
    }
    return true;
  }

  @Override
  public void progress(Need need, int taken, int of) {
    progress.merge(need, 1, Integer::sum);
    afterBatch.run();
  }

  @Override
  public void remark(String text) {
    remarks.add(text);
  }

  /** The findings by position. */
  static Map<String, Finding> byPosition(Findings findings) {
    Map<String, Finding> byPosition = new LinkedHashMap<>();
    findings.positions().forEach(f -> byPosition.put(f.position(), f));
    return byPosition;
  }

  /** The finding of one position. */
  static Finding of(Findings findings, String position) {
    return findings.positions().stream()
        .filter(f -> f.position().equals(position))
        .findFirst()
        .orElseThrow();
  }
}

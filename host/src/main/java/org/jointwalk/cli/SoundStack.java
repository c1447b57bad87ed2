package org.jointwalk.cli;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.Coverage;
import org.jointwalk.job.Coverage.How;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Question.Need;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.pass.Operator;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * What a fixture can show of a model: a stack without a fault is walked in the virtual fixture by
 * the very pass that a real one would be, so that the account cannot differ from what passes do.
 * Not thread-safe.
 */
final class SoundStack {

  /** Any stack will do; this one stays the same. */
  private static final long SEED = 1;

  private static final String JOB = "J-0001";

  private final PadMap map;
  private final Interposer interposer;
  private final FixtureMap fixtureMap;

  SoundStack(PadMap map, Interposer interposer, FixtureMap fixtureMap) {
    this.map = map;
    this.interposer = interposer;
    this.fixtureMap = fixtureMap;
  }

  /** What a set-up with something to read in it shows. */
  Coverage in(SetUp setUp) throws FixtureException, PassException {
    List<Action> actions = actions(setUp);
    VirtualFixture fixture =
        new VirtualFixture(
            map,
            new Specimen(interposer.variant(), SEED, Defects.NONE, List.of(), List.of()),
            fixtureMap,
            VirtualFixture.Conditions.CALM);
    fixture.clamp(setUp, actions);
    Assembly assembly = new Assembly(map, interposer, setUp);
    try (MemoryJobLog log = new MemoryJobLog(InstantSource.fixed(Instant.EPOCH), ZoneOffset.UTC)) {
      List<Event> events = new ArrayList<>();
      events.add(new Event.Opened(new Intake(map.device(), "", "", List.of(), ""), ""));
      actions.forEach(action -> events.add(new Event.Done(action, "")));
      log.append(JOB, 0, events);
      Request request =
          new Request(
              JOB, assembly, fixtureMap.contacts(), Purpose.DIAGNOSIS, "", "", "", "", false);
      var outcome = new Pass(fixture, log, new Nobody(), request).run();
      PassRecord pass = Job.fold(JOB, log.read(JOB)).passes().get(0);
      Map<String, PathEstimate> paths = new LinkedHashMap<>();
      for (PathEstimate path :
          new Solve(assembly, fixture.capabilities(), List.of())
              .estimates(pass.measurements())
              .paths()) {
        if (path.contact() instanceof Contact.Pad pad) {
          paths.merge(pad.position(), path, SoundStack::better);
        }
      }
      List<Coverage.Pad> pads = new ArrayList<>();
      for (Finding finding : outcome.findings().positions()) {
        pads.add(pad(assembly, finding, Optional.ofNullable(paths.get(finding.position()))));
      }
      return new Coverage(
          setUp.name(),
          pads,
          pass.measurements().size(),
          fixture.deviceSeconds(),
          outcome.findings());
    }
  }

  private static PathEstimate better(PathEstimate a, PathEstimate b) {
    return how(a).compareTo(how(b)) <= 0 ? a : b;
  }

  private static How how(PathEstimate path) {
    if (path.evidence() != Evidence.CONDUCTS) {
      return How.NOT_REACHED;
    }
    if (path.ohms().isEmpty()) {
      return How.CONDUCTS;
    }
    if (path.byDrop()) {
      return How.BY_DROP;
    }
    // Both tips of a bare via lie at one position: the sum of the two is the via.
    boolean other =
        path.sharedWith()
            .filter(c -> !(c instanceof Contact.Pad p && isAt(path.contact(), p)))
            .isPresent();
    return other ? How.AS_A_SUM : How.BY_ITSELF;
  }

  private static boolean isAt(Contact contact, Contact.Pad pad) {
    return contact instanceof Contact.Pad own && own.position().equals(pad.position());
  }

  private Coverage.Pad pad(Assembly assembly, Finding finding, Optional<PathEstimate> path) {
    String id = finding.position();
    if (finding.grade() == Grade.MASKED) {
      return new Coverage.Pad(id, How.MASKED, Optional.empty(), finding.reason());
    }
    if (finding.grade().isConnected() || finding.grade() == Grade.UNDECIDED) {
      How how = path.map(SoundStack::how).orElse(How.CONDUCTS);
      String reason =
          how == How.BY_ITSELF && finding.detectable().isEmpty() ? "" : finding.reason();
      return new Coverage.Pad(id, how, finding.detectable(), reason);
    }
    boolean blocked =
        assembly.setUp().boards().stream()
            .map(side -> map.netAt(id, side))
            .anyMatch(SoundStack::blocked);
    return new Coverage.Pad(
        id, blocked ? How.NO_DC_PATH : How.NOT_REACHED, Optional.empty(), finding.reason());
  }

  private static boolean blocked(Net net) {
    return net.role() == Role.UNUSED || !net.dcPath();
  }

  /** The fewest actions after which a set-up can be there. */
  private static List<Action> actions(SetUp setUp) {
    if (setUp.possible().contains(Attachment.BOTH)) {
      return List.of();
    }
    for (Side side : Side.values()) {
      if (setUp.possible().contains(Attachment.only(side))) {
        return List.of(new Action.Split(side.other()));
      }
    }
    return List.of(new Action.Split(Side.UPPER), new Action.Lift());
  }

  /** Nobody is at the fixture, and nothing is clamped twice. */
  private static final class Nobody implements Operator {

    @Override
    public boolean reseat(List<String> positions) {
      return false;
    }

    @Override
    public void progress(Need need, int taken, int of) {
      // Nobody looks on.
    }

    @Override
    public void remark(String text) {
      // What a sound stack makes a pass say is of no interest here.
    }
  }
}

package org.jointwalk.diagnose;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Path;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.fixture.Ratings;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Seating;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * Writes a job as it would be told at the bench: what was done, and what each pass found. A pass is
 * good everywhere but where the story says otherwise; ground pads are masked in a set-up with
 * joints, and pads that cannot be read are not tested.
 */
final class Story {

  private static final Capabilities FIXTURE =
      new Capabilities(
          "test fixture",
          "test",
          "test",
          Switching.MULTIPLEXER,
          Kelvin.NONE,
          1,
          1,
          Map.of(),
          new Path(new Ohms(1), new Ohms(1), new Ohms(0.01), new Amps(0), 0.001, 0.001),
          new ProbeQuality(new Ohms(0.02), new Ohms(0.01)),
          new Ratings(new Volts(5), 0, 1));

  private final PadMap map;
  private final List<Event> events = new ArrayList<>();
  private int passes;
  private int seatings;

  private Story(PadMap map) {
    this.map = map;
  }

  static Story of(PadMap map, String... fails) {
    Story story = new Story(map);
    story.events.add(
        new Event.Opened(new Intake(map.device(), "", "dropped", List.of(fails), ""), "KM"));
    return story;
  }

  static Story of(PadMap map, List<Event> events) {
    Story story = new Story(map);
    story.events.addAll(events);
    return story;
  }

  /** Goes on counting passes and seatings where the events so far end. */
  Story resumeCounting() {
    passes = (int) events.stream().filter(Event.PassBegun.class::isInstance).count();
    seatings = (int) events.stream().filter(Event.Seated.class::isInstance).count();
    return this;
  }

  List<Event> events() {
    return List.copyOf(events);
  }

  PadMap map() {
    return map;
  }

  Story done(Action action) {
    events.add(new Event.Done(action, "KM"));
    return this;
  }

  Story split(Side letGo) {
    return done(new Action.Split(letGo));
  }

  Story lift() {
    return done(new Action.Lift());
  }

  Story reball(Side side, String... positions) {
    return done(new Action.Reball(side, List.of(positions)));
  }

  Story saw(Side side, String position, Seen.Look look) {
    events.add(new Event.Looked(new Seen(side, position, look), "KM"));
    return this;
  }

  Story clamped(WorksClamped works) {
    events.add(new Event.Clamped(works, "KM"));
    return this;
  }

  /** A pass that was begun and is not graded. */
  Story begun(String setUp) {
    passes++;
    events.add(begin(setUp, Purpose.DIAGNOSIS));
    return this;
  }

  Story closed() {
    events.add(new Event.Closed("KM"));
    return this;
  }

  private Event begin(String setUp, Purpose purpose) {
    return new Event.PassBegun(passes, setUp, purpose, "thin", "map", "fixture", FIXTURE, "KM");
  }

  /** A pass that finds all good that its set-up can see. */
  Story good(String setUp) {
    return pass(setUp).end();
  }

  PassStory pass(String setUp) {
    return new PassStory(setUp, Purpose.DIAGNOSIS);
  }

  PassStory check(String setUp) {
    return new PassStory(setUp, Purpose.REBALL);
  }

  Job job() {
    List<Logged> log = new ArrayList<>();
    for (Event event : events) {
      log.add(
          new Logged(
              log.size() + 1L,
              Instant.parse("2026-03-02T09:00:00Z").plusSeconds(60L * log.size()),
              ZoneOffset.UTC,
              event));
    }
    return Job.fold("J-0001", log);
  }

  Verdict verdict() {
    return new Diagnose().verdict(map, map.interposers().get(0), job());
  }

  /** One pass in the telling. */
  final class PassStory {

    private final SetUp setUp;
    private final Purpose purpose;
    private final Map<String, Finding> said = new LinkedHashMap<>();
    private final List<BridgeFinding> bridges = new ArrayList<>();
    private final List<BoardFinding> boards = new ArrayList<>();
    private final Assembly assembly;
    private int clampings = 2;

    private PassStory(String setUp, Purpose purpose) {
      this.setUp = SetUp.named(setUp).orElseThrow();
      this.purpose = purpose;
      this.assembly = new Assembly(map, map.interposers().get(0), this.setUp);
    }

    PassStory open(String... positions) {
      return fault(Grade.OPEN, true, Optional.empty(), positions);
    }

    /** Open, with parts of the teller's choice. */
    PassStory openAmong(String id, Component... among) {
      said.put(
          id, finding(id, Grade.OPEN, true, Optional.empty(), Optional.empty(), List.of(among)));
      return this;
    }

    /** Open in the only clamping there was. */
    PassStory openOnce(String... positions) {
      clampings = 1;
      return fault(Grade.OPEN, false, Optional.empty(), positions);
    }

    PassStory high(double ohms, String... positions) {
      return fault(Grade.HIGH, true, Optional.of(Estimate.known(ohms, ohms / 50)), positions);
    }

    PassStory grade(Grade grade, String... positions) {
      for (String id : positions) {
        said.put(id, finding(id, grade, true, Optional.empty(), Optional.empty(), List.of()));
      }
      return this;
    }

    /** Connected, but a resistance below this would not have shown. */
    PassStory blind(double ohms, String... positions) {
      for (String id : positions) {
        said.put(
            id,
            finding(
                id, Grade.GOOD, true, Optional.empty(), Optional.of(new Ohms(ohms)), List.of()));
      }
      return this;
    }

    /** One of two joints of a net with two pads is high; the pass cannot say which. */
    PassStory highSum(double ohms, String a, String b) {
      Set<Component> both = new LinkedHashSet<>(path(a));
      both.addAll(path(b));
      for (String id : List.of(a, b)) {
        said.put(
            id,
            finding(
                id,
                Grade.HIGH,
                true,
                Optional.of(Estimate.known(ohms, ohms / 50)),
                Optional.empty(),
                List.copyOf(both)));
      }
      return this;
    }

    PassStory bridge(String a, String b, double ohms) {
      bridges.add(new BridgeFinding(a, b, Estimate.known(ohms, ohms / 20)));
      for (String id : List.of(a, b)) {
        said.put(
            id, finding(id, Grade.BRIDGED, true, Optional.empty(), Optional.empty(), List.of()));
      }
      return this;
    }

    PassStory board(Side side, String net, BoardFinding.Fault fault) {
      boards.add(new BoardFinding(new NetId(side, net), fault, "far below the reference"));
      return this;
    }

    PassStory in(int clampings) {
      this.clampings = clampings;
      return this;
    }

    private PassStory fault(
        Grade grade, boolean confirmed, Optional<Estimate> ohms, String... positions) {
      for (String id : positions) {
        said.put(id, finding(id, grade, confirmed, ohms, Optional.empty(), path(id)));
      }
      return this;
    }

    private List<Component> path(String id) {
      return setUp.over().isEmpty() && setUp.under().isEmpty()
          ? assembly.present(id)
          : List.copyOf(assembly.inBranches(id));
    }

    private Finding finding(
        String id,
        Grade grade,
        boolean confirmed,
        Optional<Estimate> ohms,
        Optional<Ohms> detectable,
        List<Component> among) {
      Optional<Ohms> limit = ohms.map(e -> new Ohms(0.3));
      return new Finding(
          id, grade, ohms, limit, clampings, confirmed, detectable, among, "as the story says");
    }

    private Finding usual(String id) {
      boolean board = !setUp.boards().isEmpty();
      boolean readable = setUp.boards().stream().allMatch(s -> map.netAt(id, s).dcPath());
      boolean ground = map.netAt(id, Side.LOWER).role() == Role.GROUND;
      Grade grade =
          board && !readable
              ? Grade.NOT_TESTED
              : board && ground && !setUp.joints().isEmpty() ? Grade.MASKED : Grade.GOOD;
      return finding(id, grade, false, Optional.empty(), Optional.empty(), List.of());
    }

    Story end() {
      passes++;
      events.add(begin(setUp.name(), purpose));
      for (int i = 0; i < clampings; i++) {
        seatings++;
        events.add(new Event.Seated(passes, new Seating(seatings, new Clamping(1, seatings))));
      }
      List<Finding> findings =
          map.positions().keySet().stream()
              .map(id -> Optional.ofNullable(said.get(id)).orElseGet(() -> usual(id)))
              .toList();
      events.add(
          new Event.PassGraded(passes, new Findings(findings, bridges, boards, "test"), "test"));
      return Story.this;
    }
  }
}

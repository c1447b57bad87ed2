package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/**
 * A fixture whose every scan and reading passes through the bytes of the protocol and back, without
 * a line. Counts the steps that a fixture would refuse by the reasons for it.
 */
final class ThroughBytes implements Fixture {

  private static final int CHANNELS = 2000;

  private final Fixture behind;
  private final PadMap map;
  private final FixtureMap wired;
  private final Capabilities able;
  private final Map<StepRefusal, Integer> refused = new EnumMap<>(StepRefusal.class);

  ThroughBytes(Fixture behind, PadMap map, FixtureMap wired) throws BreachException {
    this.behind = behind;
    this.map = map;
    this.wired = wired;
    able = CapabilityItems.read(CapabilityItems.of(behind.capabilities(), CHANNELS));
  }

  Map<StepRefusal, Integer> refused() {
    return refused;
  }

  @Override
  public Capabilities capabilities() {
    return able;
  }

  @Override
  public Clamping clamping() throws FixtureException {
    return behind.clamping();
  }

  @Override
  public void run(Scan scan, Keep keep) throws FixtureException {
    List<Step> steps = arrived(scan);
    behind.run(
        new Scan(scan.setUp(), scan.first(), steps), batch -> back(batch).forEach(keep::keep));
  }

  private List<Step> arrived(Scan scan) {
    Declaration declaration =
        Declaration.of(
            new Assembly(map, map.interposers().get(0), SetUp.named(scan.setUp()).orElseThrow()),
            wired,
            CHANNELS);
    Answer.Welcome limits =
        new Answer.Welcome(1, 1, 0, 0, 0, 0, 0, 0, 252, CHANNELS, 64, 16, 8, 24, 0, 0, 0, 0);
    Wiring wiring = new Wiring(wired);
    ProgramWriter writer = new ProgramWriter(1, scan, wiring, declaration, limits);
    ProgramReader reader =
        new ProgramReader(
            limits, new Request.Run(1, scan.first(), Math.max(1, scan.steps().size()), 0, 0));
    StepCheck check = new StepCheck(able, CHANNELS);
    List<Step> steps = new ArrayList<>();
    long done = scan.first();
    while (steps.size() < scan.steps().size()) {
      Optional<Streamed> message = writer.next(done);
      if (message.isPresent()) {
        reader
            .take((Streamed) read(new Frame(1, 1, message.get())), done)
            .ifPresent(
                fault -> {
                  throw new IllegalStateException(fault + " at " + message.get());
                });
        continue;
      }
      ProgramReader.Loaded loaded = reader.step(done).orElseThrow();
      check
          .refusal(loaded, declaration, Set.of())
          .ifPresent(reason -> refused.merge(reason, 1, Integer::sum));
      steps.add(loaded.inContacts(wiring, declaration).orElseThrow());
      done++;
    }
    return steps;
  }

  private static List<Batch> back(Batch batch) {
    List<Batch> batches = new ArrayList<>();
    List<Taken> frame = new ArrayList<>();
    int first = batch.readings().get(0).index();
    long closures = batch.closures();
    double seconds = batch.deviceSeconds();
    for (Reading reading : batch.readings()) {
      frame.add(Results.taken(reading, StepRefusal.KIND));
      if (!Notice.Results.fits(frame)) {
        frame.remove(frame.size() - 1);
        batches.add(back(first, frame, closures, seconds));
        closures = 0;
        seconds = 0;
        first = reading.index();
        frame = new ArrayList<>(List.of(Results.taken(reading, StepRefusal.KIND)));
      }
    }
    batches.add(back(first, frame, closures, seconds));
    return batches;
  }

  private static Batch back(int first, List<Taken> frame, long closures, double seconds) {
    Notice.Span span = new Notice.Span(1, 0, first, 0, Math.round(seconds * 1e6), closures);
    try {
      return Results.batch((Notice.Results) read(new Frame(1, 1, new Notice.Results(span, frame))));
    } catch (BreachException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Message read(Frame frame) {
    byte[] wire = frame.encode();
    List<Received> received =
        new Parser(Lines.receiver(frame.message().type())).feed(wire, 0, wire.length);
    return ((Received.Whole) received.get(0)).frame().message();
  }

  @Override
  public void stop() {
    behind.stop();
  }
}

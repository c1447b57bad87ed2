package org.jointwalk.campaign;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import org.jointwalk.fixture.Batch;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Intake;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.PassRecord;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.simulator.Device;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;

/**
 * Kills programs that run a pass over a line, at named points and at any moment, resumes them, and
 * compares their logs with what the device took and what was acknowledged to it.
 */
final class Kill implements Experiment {

  private static final int POSITIONS = 120;
  private static final int ROWS = 2;
  private static final int FAULTS = 5;
  private static final int PATIENCE_SECONDS = 120;

  /** Fewer frames than the host sends in any pass. */
  private static final int LATEST_FRAME = 40;

  private static final String LOST = "acknowledged readings lost";
  private static final String INVENTED = "readings kept twice or that the device did not take";
  private static final String UNENDED = "passes that did not end after a resume";
  private static final String OTHER = "grades other than those of a pass that nobody killed";
  private static final String PREFIXES = "prefixes of a write-ahead log that open as no valid job";
  private static final String SURVIVED = "points that were not reached";
  private static final String KILLS = "kills";

  @Override
  public String name() {
    return "kill";
  }

  @Override
  public String about() {
    return "kills programs in the middle of a pass and asks what was lost";
  }

  @Override
  public Result run(long seed, Scale scale) {
    SplittableRandom random = new SplittableRandom(seed);
    long model = random.nextLong();
    Stand stand = stand(model);
    Specimen specimen = specimen(stand, random);
    Bench bench = new Bench(model, stand, specimen);
    Story whole = bench.story(List.of());
    List<Callable<Story>> work = new ArrayList<>();
    for (Mortal.Point point : Mortal.Point.values()) {
      for (int i = 0; point != Mortal.Point.NEVER && i < times(scale); i++) {
        int last = point == Mortal.Point.MID_FRAME ? LATEST_FRAME : whole.batches();
        Death death = new AtPoint(point, 1 + random.nextInt(last));
        work.add(() -> bench.story(List.of(death)));
      }
    }
    for (int i = 0; i < instants(scale); i++) {
      List<Death> deaths = new ArrayList<>();
      deaths.add(new AfterAcknowledged(random.nextLong(whole.acknowledged())));
      if (i % 5 == 0) {
        deaths.add(new AfterAcknowledged(random.nextLong(whole.acknowledged())));
      }
      work.add(() -> bench.story(List.copyOf(deaths)));
    }
    Score score = new Score();
    for (Story story : Workers.inOrder(work)) {
      judge(story, whole, score);
    }
    long[] prefixes = bench.prefixes(scale, 1 + random.nextInt(whole.batches()));
    score.tally().add(PREFIXES, prefixes[0], prefixes[1]);
    List<Figure> figures = new ArrayList<>();
    for (String name : List.of(LOST, INVENTED, UNENDED, OTHER, PREFIXES)) {
      figures.add(Figure.none(name, score.tally().hits(name), score.tally().of(name)));
    }
    figures.add(Figure.count(SURVIVED, score.tally().hits(SURVIVED), score.tally().of(SURVIVED)));
    figures.add(Figure.count(KILLS, score.tally().hits(KILLS), work.size()));
    return new Result(figures, score.notes());
  }

  private static int times(Scale scale) {
    return scale == Scale.FULL ? 5 : 1;
  }

  private static int instants(Scale scale) {
    return switch (scale) {
      case SMALL -> 1;
      case QUICK -> 5;
      case FULL -> 50;
    };
  }

  /** The model, set-up and fixture of every program of this campaign. */
  static Stand stand(long model) {
    PadMap map = Ring.of(POSITIONS, ROWS, model);
    return new Stand(
        map, FixtureMaps.photoRelay(map), SetUp.named("interposer-on-lower").orElseThrow());
  }

  private static Specimen specimen(Stand stand, SplittableRandom random) {
    return new Specimen(
        stand.map().interposers().get(0).variant(),
        random.nextLong(),
        Defects.NONE,
        List.of(
            new Specimen.Outcome(
                stand.actions().size(), Line.withoutBridges(stand, FAULTS, random), List.of())),
        List.of());
  }

  private static void judge(Story story, Story whole, Score score) {
    DeviceAccount.Comparison compared = story.compared();
    score.tally().add(LOST, compared.lost(), compared.acknowledged());
    score.tally().add(INVENTED, compared.invented(), story.kept());
    score.tally().add(UNENDED, !story.ended());
    score.tally().add(SURVIVED, story.deaths().size() - story.kills(), story.deaths().size());
    score.tally().add(KILLS, story.kills(), 1);
    int other = 0;
    for (Map.Entry<String, Grade> grade : whole.grades().entrySet()) {
      other += grade.getValue() == story.grades().get(grade.getKey()) ? 0 : 1;
    }
    score.tally().add(OTHER, other, whole.grades().size());
    if (compared.lost() + compared.invented() + other > 0 || !story.ended()) {
      score.note(
          "after "
              + story.deaths()
              + ": lost "
              + compared.lost()
              + ", invented "
              + compared.invented()
              + ", other grades "
              + other
              + (story.ended() ? "" : ", not ended: " + story.words()));
    }
  }

  /** When a program dies. */
  private sealed interface Death {}

  /** By itself, when it comes to a point for the nth time. */
  private record AtPoint(Mortal.Point point, int nth) implements Death {}

  /** By a signal that it cannot catch, when so many readings were acknowledged in all. */
  private record AfterAcknowledged(long readings) implements Death {}

  /**
   * What became of a pass.
   *
   * @param deaths that were planned
   * @param kills that happened
   * @param words last words of a program that failed
   */
  private record Story(
      List<Death> deaths,
      int kills,
      boolean ended,
      long acknowledged,
      long kept,
      int batches,
      DeviceAccount.Comparison compared,
      Map<String, Grade> grades,
      String words) {}

  /** Makes passes, each with a device and a log of its own. */
  private record Bench(long model, Stand stand, Specimen specimen) {

    private Device device(Device.Witness witness) {
      return new Device(
          stand.map(),
          specimen,
          stand.fixture(),
          VirtualFixture.Conditions.CALM,
          setUp -> stand.actions(),
          0,
          new Device.Start(1, 1),
          witness);
    }

    private Story story(List<Death> deaths) {
      try {
        Path folder = Files.createTempDirectory("jointwalk-kill");
        try {
          return story(deaths, folder);
        } finally {
          delete(folder);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    private Story story(List<Death> deaths, Path folder) throws IOException {
      DeviceAccount account = new DeviceAccount();
      Path file = folder.resolve("jobs.db");
      begin(file);
      int kills = 0;
      Ended ended = new Ended(true, "");
      try (ServedDevice served = new ServedDevice(device(account))) {
        for (Death death : deaths) {
          kills += program(served, file, death, account, folder).killed() ? 1 : 0;
        }
        ended = program(served, file, new AtPoint(Mortal.Point.NEVER, 0), account, folder);
      }
      Job job = job(file);
      List<Batch> kept = new ArrayList<>();
      job.passes().forEach(p -> p.scans().forEach(scan -> scan.batches().forEach(kept::add)));
      Map<String, Grade> grades = new LinkedHashMap<>();
      job.passes().stream()
          .flatMap(p -> p.graded().stream())
          .flatMap(g -> g.findings().positions().stream())
          .forEach((Finding f) -> grades.put(f.position(), f.grade()));
      return new Story(
          deaths,
          kills,
          !grades.isEmpty() && job.passes().stream().noneMatch(PassRecord::open),
          account.acknowledged(),
          kept.stream().mapToLong(b -> b.readings().size()).sum(),
          kept.size(),
          account.compare(kept),
          grades,
          ended.words());
    }

    private void begin(Path file) {
      try (JobLog log = open(file)) {
        List<Event> events = new ArrayList<>();
        events.add(
            new Event.Opened(
                new Intake(stand.map().device(), "", "dropped", List.of("radio"), ""), "jw"));
        stand.actions().forEach(action -> events.add(new Event.Done(action, "jw")));
        log.append(Mortal.JOB, 0, events);
      }
    }

    /** How a program ended. */
    private record Ended(boolean killed, String words) {}

    private Ended program(
        ServedDevice served, Path file, Death death, DeviceAccount account, Path folder)
        throws IOException {
      boolean byItself = death instanceof AtPoint;
      Path words = folder.resolve("words.txt");
      Process process =
          new ProcessBuilder(
                  Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                  "-XX:+UseSerialGC",
                  "-XX:TieredStopAtLevel=1",
                  "-cp",
                  System.getProperty("java.class.path"),
                  Mortal.class.getName(),
                  served.port(),
                  file.toString(),
                  Long.toString(model),
                  death instanceof AtPoint at ? at.point().name() : Mortal.Point.NEVER.name(),
                  death instanceof AtPoint at ? Integer.toString(at.nth()) : "0")
              .redirectErrorStream(true)
              .redirectOutput(words.toFile())
              .start();
      try {
        long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
        while (!process.waitFor(1, TimeUnit.MILLISECONDS) && System.nanoTime() < until) {
          if (death instanceof AfterAcknowledged after
              && account.acknowledged() >= after.readings()) {
            process.destroyForcibly();
          }
        }
        process.destroyForcibly().waitFor();
      } catch (InterruptedException e) {
        process.destroyForcibly();
        Thread.currentThread().interrupt();
      }
      return new Ended(process.exitValue() != 0, byItself ? Files.readString(words) : "");
    }

    /**
     * Kills a program and opens what a crash at any moment would have left of its write-ahead log.
     *
     * @return prefixes that make no valid job, and all
     */
    private long[] prefixes(Scale scale, int nth) {
      try {
        Path folder = Files.createTempDirectory("jointwalk-kill");
        try {
          Path file = folder.resolve("jobs.db");
          begin(file);
          try (ServedDevice served = new ServedDevice(device(Device.Witness.NONE))) {
            program(
                served,
                file,
                new AtPoint(Mortal.Point.AFTER_APPEND, nth),
                new DeviceAccount(),
                folder);
          }
          return WriteAhead.check(file, Mortal.JOB, scale == Scale.FULL);
        } finally {
          delete(folder);
        }
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }

    static SqliteJobLog open(Path file) {
      return new SqliteJobLog(file, InstantSource.system(), ZoneOffset.UTC);
    }

    private static Job job(Path file) {
      try (JobLog log = open(file)) {
        return Job.fold(Mortal.JOB, log.read(Mortal.JOB));
      }
    }

    private static void delete(Path folder) {
      File[] files = folder.toFile().listFiles();
      for (File file : files == null ? new File[0] : files) {
        if (!file.delete()) {
          file.deleteOnExit();
        }
      }
      folder.toFile().deleteOnExit();
    }
  }
}

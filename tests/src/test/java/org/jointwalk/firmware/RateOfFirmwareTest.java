package org.jointwalk.firmware;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.Collectors;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Event;
import org.jointwalk.job.JobLog;
import org.jointwalk.joblog.SqliteJobLog;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** How fast results come from the core over a pseudo-terminal, and whether all of them do. */
@NeedsTool("make")
@NeedsTool("gcc")
@Timeout(120)
class RateOfFirmwareTest {

  private static final int STEPS = 100_000;
  private static final int PAIRS = 59;
  private static final String SET_UP = "interposer-on-lower";

  @TempDir private Path folder = Path.of("");

  private static Contact.Pad pad(int k) {
    return new Contact.Pad(Plate.OVER, String.format(Locale.ROOT, "R%02d", k));
  }

  /** What the table says between a pad and the next, in ohm: each pair another value. */
  private static double ohms(int k) {
    return 0.1 + 0.01 * k;
  }

  private Path table(FixtureMap wired) throws Exception {
    Map<Contact, Integer> channels =
        wired.channels().stream()
            .filter(channel -> channel.use() == Channel.Use.FORCE)
            .collect(Collectors.toMap(Channel::contact, Channel::number));
    StringBuilder text = new StringBuilder();
    for (int k = 0; k < PAIRS; k++) {
      text.append(
          String.format(
              Locale.ROOT,
              "%d %d %.2f%n",
              channels.get(pad(k)),
              channels.get(pad(k + 1)),
              ohms(k)));
    }
    return Files.writeString(folder.resolve("table"), text, UTF_8);
  }

  /** Takes all steps and says how long that took. */
  private double seconds(Fixture.Keep keep) throws Exception {
    PadMap map = SixtyPositions.map();
    FixtureMap wired = SixtyPositions.wired(map, SixtyPositions.firmware(map));
    List<Step> steps = new ArrayList<>(STEPS);
    for (int i = 0; i < STEPS; i++) {
      int k = i % PAIRS;
      steps.add(
          new Step(
              Kind.LOW_LEVEL,
              List.of(pad(k)),
              List.of(pad(k + 1)),
              List.of(new Amps(0.01)),
              new Volts(0.02),
              1));
    }
    try (Firmware firmware =
            Firmware.onPty(
                "--identity", SixtyPositions.IDENTITY, "--table", table(wired).toString());
        LinkFixture fixture =
            LinkFixture.open(
                Ports.named(firmware.port(), LinkSettings.DEFAULTS),
                new Assembly(map, map.interposers().get(0), SetUp.named(SET_UP).orElseThrow()),
                wired,
                Ticks.ofThisComputer(),
                new SplittableRandom(7),
                LinkSettings.DEFAULTS)) {
      long begun = System.nanoTime();
      fixture.run(Scan.of(SET_UP, steps), keep);
      return (System.nanoTime() - begun) * 1e-9;
    }
  }

  private static void figure(String what, double seconds) {
    System.out.printf(Locale.ROOT, "figure: %d %s, %.0f a second%n", STEPS, what, STEPS / seconds);
  }

  @Test
  void everyResultArrivesOnceAndInOrder() throws Exception {
    List<Reading> readings = new ArrayList<>(STEPS);

    figure(
        "results of the core over a pseudo-terminal",
        seconds(batch -> readings.addAll(batch.readings())));

    assertThat(readings).hasSize(STEPS);
    for (int i = 0; i < STEPS; i++) {
      assertThat(readings.get(i).index()).isEqualTo(i);
      Reading.Point point = ((Reading.Measured) readings.get(i)).points().get(0);
      assertThat(point.volts() / point.amps()).isCloseTo(ohms(i % PAIRS), offset(1e-5));
    }
  }

  @Test
  void everyResultIsOnTheDiskBeforeItIsAcknowledged() throws Exception {
    Path file = folder.resolve("jobs.db");
    AtomicLong seq = new AtomicLong();
    try (JobLog log = new SqliteJobLog(file, InstantSource.system(), ZoneOffset.UTC)) {
      figure(
          "of them kept in the job log",
          seconds(
              batch ->
                  seq.set(
                      log.append("J-1", seq.get(), List.of(new Event.BatchKept(1, 1, batch))))));
    }

    try (JobLog log = new SqliteJobLog(file, InstantSource.system(), ZoneOffset.UTC)) {
      assertThat(
              log.read("J-1").stream()
                  .mapToInt(l -> ((Event.BatchKept) l.event()).batch().readings().size())
                  .sum())
          .isEqualTo(STEPS);
    }
  }
}

package org.jointwalk.joblog;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** What every job log promises; each implementation runs all of it. */
abstract class JobLogContract {

  static final ZoneId ZONE = ZoneId.of("Europe/Lisbon");

  /** Time that only moves when it is asked for, by a millisecond and a bit. */
  static final class SteppingClock implements InstantSource {

    private Instant now = Instant.parse("2026-03-29T00:59:59.998000700Z");

    @Override
    public synchronized Instant instant() {
      now = now.plusNanos(1_000_100);
      return now;
    }
  }

  private final List<JobLog> open = new ArrayList<>();

  /** A log that is empty at the first call of a test; later calls open the same one. */
  abstract JobLog log(InstantSource clock, ZoneId zone);

  private JobLog log() {
    JobLog log = log(new SteppingClock(), ZONE);
    open.add(log);
    return log;
  }

  @AfterEach
  void closeAll() {
    open.forEach(JobLog::close);
  }

  @Test
  void eventsAreReadInTheOrderInWhichTheyWereAppended() {
    JobLog log = log();

    assertThat(log.append("J-0001", 0, List.of(Events.OPENED))).isEqualTo(1);
    assertThat(log.append("J-0001", 1, List.of(Events.noted("b"), Events.noted("c")))).isEqualTo(3);
    assertThat(log.append("J-0001", 3, List.of(Events.noted("d")))).isEqualTo(4);

    List<Logged> read = log.read("J-0001");
    assertThat(read).extracting(Logged::seq).containsExactly(1L, 2L, 3L, 4L);
    assertThat(read)
        .extracting(Logged::event)
        .containsExactly(Events.OPENED, Events.noted("b"), Events.noted("c"), Events.noted("d"));
  }

  @Test
  void everyKindOfEventComesBackEqualAndFoldsToTheSameJob() {
    JobLog log = log();

    log.append("J-0001", 0, Events.EVERY_KIND);

    List<Logged> read = log.read("J-0001");
    assertThat(read).extracting(Logged::event).isEqualTo(Events.EVERY_KIND);
    Job job = Job.fold("J-0001", read);
    assertThat(job.closed()).isTrue();
    assertThat(job.passes()).singleElement().satisfies(p -> assertThat(p.open()).isFalse());
  }

  @Test
  void entryCarriesTimeToTheMillisecondAndTheZoneOfTheBench() {
    JobLog log = log();

    log.append("J-0001", 0, List.of(Events.OPENED, Events.noted("at the same time")));
    log.append("J-0001", 2, List.of(Events.noted("later")));

    List<Logged> read = log.read("J-0001");
    assertThat(read)
        .extracting(Logged::at)
        .containsExactly(
            Instant.parse("2026-03-29T00:59:59.999Z"),
            Instant.parse("2026-03-29T00:59:59.999Z"),
            Instant.parse("2026-03-29T01:00:00.000Z"));
    assertThat(read).extracting(Logged::zone).containsOnly(ZONE);
  }

  @Test
  void writerThatHasNotSeenTheLastEntryIsRefusedAndNothingIsWritten() {
    JobLog log = log();
    log.append("J-0001", 0, List.of(Events.OPENED, Events.noted("by the other one")));

    assertThatThrownBy(
            () -> log.append("J-0001", 1, List.of(Events.noted("late"), Events.noted("too"))))
        .isInstanceOf(JobLogException.class)
        .hasMessageContaining("J-0001")
        .hasMessageContaining("seen with 1 entry and has 2")
        .hasMessageContaining("Look at the job, then do it again");

    assertThat(log.read("J-0001"))
        .extracting(Logged::event)
        .containsExactly(Events.OPENED, Events.noted("by the other one"));
    assertThat(log.append("J-0001", 2, List.of(Events.noted("in time")))).isEqualTo(3);
  }

  @Test
  void streamThatExistsIsNotBegunAgain() {
    JobLog log = log();
    log.append("J-0001", 0, List.of(Events.OPENED));

    assertThatThrownBy(() -> log.append("J-0001", 0, List.of(Events.OPENED)))
        .isInstanceOf(JobLogException.class);
    assertThat(log.read("J-0001")).hasSize(1);
  }

  @Test
  void entryThatWouldLeaveAGapIsRefusedAndMakesNoStream() {
    JobLog log = log();
    log.append("J-0001", 0, List.of(Events.OPENED));

    assertThatThrownBy(() -> log.append("J-0001", 2, List.of(Events.noted("3"))))
        .isInstanceOf(JobLogException.class);
    assertThatThrownBy(() -> log.append("J-0002", 1, List.of(Events.noted("2"))))
        .isInstanceOf(JobLogException.class);

    assertThat(log.read("J-0001")).hasSize(1);
    assertThat(log.streams()).containsExactly("J-0001");
  }

  @Test
  void nothingToAppendIsTheCallersMistake() {
    JobLog log = log();

    assertThatIllegalArgumentException().isThrownBy(() -> log.append("J-0001", 0, List.of()));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> log.append(" ", 0, List.of(Events.OPENED)));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> log.append("J-0001", -1, List.of(Events.OPENED)));
    assertThat(log.streams()).isEmpty();
  }

  @Test
  void unknownStreamAndUnknownHashAreEmpty() {
    JobLog log = log();

    assertThat(log.streams()).isEmpty();
    assertThat(log.read("J-0001")).isEmpty();
    assertThat(log.text("00")).isEmpty();

    log.append("J-0001", 0, List.of(Events.OPENED));

    assertThat(log.read("J-0002")).isEmpty();
    assertThat(log.text("00")).isEmpty();
  }

  @Test
  void streamsAreListedOldestFirst() {
    JobLog log = log();
    for (String id : List.of("J-0010", "J-0002", "J-0001")) {
      log.append(id, 0, List.of(Events.OPENED));
    }
    log.append("J-0002", 1, List.of(Events.noted("again")));

    assertThat(log.streams()).containsExactly("J-0010", "J-0002", "J-0001");
  }

  @Test
  void fixtureHasAStreamOfItsOwnThatIsNoJob() {
    JobLog log = log();
    String stream = FixtureRecord.stream("marsh-photo-1");
    log.append("J-0001", 0, List.of(Events.OPENED));

    log.append(stream, 0, Events.OF_A_FIXTURE);

    assertThat(log.streams()).containsExactly("J-0001");
    assertThat(log.fixtures()).containsExactly(stream);
    FixtureRecord record = FixtureRecord.read(log, "marsh-photo-1");
    assertThat(record.timeline()).extracting(Logged::event).isEqualTo(Events.OF_A_FIXTURE);
    assertThat(record.lastZero().orElseThrow().zero()).isEqualTo(Events.zero());
    assertThat(record.lastCheck()).isPresent();
    assertThat(record.nextRun()).isEqualTo(2);
  }

  @Test
  void fixtureOfWhichNothingIsKeptHasAnEmptyRecord() {
    FixtureRecord record = FixtureRecord.read(log(), "marsh-photo-1");

    assertThat(record.lastSeq()).isZero();
    assertThat(record.lastZero()).isEmpty();
    assertThat(record.nextRun()).isEqualTo(1);
  }

  @Test
  void entriesOfJobsAndFixturesAreNotMixed() {
    JobLog log = log();
    log.append("J-0001", 0, List.of(Events.OPENED));

    assertThatIllegalArgumentException()
        .isThrownBy(() -> log.append("J-0001", 1, Events.OF_A_FIXTURE));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> log.append(FixtureRecord.stream("a"), 0, List.of(Events.OPENED)));
    assertThat(log.read("J-0001")).hasSize(1);
    assertThat(log.fixtures()).isEmpty();
  }

  @Test
  void textIsKeptUnderTheHashOfItsBytes() {
    JobLog log = log();

    // FIPS 180-4, example of the one-block message "abc".
    String hash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
    assertThat(log.keep("pads", "abc")).isEqualTo(hash);
    assertThat(log.text(hash)).contains("abc");
  }

  @Test
  void sameTextIsKeptOnceAndAnotherTextApart() {
    JobLog log = log();

    String first = log.keep("pads", "{\"device\":\"Saltmarsh S2\"}");
    String again = log.keep("pads", "{\"device\":\"Saltmarsh S2\"}");
    String other = log.keep("pads", "{\"device\":\"Saltmarsh S2\" }");

    assertThat(again).isEqualTo(first);
    assertThat(other).isNotEqualTo(first);
    assertThat(log.text(first)).contains("{\"device\":\"Saltmarsh S2\"}");
    assertThat(log.text(other)).contains("{\"device\":\"Saltmarsh S2\" }");
  }

  @Test
  void everyScriptAndSignOfTheWorldComesBack() {
    JobLog log = log();
    String text =
        "Rückläufer \u00b5\u03a9 \u2713 \u65e5\u672c\u8a9e \ud83d\udd0d \t\"q\" 'a' \\ \n%;--";

    log.append("J-0001 " + text, 0, List.of(Events.OPENED, Events.noted(text)));

    assertThat(log.streams()).containsExactly("J-0001 " + text);
    assertThat(log.read("J-0001 " + text).get(1).event()).isEqualTo(Events.noted(text));
    assertThat(log.text(log.keep("pads", text))).contains(text);
  }

  @Test
  void tenThousandEventsAreReadInOrder() {
    JobLog log = log();
    List<Event> all = new ArrayList<>();
    all.add(Events.OPENED);
    for (int i = 1; i < 10_000; i++) {
      all.add(Events.noted("entry " + i));
    }

    for (int i = 0; i < all.size(); i += 100) {
      log.append("J-0001", i, all.subList(i, i + 100));
    }

    List<Logged> read = log.read("J-0001");
    assertThat(read).extracting(Logged::event).isEqualTo(all);
    assertThat(read.get(9_999).seq()).isEqualTo(10_000);
  }

  @Test
  void ofTwoThatWriteToOneStreamAtOnceExactlyOneSucceedsForEachEntry() throws Exception {
    log().append("J-0001", 0, List.of(Events.OPENED));
    List<JobLog> logs = List.of(log(), log(), log());
    ExecutorService threads = Executors.newFixedThreadPool(logs.size());
    try {
      for (int round = 1; round <= 20; round++) {
        long seen = round;
        List<Callable<Boolean>> writers = new ArrayList<>();
        for (JobLog log : logs) {
          writers.add(() -> wins(log, seen));
        }
        int winners = 0;
        for (Future<Boolean> won : threads.invokeAll(writers, 60, TimeUnit.SECONDS)) {
          winners += won.get() ? 1 : 0;
        }
        assertThat(winners).as("winners of entry %d", seen + 1).isEqualTo(1);
      }
    } finally {
      threads.shutdownNow();
    }
    assertThat(log().read("J-0001")).hasSize(21);
  }

  private static boolean wins(JobLog log, long seen) {
    try {
      log.append("J-0001", seen, List.of(Events.noted("after " + seen)));
      return true;
    } catch (JobLogException e) {
      assertThat(e).hasMessageContaining("Somebody else wrote to J-0001");
      return false;
    }
  }

  @Test
  void writersOfDifferentStreamsDoNotDisturbOneAnother() throws Exception {
    ExecutorService threads = Executors.newFixedThreadPool(4);
    try {
      List<Callable<Long>> writers = new ArrayList<>();
      for (int job = 1; job <= 4; job++) {
        String id = "J-000" + job;
        JobLog log = log();
        writers.add(
            () -> {
              long seq = log.append(id, 0, List.of(Events.OPENED));
              while (seq < 25) {
                seq = log.append(id, seq, List.of(Events.noted(id + " " + seq)));
              }
              return seq;
            });
      }
      for (Future<Long> last : threads.invokeAll(writers, 60, TimeUnit.SECONDS)) {
        assertThat(last.get()).isEqualTo(25);
      }
    } finally {
      threads.shutdownNow();
    }
    JobLog log = log();
    assertThat(log.streams()).containsExactlyInAnyOrder("J-0001", "J-0002", "J-0003", "J-0004");
    assertThat(log.read("J-0003").get(24).event()).isEqualTo(Events.noted("J-0003 24"));
  }
}

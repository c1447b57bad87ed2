package org.jointwalk.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Side;
import org.jointwalk.trial.Instruments;
import org.junit.jupiter.api.Test;

class JobTest {

  private static final Intake INTAKE = new Intake("Test ring", "7", "bent", List.of("radio"), "");

  private static final Step STEP =
      new Step(
          Kind.ISOLATION,
          List.of(new Contact.Point("A")),
          List.of(new Contact.Point("B")),
          List.of(),
          new Volts(0.05),
          1);

  private static Job fold(Event... events) {
    List<Logged> logged = new ArrayList<>();
    logged.add(new Logged(1, Instant.EPOCH, ZoneOffset.UTC, new Event.Opened(INTAKE, "ab")));
    for (Event event : events) {
      logged.add(new Logged(logged.size() + 1L, Instant.EPOCH, ZoneOffset.UTC, event));
    }
    return Job.fold("J-1", logged);
  }

  private static Event done(Action action) {
    return new Event.Done(action, "ab");
  }

  private static Event.PassBegun begun(int pass) {
    return new Event.PassBegun(
        pass,
        "lower-board",
        Purpose.DIAGNOSIS,
        "plain",
        "p",
        "f",
        Instruments.ideal(Switching.MATRIX),
        "ab");
  }

  private static Batch batch(int... indices) {
    List<Reading> readings = new ArrayList<>();
    for (int index : indices) {
      readings.add(new Reading.Refused(index, "for the test"));
    }
    return new Batch(readings, 0, 0);
  }

  @Test
  void aJobBeginsWithItsOpening() {
    assertThatThrownBy(() -> Job.fold("J-1", List.of())).hasMessageContaining("J-1");
    Logged note = new Logged(1, Instant.EPOCH, ZoneOffset.UTC, new Event.Noted("x", "ab"));
    assertThatThrownBy(() -> Job.fold("J-1", List.of(note)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("opening");
    Job job = fold();
    assertThat(job.intake()).isEqualTo(INTAKE);
    assertThat(job.attachment()).isEqualTo(Attachment.BOTH);
    assertThat(job.lastSeq()).isEqualTo(1);
    assertThat(job.closed()).isFalse();
    assertThat(job.clamped()).isEqualTo(WorksClamped.NOT_TRIED);
  }

  @Test
  void actionsChangeWhatTheInterposerHoldsTo() {
    assertThat(fold(done(new Action.Split(Side.UPPER))).attachment()).isEqualTo(Attachment.LOWER);
    assertThat(fold(done(new Action.Split(Side.UPPER)), done(new Action.Lift())).attachment())
        .isEqualTo(Attachment.NONE);
    assertThat(
            fold(
                    done(new Action.Split(Side.UPPER)),
                    done(new Action.Lift()),
                    done(new Action.Reball(Side.UPPER, List.of())))
                .attachment())
        .isEqualTo(Attachment.UPPER);
    assertThat(fold(done(new Action.Wash())).attachment()).isEqualTo(Attachment.BOTH);
  }

  @Test
  void actionsSightsAndTheLastAnswerAreFoundInOrder() {
    Seen first = new Seen(Side.LOWER, "A", Seen.Look.DRY);
    Seen second = new Seen(Side.LOWER, "B", Seen.Look.TORN);
    Job job =
        fold(
            done(new Action.Wash()),
            new Event.Looked(first, "ab"),
            new Event.Clamped(WorksClamped.NO, "ab"),
            done(new Action.Lift()),
            new Event.Looked(second, "ab"),
            new Event.Clamped(WorksClamped.SOMETIMES, "ab"),
            new Event.Closed("ab"));
    assertThat(job.actions()).containsExactly(new Action.Wash(), new Action.Lift());
    assertThat(job.seen()).containsExactly(first, second);
    assertThat(job.clamped()).isEqualTo(WorksClamped.SOMETIMES);
    assertThat(job.closed()).isTrue();
    assertThat(job.lastSeq()).isEqualTo(8);
  }

  @Test
  void readingsFindTheStepAndTheSeatingThatTheyWereTakenFor() {
    Scan one = Scan.of("lower-board", List.of(STEP, STEP));
    Scan two = Scan.of("lower-board", List.of(STEP));
    Job job =
        fold(
            begun(1),
            new Event.Seated(1, new Seating(1, new Clamping(7, 1))),
            new Event.ScanPlanned(1, 1, 1, one),
            new Event.BatchKept(1, 1, batch(0)),
            new Event.BatchKept(1, 1, batch(1)),
            new Event.Seated(1, new Seating(2, new Clamping(7, 2))),
            new Event.ScanPlanned(1, 2, 2, two));
    PassRecord pass = job.passes().get(0);
    assertThat(pass.seq()).isEqualTo(2);
    assertThat(pass.open()).isTrue();
    assertThat(job.seatings()).isEqualTo(2);
    assertThat(pass.scans()).extracting(PassRecord.ScanRecord::taken).containsExactly(2, 0);
    assertThat(pass.scans())
        .extracting(PassRecord.ScanRecord::complete)
        .containsExactly(true, false);
    assertThat(pass.measurements())
        .extracting(m -> m.seating() + ":" + m.reading().index())
        .containsExactly("1:0", "1:1");
  }

  @Test
  void aGradedPassIsNoLongerOpenAndTheOtherIs() {
    Findings findings = new Findings(List.of(), List.of(), List.of(), "r");
    Job job = fold(begun(1), begun(2), new Event.PassGraded(1, findings, "t"));
    assertThat(job.passes()).extracting(PassRecord::open).containsExactly(false, true);
  }

  @Test
  void eventsThatNameAPassOrAScanThatIsNotThereAreRefused() {
    assertThatThrownBy(() -> fold(new Event.BatchKept(1, 1, batch(0))))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("pass 1");
    assertThatThrownBy(() -> fold(begun(1), new Event.BatchKept(0, 1, batch(0))))
        .hasMessageContaining("pass 0");
    for (int scan : new int[] {0, 1}) {
      assertThatThrownBy(() -> fold(begun(1), new Event.BatchKept(1, scan, batch(0))))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageContaining("scan " + scan + " of pass 1");
    }
  }

  @Test
  void countsAddUpToTheRingAndHoldEveryGrade() {
    List<Finding> positions = new ArrayList<>();
    for (Grade grade : List.of(Grade.GOOD, Grade.OPEN, Grade.GOOD)) {
      positions.add(
          new Finding(
              "N" + positions.size(),
              grade,
              Optional.empty(),
              Optional.empty(),
              1,
              false,
              Optional.empty(),
              List.of(),
              ""));
    }
    Findings findings = new Findings(positions, List.of(), List.of(), "r");
    assertThat(findings.counts()).hasSize(Grade.values().length);
    assertThat(findings.counts()).containsEntry(Grade.GOOD, 2).containsEntry(Grade.OPEN, 1);
    assertThat(findings.counts().values().stream().mapToInt(n -> n).sum()).isEqualTo(3);
    assertThat(findings.graded(Grade.GOOD))
        .extracting(Finding::position)
        .containsExactly("N0", "N2");
    assertThat(findings.anyFault()).isTrue();
  }

  @Test
  void aBridgeAnAbnormalNetAndAFaultyPositionAskForRepairAndNothingElseDoes() {
    assertThat(new Findings(List.of(), List.of(), List.of(), "r").anyFault()).isFalse();
    BridgeFinding bridge = new BridgeFinding("A", "B", Estimate.known(1, 0.1));
    assertThat(new Findings(List.of(), List.of(bridge), List.of(), "r").anyFault()).isTrue();
    for (Grade grade : Grade.values()) {
      Finding finding =
          new Finding(
              "A",
              grade,
              Optional.empty(),
              Optional.of(new Ohms(1)),
              1,
              false,
              Optional.empty(),
              List.of(),
              "");
      boolean repair = List.of(Grade.HIGH, Grade.OPEN, Grade.BRIDGED).contains(grade);
      assertThat(new Findings(List.of(finding), List.of(), List.of(), "r").anyFault())
          .isEqualTo(repair);
      assertThat(grade.isConnected())
          .isEqualTo(List.of(Grade.GOOD, Grade.UNRESOLVED).contains(grade));
    }
  }
}

package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Verdict;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class VerdictTextTest {

  private static String text(Verdict verdict, Event... more) {
    List<Event> events = Sample.events("KM");
    events.addAll(List.of(more));
    return new VerdictText(Look.asPlain()).text(Sample.map(), Sample.job(events), verdict);
  }

  private static Verdict next(String setUp) {
    Verdict v = Sample.verdict();
    return new Verdict(
        v.headline(),
        v.groups(),
        v.now(),
        v.fit(),
        new Verdict.Next("Measure.", 3, Optional.of(setUp)),
        v.remarks(),
        v.notSeen(),
        v.rule());
  }

  @Test
  void bothQuestionsAreAnsweredApartWhenTheyDiffer() {
    assertThat(text(Sample.verdict()))
        .contains("What is wrong\n")
        .contains("    By exclusion: the pads are good.\n")
        .doesNotContain("What it came in with");
    assertThat(text(Sample.verdict(Sample.verdict().groups(), List.of())))
        .contains("What it came in with\n")
        .contains("What is wrong now\n  Nothing that can be seen.\n");
  }

  @Test
  void everyPadIsNamedHere() {
    assertThat(text(Sample.verdict())).contains("N15");
  }

  @Test
  void nextPassIsAskedForWhatItIsFor() {
    Event reball = new Event.Done(new Action.Reball(Side.LOWER, List.of()), "");
    Event close = new Event.Done(new Action.Reball(Side.UPPER, List.of()), "");

    assertThat(text(next("lower-board"))).contains("--set-up lower-board\n");
    assertThat(text(next("interposer-on-lower"))).contains("--set-up interposer-on-lower\n");
    assertThat(text(next("interposer-on-lower"), reball))
        .contains("--set-up interposer-on-lower --for reball\n");
    assertThat(text(next("joined"), reball, close)).contains("--set-up joined --for closing\n");
  }

  @Test
  void pressureIsNamedOnceAndLast() {
    String text = text(Sample.verdict());

    assertThat(text).endsWith("Connected means connected under clamp pressure.\n");
    assertThat(text.split("under clamp pressure", -1)).hasSize(2);
  }
}

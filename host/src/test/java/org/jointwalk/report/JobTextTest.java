package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class JobTextTest {

  private static String text(List<Event> events) {
    return new JobText(Look.asPlain()).text(Sample.job(events));
  }

  @Test
  void jobSaysWhatCameInAndHowItStands() {
    assertThat(text(Sample.events("KM")))
        .startsWith(
            """
            J-0001 - Saltmarsh S2 - serial 0042 - open

            Came in    dropped; radio fails
            Now        split; the interposer is on the lower board

            Passes
              1   the interposer on the lower board - 5 connected, 1 high resistance, 15 no
                  path, 2 bridged, 1 seen only as a set

            What happened
              2026-03-02 10:00  job opened (KM)
              2026-03-02 10:00  split, the upper side let go (KM)
              2026-03-02 10:00  pass 1 of the interposer on the lower board (KM)
            """);
  }

  @Test
  void everythingThatWasDoneIsTold() {
    List<Event> events = Sample.events("KM");
    List<Action> actions =
        List.of(
            new Action.Lift(),
            new Action.Wick(Side.LOWER),
            new Action.Wash(),
            new Action.PadRebuilt(Side.LOWER, "N03"),
            new Action.Jumper(Side.UPPER, "N04", "R7"),
            new Action.PartReplaced(Side.UPPER, "C12"),
            new Action.ProbesCleaned(),
            new Action.Reball(Side.LOWER, List.of()),
            new Action.Reball(Side.LOWER, List.of("N01", "N02")));
    actions.forEach(action -> events.add(new Event.Done(action, "")));
    events.add(new Event.Looked(new Seen(Side.UPPER, "N05", Seen.Look.BALL_MISSING), ""));
    events.add(new Event.Clamped(WorksClamped.SOMETIMES, ""));
    events.add(new Event.Noted("called the owner", "AB"));
    events.add(new Event.Judged(Sample.verdict(), "test"));
    events.add(new Event.Closed("AB"));

    assertThat(text(events))
        .contains(
            "  interposer lifted\n",
            "  old solder wicked off the lower side\n",
            "  washed and dried\n",
            "  lower pad rebuilt at N03\n",
            "  wire laid from the upper pad N04 to R7\n",
            "  C12 replaced, upper board\n",
            "  probes cleaned\n",
            "  the lower side re-balled\n",
            "  soldered anew on the lower side: N01, N02\n",
            "  seen at N05, upper side: ball missing\n",
            "  works sometimes while pressed together\n",
            "  note: called the owner (AB)\n",
            "  finding: LOWER JOINTS AT 15 PADS (PROBABLY)\n",
            "  job closed (AB)\n",
            "Last finding\nLOWER JOINTS AT 15 PADS (PROBABLY)\n")
        .contains("serial 0042 - closed")
        .doesNotContain("NEXT");
  }

  @Test
  void openJobEndsWithTheNextStep() {
    List<Event> events = Sample.events("KM");
    events.add(new Event.Judged(Sample.verdict(), "test"));

    assertThat(text(events)).contains("NEXT       Re-ball the lower side. (about 40 min)");
  }

  @Test
  void passThatIsNotFinishedShowsWhatIsKept() {
    List<Event> events = Sample.events("KM");
    events.remove(events.size() - 1);

    assertThat(text(events)).contains("not finished, 2 readings kept");
  }
}

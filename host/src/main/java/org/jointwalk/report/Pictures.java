package org.jointwalk.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jointwalk.drawing.Palette;
import org.jointwalk.drawing.ProfileDrawing;
import org.jointwalk.drawing.RingDrawing;
import org.jointwalk.drawing.View;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/** Which passes of a job are drawn, and how. Immutable. */
final class Pictures {

  private final PadMap map;
  private final List<PassRecord> graded;

  Pictures(PadMap map, Job job) {
    this.map = map;
    graded = job.passes().stream().filter(p -> p.graded().isPresent()).toList();
  }

  /**
   * The first pass that found a fault, and after it the last of the same set-up when that is
   * another: before and after. Without a fault, the last pass.
   */
  List<PassRecord> chosen() {
    Optional<PassRecord> before = graded.stream().filter(p -> findings(p).anyFault()).findFirst();
    if (before.isEmpty()) {
      return last(graded.stream()).stream().toList();
    }
    String setUp = setUp(before.get());
    return Stream.concat(
            before.stream(), last(graded.stream().filter(p -> setUp(p).equals(setUp))).stream())
        .distinct()
        .toList();
  }

  private static Optional<PassRecord> last(Stream<PassRecord> passes) {
    return passes.reduce((a, b) -> b);
  }

  private static Findings findings(PassRecord pass) {
    return pass.graded().map(Event.PassGraded::findings).orElseThrow();
  }

  private static String setUp(PassRecord pass) {
    return pass.begun().setUp();
  }

  /** The rings of some passes, with captions. */
  List<Sheet.Picture> rings(List<PassRecord> passes) {
    List<Sheet.Picture> rings = new ArrayList<>();
    for (PassRecord pass : passes) {
      String title = Phrases.setUp(setUp(pass));
      View view = SetUp.named(setUp(pass)).map(View::of).orElse(View.ABOVE);
      rings.add(
          new Sheet.Picture(
              caption(pass), new RingDrawing(map, view, Palette.LIGHT).svg(title, findings(pass))));
    }
    return rings;
  }

  Sheet.Picture profile(PassRecord pass) {
    return new Sheet.Picture(
        "Resistance along the ring, " + caption(pass),
        new ProfileDrawing(Palette.LIGHT).svg(Phrases.setUp(setUp(pass)), findings(pass)));
  }

  private static String caption(PassRecord pass) {
    return "pass "
        + pass.begun().pass()
        + ", "
        + Phrases.setUp(setUp(pass))
        + ", "
        + Phrases.count(pass.seatings().size(), "clamping", "clampings");
  }
}

package org.jointwalk.report;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jointwalk.job.Coverage;
import org.jointwalk.job.Coverage.How;

/** What a set-up shows of a model, as text. Immutable. */
public final class CoverageText {

  private final Look look;

  /**
   * @param look of the place where it is read
   */
  public CoverageText(Look look) {
    this.look = look;
  }

  /**
   * Writes what one set-up shows.
   *
   * @param list whether every pad that is not seen by itself is named
   * @return lines that end with a line feed
   */
  public String text(Coverage coverage, boolean list) {
    Paper paper = new Paper(look);
    long open = coverage.pads().stream().filter(pad -> pad.how().showsOpen()).count();
    paper.line(
        coverage.setUp() + ": an open shows at " + open + " of " + coverage.pads().size() + " pads",
        Paper.Ink.BOLD);
    Map<How, List<Coverage.Pad>> pads = new EnumMap<>(How.class);
    for (Coverage.Pad pad : coverage.pads()) {
      pads.computeIfAbsent(pad.how(), how -> new ArrayList<>()).add(pad);
    }
    pads.forEach(
        (how, some) ->
            paper.field(
                String.format(Locale.ROOT, "%5d  %s", some.size(), how.words()),
                43,
                List.of(smallest(some))));
    if (coverage.readings() > 0) {
      paper.line(
          String.format(
              Locale.ROOT,
              "%7s%d readings, about %.1f s at the fixture, for each clamping",
              "",
              coverage.readings(),
              coverage.seconds()));
    }
    if (list) {
      pads.forEach(
          (how, some) -> {
            if (how != How.BY_ITSELF) {
              paper.field(
                  "  " + how.words(),
                  4,
                  List.of(String.join(" ", some.stream().map(Coverage.Pad::position).toList())));
            }
          });
    }
    return paper.text();
  }

  /** The largest of the resistances that would not be told from a good one. */
  private static String smallest(List<Coverage.Pad> pads) {
    double[] ohms =
        pads.stream().flatMap(p -> p.smallest().stream()).mapToDouble(o -> o.value()).toArray();
    if (ohms.length == 0) {
      return "";
    }
    double most = 0;
    for (double one : ohms) {
      most = Math.max(most, one);
    }
    return "up to "
        + Figures.ohms(most)
        + " in series would not show"
        + (ohms.length == pads.size() ? "" : " at " + ohms.length + " of them");
  }
}

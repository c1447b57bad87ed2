package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jointwalk.job.Event;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Region;
import org.jointwalk.job.Verdict;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;

class PassTextTest {

  private static final String ESCAPE = "\u001b";

  private static String text(Look look, Verdict verdict) {
    return new PassText(look).text(Sample.map(), Sample.job(), 1, verdict);
  }

  private static String plain(Verdict verdict) {
    return text(Look.asPlain(), verdict);
  }

  private static List<String> lines(String text) {
    return text.lines().toList();
  }

  @Test
  void nothingStandsAboveTheFindingButJobModelSetUpAndWho() {
    assertThat(lines(plain(Sample.verdict())).subList(0, 4))
        .containsExactly(
            "J-0001 - Saltmarsh S2 - the interposer on the lower board - by KM",
            "",
            "LOWER JOINTS AT 15 PADS (PROBABLY)",
            "");
  }

  @Test
  void firstLinesComeInTheOrderInWhichTheyAreNeeded() {
    String text = plain(Sample.verdict());

    List<Integer> places =
        Stream.of(
                "LOWER JOINTS",
                "Where ",
                "Complaint ",
                "NEXT ",
                "NOT SEEN ",
                "Connected means",
                "This pass")
            .map(text::indexOf)
            .toList();
    assertThat(places).isSorted().doesNotContain(-1);
    assertThat(text)
        .contains("Complaint  radio: what was found fits")
        .contains("NEXT       Re-ball the lower side. (about 40 min)")
        .contains("jointwalk pass --job J-0001 --set-up interposer-on-lower\n");
  }

  @Test
  void twelvePadsAreNamedAndTheRestAreCounted() {
    String text = plain(Sample.verdict());

    assertThat(text).contains("N12").contains("and 3 more").doesNotContain("N13");
  }

  @Test
  void resultLinesAddUpToTheRing() {
    Matcher counts =
        Pattern.compile("^ {1,4}(\\d+) {2}\\S", Pattern.MULTILINE).matcher(plain(Sample.verdict()));

    int lines = 0;
    int sum = 0;
    while (counts.find()) {
      lines++;
      sum += Integer.parseInt(counts.group(1));
    }
    assertThat(lines).isEqualTo(6);
    assertThat(sum).isEqualTo(24);
  }

  @Test
  void openSaysHowManyStandOnOneClampingOnly() {
    assertThat(plain(Sample.verdict()).replaceAll("\\s+", " "))
        .contains("15 no path no current passed; 1 of them not confirmed, joint or contact");
  }

  @Test
  void valuesHaveUnitsLimitsAndTheirUncertainty() {
    assertThat(plain(Sample.verdict()))
        .contains("High       N16 4.5 ohm +- 0.2 (limit 0.3 ohm)")
        .contains("Bridged    N17-N18 0.030 ohm +- 0.004")
        .contains("The figure after +- is two standard uncertainties.");
  }

  @Test
  void linesFitTheConsole() {
    assertThat(lines(plain(Sample.verdict()))).allMatch(line -> line.length() <= 80);
    assertThat(lines(text(new Look(60, false, false), Sample.verdict())))
        .allMatch(line -> line.length() <= 60);
  }

  @Test
  void plainIsAscii() {
    String text =
        new PassText(Look.asPlain())
            .text(Sample.map(), Sample.job(Sample.events("J\u00f6rg \u2603")), 1, Sample.verdict());

    assertThat(text.chars()).allMatch(c -> c == '\n' || (c >= 32 && c < 127));
    assertThat(text).contains("by Jorg ?");
  }

  @Test
  void colourIsThereOnlyWhenItIsAskedFor() {
    assertThat(text(new Look(80, false, false), Sample.verdict())).doesNotContain(ESCAPE);
    String coloured = text(new Look(80, false, true), Sample.verdict());
    assertThat(coloured).contains(ESCAPE + "[1;31mLOWER JOINTS");
    assertThat(coloured.replaceAll(ESCAPE + "\\[[0-9;]*m", ""))
        .isEqualTo(text(new Look(80, false, false), Sample.verdict()));
  }

  @Test
  void whatSomebodyTypedCannotSteerTheTerminal() {
    String text =
        new PassText(new Look(80, false, false))
            .text(
                Sample.map(),
                Sample.job(Sample.events("KM" + ESCAPE + "[2J\r\n")),
                1,
                Sample.verdict());

    assertThat(text).doesNotContain(ESCAPE).doesNotContain("\r").contains("by KM [2J");
  }

  @Test
  void undecidedGroupNamesAllItsKinds() {
    Verdict.Group group =
        new Verdict.Group(
            List.of(Region.LOWER_JOINTS, Region.LOWER_BOARD, Region.INTERPOSER),
            List.of(
                new Component.Joint(Side.LOWER, "N01"),
                new Component.Pad(Side.LOWER, "N01"),
                new Component.Via("N01")),
            List.of("N01"),
            Verdict.Sureness.UNDECIDED,
            "They cannot be told apart.");

    assertThat(plain(Sample.verdict(List.of(group), List.of(group))).replaceAll("\\s+", " "))
        .contains(
            "Where - undecided between lower joint, pad of the main board (lower) and path inside"
                + " the interposer at N01");
  }

  @Test
  void netsAndHiddenPartsAreNamedWithTheirBoard() {
    Verdict.Group net =
        new Verdict.Group(
            List.of(Region.UPPER_BOARD),
            List.of(new Component.NetOf(new NetId(Side.UPPER, "S3"))),
            List.of("N03"),
            Verdict.Sureness.PROBABLY,
            "It reads low.");
    Verdict.Group hidden =
        new Verdict.Group(
            List.of(Region.LOWER_BOARD),
            List.of(
                new Component.Hidden(Side.LOWER, "radio"),
                new Component.Hidden(Side.LOWER, "touch")),
            List.of(),
            Verdict.Sureness.UNDECIDED,
            "It may be dead.");

    assertThat(plain(Sample.verdict(List.of(net, hidden), List.of(net))).replaceAll("\\s+", " "))
        .contains("- probably: net S3 of the radio board (upper)")
        .contains(
            "- perhaps something on the main board (lower) that the ring does not show (radio and"
                + " touch)")
        .contains("Wrong now - probably: net S3 of the radio board (upper)");
  }

  @Test
  void nothingWrongNowIsSaid() {
    Verdict verdict = Sample.verdict(Sample.verdict().groups(), List.of());

    assertThat(plain(verdict)).contains("Wrong now  nothing wrong that can be seen");
  }

  @Test
  void passThatIsNotGradedIsNotWritten() {
    List<Event> events = Sample.events("KM");
    events.remove(events.size() - 1);

    assertThatThrownBy(
            () ->
                new PassText(Look.asPlain())
                    .text(Sample.map(), Sample.job(events), 1, Sample.verdict()))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("pass 1 is not graded; finish it first");
  }

  @Test
  void passThatIsNotThereIsRefused() {
    assertThatThrownBy(
            () ->
                new PassText(Look.asPlain()).text(Sample.map(), Sample.job(), 2, Sample.verdict()))
        .hasMessage("job J-0001 has no pass 2, only 1");
  }

  @Test
  void everyGradeHasAMeaningThatFitsItsLine() {
    assertThat(Arrays.stream(Grade.values()).map(Phrases::meaning))
        .allMatch(meaning -> !meaning.isBlank() && meaning.length() <= 43);
  }
}

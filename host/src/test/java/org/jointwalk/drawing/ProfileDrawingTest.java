package org.jointwalk.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

final class ProfileDrawingTest {

  private static Document draw(Findings findings) {
    return Sketches.parse(new ProfileDrawing(Palette.LIGHT).svg("a part", findings));
  }

  @Test
  void everyPadHasItsPlaceInTheOrderOfTheMap() {
    Findings findings = Sketches.random(SaltmarshS2.map(), Trials.random(5));
    assertThat(Sketches.all(draw(findings), "g").stream().map(e -> e.getAttribute("data-position")))
        .containsExactlyElementsOf(findings.positions().stream().map(f -> f.position()).toList());
  }

  @Test
  void theStrokeReachesTwoStandardUncertaintiesToBothSides() {
    Document document =
        draw(
            new Findings(
                List.of(
                    Sketches.finding("A", Grade.GOOD, Optional.of(Estimate.known(0.55, 0.225)))),
                List.of(),
                List.of(),
                "rule"));
    Element pad = Sketches.all(document, "g").get(0);
    List<Element> strokes =
        Sketches.all(document, "line").stream().filter(e -> e.getParentNode().equals(pad)).toList();
    Element stroke = strokes.get(strokes.size() - 1);
    // From 0.1 to 1 ohm is one decade of five.
    assertThat(Sketches.number(stroke, "y1") - Sketches.number(stroke, "y2"))
        .isCloseTo(260.0 / 5, within(0.02));
    // The limit of 0.5 ohm lies log10(0.5 / 0.1) of a decade above its lower end.
    assertThat(Sketches.number(stroke, "y1") - Sketches.number(strokes.get(0), "y1"))
        .isCloseTo(Math.log10(5) * 260 / 5, within(0.02));
  }

  @Test
  void noPathIsAboveTheScaleAndNotSeenBelowIt() {
    Document document =
        draw(
            new Findings(
                List.of(
                    Sketches.finding("A", Grade.OPEN, Optional.empty()),
                    Sketches.finding("B", Grade.NOT_TESTED, Optional.empty())),
                List.of(),
                List.of(),
                "rule"));
    assertThat(Sketches.number(Sketches.all(document, "circle").get(0), "cy")).isLessThan(58);
    List<Element> strokes = Sketches.all(document, "line");
    assertThat(Sketches.number(strokes.get(strokes.size() - 1), "y2")).isGreaterThan(58 + 260);
  }
}

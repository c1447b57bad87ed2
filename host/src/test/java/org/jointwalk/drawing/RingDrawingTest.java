package org.jointwalk.drawing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jointwalk.drawing.Layout.Spot;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

final class RingDrawingTest {

  private static final Palette ONE_COLOUR =
      new Palette("#fff", "#000", "#000", "#000", "#000", "#000", "#000", "#000", "#000");

  private final PadMap map = SaltmarshS2.map();

  private static String drawn(Grade grade, Palette palette) {
    Svg svg = new Svg();
    svg.open("g");
    new Marks(svg, palette).draw(grade, new Spot(10, 10));
    return svg.close().xml();
  }

  @Test
  void everyGradeHasAShapeOfItsOwnWithoutColour() {
    Map<String, Grade> seen = new HashMap<>();
    for (Grade grade : Grade.values()) {
      assertThat(seen.put(drawn(grade, ONE_COLOUR), grade)).as("drawn like %s", grade).isNull();
    }
  }

  @Test
  void whatWasNotSeenIsHatchedAndNothingElseIs() {
    List<Grade> unseen = List.of(Grade.MASKED, Grade.LOST_BY_SPLIT, Grade.NOT_TESTED);
    for (Grade grade : Grade.values()) {
      assertThat(drawn(grade, Palette.LIGHT).matches(".*d=\"M[^\"]+M[^\"]+M.*"))
          .as("%s is hatched", grade)
          .isEqualTo(unseen.contains(grade));
    }
  }

  @Test
  void marksStandOutFromTheGround() {
    // Contrast of at least 3:1 for graphical objects: W3C, WCAG 2.1, success criterion 1.4.11.
    for (Palette p : List.of(Palette.LIGHT, Palette.DARK)) {
      for (String colour : List.of(p.good(), p.open(), p.bridged(), p.doubt(), p.quiet())) {
        assertThat(Contrast.ratio(colour, p.ground())).as(colour).isGreaterThanOrEqualTo(3);
      }
      // On paper, the triangle of a high joint is pale; its outline in ink carries its shape.
      assertThat(Math.max(Contrast.ratio(p.ink(), p.high()), Contrast.ratio(p.high(), p.ground())))
          .isGreaterThanOrEqualTo(3);
      // Normal text: 4.5:1, success criterion 1.4.3.
      assertThat(Contrast.ratio(p.ink(), p.ground())).isGreaterThanOrEqualTo(4.5);
      assertThat(Contrast.ratio(p.ink(), p.patch())).isGreaterThanOrEqualTo(4.5);
    }
  }

  @Test
  void everyPadIsDrawnOnceWithItsGrade() {
    Findings findings = Sketches.random(map, Trials.random(1));
    List<Element> pads = pads(findings, View.ABOVE);
    assertThat(pads.stream().map(e -> e.getAttribute("data-position")))
        .containsExactlyElementsOf(map.positions().keySet());
    assertThat(pads.stream().map(e -> e.getAttribute("data-grade")))
        .containsExactlyElementsOf(
            findings.positions().stream().map(f -> f.grade().name()).toList());
  }

  private List<Element> pads(Findings findings, View view) {
    String svg = new RingDrawing(map, view, Palette.LIGHT).svg("a part", findings);
    return Sketches.all(Sketches.parse(svg), "g");
  }

  @Test
  void thePictureNeedsNothingFromOutside() {
    Findings findings = Sketches.random(map, Trials.random(2));
    for (Palette palette : List.of(Palette.LIGHT, Palette.DARK)) {
      String svg = new RingDrawing(map, View.ABOVE, palette).svg("<part> & co", findings);
      Document document = Sketches.parse(svg);
      assertThat(svg.replace("http://www.w3.org/2000/svg", ""))
          .doesNotContain("http", "href", "url(");
      assertThat(document.getDocumentElement().getTextContent()).contains("<part> & co");
    }
  }

  @Test
  void theRingIsToScale() {
    for (PadMap ring : List.of(map, Ring.of(60, 2, 3), Ring.of(1200, 3, 4))) {
      for (View view : View.values()) {
        Layout layout = new Layout(ring, view);
        List<Position> all = List.copyOf(ring.positions().values());
        for (int i = 1; i < all.size(); i++) {
          Position a = all.get(i - 1);
          Position b = all.get(i);
          assertThat(layout.spot(a.id()).to(layout.spot(b.id())))
              .isCloseTo(a.distanceMm(b) * layout.unitsPerMm(), within(1e-9));
        }
      }
    }
  }

  @Test
  void turnedOverSwapsLeftAndRightOnly() {
    Layout above = new Layout(map, View.ABOVE);
    Layout below = new Layout(map, View.BELOW);
    for (String id : map.positions().keySet()) {
      assertThat(below.spot(id).x()).isCloseTo(above.width() - above.spot(id).x(), within(1e-9));
      assertThat(below.spot(id).y()).isEqualTo(above.spot(id).y());
    }
    assertThat(View.of(setUp("upper-board"))).isEqualTo(View.BELOW);
    assertThat(View.of(setUp("interposer-on-upper"))).isEqualTo(View.BELOW);
    assertThat(View.of(setUp("lower-board"))).isEqualTo(View.ABOVE);
    assertThat(View.of(setUp("interposer-on-lower"))).isEqualTo(View.ABOVE);
    assertThat(View.of(setUp("interposer"))).isEqualTo(View.ABOVE);
  }

  private static SetUp setUp(String name) {
    return SetUp.named(name).orElseThrow();
  }

  @Test
  void failingPadsAreNamedAndNoNameLiesOnAnotherOrOnAPad() {
    Trials.of(
        40,
        random -> {
          Layout layout = new Layout(map, View.ABOVE);
          List<String> ids = List.copyOf(map.positions().keySet());
          List<String> failing =
              random
                  .ints(random.nextInt(1, 40), 0, ids.size())
                  .distinct()
                  .mapToObj(ids::get)
                  .toList();
          Labels labels = new Labels(layout, failing);
          assertThat(labels.placed().size() + labels.left()).isEqualTo(failing.size());
          List<Box> boxes = labels.placed().stream().map(RingDrawingTest::box).toList();
          for (int i = 0; i < boxes.size(); i++) {
            for (int k = 0; k < i; k++) {
              assertThat(boxes.get(i).meets(boxes.get(k)))
                  .as("%s on %s", labels.placed().get(i), labels.placed().get(k))
                  .isFalse();
            }
            for (Spot pad : layout.spots().values()) {
              assertThat(boxes.get(i).holds(pad))
                  .as("%s on a pad", labels.placed().get(i))
                  .isFalse();
            }
          }
        });
  }

  private record Box(double left, double top, double right, double bottom) {

    boolean meets(Box other) {
      return left < other.right && other.left < right && top < other.bottom && other.top < bottom;
    }

    boolean holds(Spot spot) {
      return spot.x() > left && spot.x() < right && spot.y() > top && spot.y() < bottom;
    }
  }

  private static Box box(Labels.Label label) {
    double wide = label.position().length() * 0.62 * Labels.FONT;
    double left =
        switch (label.anchor()) {
          case "start" -> label.at().x();
          case "end" -> label.at().x() - wide;
          default -> label.at().x() - wide / 2;
        };
    return new Box(left, label.at().y() - 0.75 * Labels.FONT, left + wide, label.at().y());
  }

  @Test
  void namesForWhichThereIsNoRoomAreCounted() {
    Findings all =
        new Findings(
            map.positions().keySet().stream()
                .map(id -> Sketches.finding(id, Grade.OPEN, Optional.empty()))
                .toList(),
            List.of(),
            List.of(),
            "rule");
    Document document =
        Sketches.parse(new RingDrawing(map, View.ABOVE, Palette.LIGHT).svg("a part", all));
    long named =
        Sketches.all(document, "text").stream()
            .filter(e -> "bold".equals(e.getAttribute("font-weight")))
            .map(Element::getTextContent)
            .filter(map.positions()::containsKey)
            .count();
    assertThat(
            Sketches.all(document, "text").stream()
                .map(Element::getTextContent)
                .collect(Collectors.joining("\n")))
        .contains("more failing pads are marked but not named here");
    assertThat(named).isBetween(40L, 419L);
  }

  @Test
  void loneFailuresHaveNoOutlineAndNeighboursHaveOne() {
    List<Spot> spots = List.of(new Spot(0, 0), new Spot(20, 0), new Spot(40, 0), new Spot(200, 0));
    assertThat(Patches.of(spots, 25)).containsExactly(spots.subList(0, 3));
    assertThat(Patches.of(spots, 10)).isEmpty();
  }
}

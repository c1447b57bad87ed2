package org.jointwalk.drawing;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.random.RandomGenerator;
import javax.xml.parsers.DocumentBuilderFactory;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.PadMap;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** Findings to be drawn, and pictures taken apart. Stateless. */
final class Sketches {

  private static final List<Grade> GRADES = List.of(Grade.values());

  private Sketches() {}

  /** Findings that have every grade, where the ring is large enough, in random places. */
  static Findings random(PadMap map, RandomGenerator random) {
    List<Finding> positions = new ArrayList<>();
    for (String position : map.positions().keySet()) {
      Grade grade = GRADES.get(random.nextInt(GRADES.size()));
      boolean value = grade == Grade.GOOD || grade == Grade.HIGH;
      positions.add(
          finding(
              position,
              grade,
              value
                  ? Optional.of(Estimate.known(random.nextDouble(0.001, 9), 0.02))
                  : Optional.empty()));
    }
    List<String> ids = List.copyOf(map.positions().keySet());
    return new Findings(
        positions,
        List.of(new BridgeFinding(ids.get(0), ids.get(1), Estimate.known(0.1, 0.01))),
        List.of(),
        "rule");
  }

  static Finding finding(String position, Grade grade, Optional<Estimate> ohms) {
    return new Finding(
        position,
        grade,
        ohms,
        Optional.of(new Ohms(0.5)),
        1,
        false,
        Optional.empty(),
        List.of(),
        "because of <this> & \"that\"");
  }

  static Document parse(String svg) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newDefaultInstance();
      factory.setNamespaceAware(true);
      return factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
    } catch (Exception e) {
      throw new AssertionError("not well-formed: " + svg, e);
    }
  }

  /** Elements of a name, in document order. */
  static List<Element> all(Document document, String name) {
    NodeList found = document.getElementsByTagName(name);
    List<Element> elements = new ArrayList<>();
    for (int i = 0; i < found.getLength(); i++) {
      elements.add((Element) found.item(i));
    }
    return elements;
  }

  static double number(Element element, String attribute) {
    return Double.parseDouble(element.getAttribute(attribute));
  }
}

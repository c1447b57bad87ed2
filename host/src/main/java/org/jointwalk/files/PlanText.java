package org.jointwalk.files;

import java.util.Optional;
import java.util.function.BinaryOperator;
import java.util.function.Function;
import org.jointwalk.fixture.Scan;

/**
 * A planned scan within the body of an entry: its seating, its number, and the hash under which its
 * text is kept. As thread-safe as the two functions it is given.
 */
final class PlanText {

  private final BinaryOperator<String> keep;
  private final Function<String, Optional<String>> text;

  PlanText(BinaryOperator<String> keep, Function<String, Optional<String>> text) {
    this.keep = keep;
    this.text = text;
  }

  void write(JsonOut out, int seating, int scan, Scan plan) {
    out.with("seating", seating)
        .with("scan", scan)
        .with("plan", keep.apply(EventText.SCAN, EventText.writeScan(plan)));
  }

  static int seating(Field body) {
    return body.at("seating").count(Integer.MIN_VALUE);
  }

  static int scan(Field body) {
    return body.at("scan").count(Integer.MIN_VALUE);
  }

  Scan plan(Field body) {
    String hash = body.at("plan").text();
    return text.apply(hash)
        .map(EventText::readScan)
        .orElseThrow(() -> new IllegalArgumentException("the scan " + hash + " is not in the log"));
  }
}

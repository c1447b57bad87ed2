package org.jointwalk.campaign;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;

/**
 * One figure of a campaign. A figure is one line of JSON on the way out.
 *
 * @param name what was counted or averaged
 * @param value a count, or a share or mean rounded to the digits that are shown
 * @param of how many cases it was taken from
 * @param bar what the value has to be; empty when it is only shown
 */
record Figure(String name, BigDecimal value, long of, Optional<Bar> bar) {

  private static final int SHARE_DIGITS = 4;

  /** What a figure has to be. */
  enum Relation {
    IS("="),
    AT_MOST("<="),
    AT_LEAST(">=");

    private final String sign;

    Relation(String sign) {
      this.sign = sign;
    }
  }

  /** A bar that a figure has to reach. */
  record Bar(Relation relation, BigDecimal limit) {

    private boolean holds(BigDecimal value) {
      int order = value.compareTo(limit);
      return switch (relation) {
        case IS -> order == 0;
        case AT_MOST -> order <= 0;
        case AT_LEAST -> order >= 0;
      };
    }

    private String words() {
      return relation.sign + " " + limit.toPlainString();
    }
  }

  /** A count that has to be zero. */
  static Figure none(String name, long value, long of) {
    Bar bar = new Bar(Relation.IS, BigDecimal.ZERO);
    return new Figure(name, BigDecimal.valueOf(value), of, Optional.of(bar));
  }

  /** A count without a bar. */
  static Figure count(String name, long value, long of) {
    return new Figure(name, BigDecimal.valueOf(value), of, Optional.empty());
  }

  /** A share of cases without a bar; the share of no cases is zero. */
  static Figure share(String name, long hits, long of) {
    return mean(name, (double) hits, of, SHARE_DIGITS);
  }

  /** A mean over cases without a bar; the mean of no cases is zero. */
  static Figure mean(String name, double sum, long of, int digits) {
    BigDecimal mean =
        new BigDecimal(of == 0 ? 0 : sum / of).setScale(digits, RoundingMode.HALF_EVEN);
    return new Figure(name, mean, of, Optional.empty());
  }

  /** The same figure with a bar. */
  Figure with(Relation relation, String limit) {
    return new Figure(name, value, of, Optional.of(new Bar(relation, new BigDecimal(limit))));
  }

  /** Whether the bar is reached; a figure without one always is. */
  boolean holds() {
    return bar.map(b -> b.holds(value)).orElse(true);
  }

  /** The figure as one JSON object. Names hold no character that JSON would have to escape. */
  String json() {
    String words = bar.map(b -> "\"" + b.words() + "\"").orElse("null");
    return "{\"figure\":\""
        + name
        + "\",\"value\":"
        + value.toPlainString()
        + ",\"of\":"
        + of
        + ",\"bar\":"
        + words
        + ",\"holds\":"
        + holds()
        + "}";
  }
}

package org.jointwalk.study;

import java.util.ArrayList;
import java.util.List;

/**
 * A table of readings by position, operator and trial, without a gap.
 *
 * @param values first by position, then by operator, then by trial
 */
record Readings(List<List<List<Double>>> values) {

  Readings {
    List<List<List<Double>>> copy = new ArrayList<>();
    for (List<List<Double>> position : values) {
      copy.add(position.stream().map(List::copyOf).toList());
    }
    values = List.copyOf(copy);
    int operators = values.isEmpty() ? 0 : values.get(0).size();
    int trials = operators == 0 ? 0 : values.get(0).get(0).size();
    if (values.size() < 2 || operators < 1 || trials < 2) {
      throw new IllegalArgumentException(
          "a study has at least 2 positions, 1 operator and 2 seatings, not "
              + values.size()
              + ", "
              + operators
              + ", "
              + trials);
    }
    for (List<List<Double>> position : values) {
      if (position.size() != operators
          || position.stream().anyMatch(trial -> trial.size() != trials)) {
        throw new IllegalArgumentException("a reading is missing");
      }
    }
  }

  int positions() {
    return values.size();
  }

  int operators() {
    return values.get(0).size();
  }

  int trials() {
    return values.get(0).get(0).size();
  }

  List<Double> cell(int position, int operator) {
    return values.get(position).get(operator);
  }

  /** Mean over all readings. */
  double mean() {
    return mean(values.stream().flatMap(p -> p.stream().flatMap(List::stream)).toList());
  }

  double positionMean(int position) {
    return mean(values.get(position).stream().flatMap(List::stream).toList());
  }

  double operatorMean(int operator) {
    return mean(values.stream().flatMap(p -> p.get(operator).stream()).toList());
  }

  /** Mean of a list; centred on its first value, so that a large common part costs no digits. */
  static double mean(List<Double> list) {
    double first = list.get(0);
    return first + list.stream().mapToDouble(d -> d - first).sum() / list.size();
  }
}

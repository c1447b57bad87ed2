package org.jointwalk.files;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * A JSON value that knows where it stood, which a library's tree does not. Lines and columns count
 * from 1.
 */
sealed interface Json {

  int line();

  int column();

  /** What stands here, as it would be written, or in a few words. */
  String shown();

  /** A string. */
  record Text(String value, int line, int column) implements Json {

    @Override
    public String shown() {
      return JsonOut.quoted(value);
    }
  }

  /** A number as it was written, so that nothing is lost before it is known what it is. */
  record Figure(String literal, int line, int column) implements Json {

    @Override
    public String shown() {
      return literal;
    }

    /** The nearest double; NaN for the words that the parser lets through besides digits. */
    double value() {
      try {
        return Double.parseDouble(literal);
      } catch (NumberFormatException e) {
        return Double.NaN;
      }
    }
  }

  /** True or false. */
  record Flag(boolean value, int line, int column) implements Json {

    @Override
    public String shown() {
      return Boolean.toString(value);
    }
  }

  /** The word {@code null}. */
  record Nothing(int line, int column) implements Json {

    @Override
    public String shown() {
      return "null";
    }
  }

  /** An array. */
  record Items(List<Json> values, int line, int column) implements Json {

    public Items {
      values = List.copyOf(values);
    }

    @Override
    public String shown() {
      return "a list of " + values.size();
    }
  }

  /** An object in the order of the file; of keys given twice the first counts. */
  record Members(Map<String, Json> values, int line, int column) implements Json {

    public Members {
      values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
    }

    @Override
    public String shown() {
      return values.isEmpty()
          ? "an empty object"
          : "an object with " + String.join(", ", values.keySet());
    }
  }
}

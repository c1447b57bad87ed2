package org.jointwalk.files;

import java.util.Optional;
import java.util.function.Function;

/** Reads texts that the program wrote itself: the first fault ends it. Stateless. */
final class Bodies {

  private Bodies() {}

  /**
   * What a text tells.
   *
   * @param fails makes the exception for a damaged text from the reason
   */
  static <T> T read(
      String text, Function<Field, T> read, Function<String, UnreadableEventException> fails) {
    Faults faults = new Faults("body");
    Optional<Json> json = JsonIn.read(text, Integer.MAX_VALUE, faults);
    if (json.isEmpty() || faults.any()) {
      throw fails.apply(faults.errors().get(0).toString());
    }
    T value;
    try {
      value = read.apply(Field.root(json.get(), faults));
    } catch (IllegalArgumentException e) {
      throw fails.apply(faults.any() ? faults.errors().get(0).toString() : e.getMessage());
    }
    if (faults.any()) {
      throw fails.apply(faults.errors().get(0).toString());
    }
    return value;
  }
}

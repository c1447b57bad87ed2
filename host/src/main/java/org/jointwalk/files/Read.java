package org.jointwalk.files;

import java.util.List;
import java.util.function.Function;

/**
 * What was read from a file without a fault.
 *
 * @param value the noun
 * @param file as the caller named it
 * @param text the whole text, for instance to be kept by content
 * @param warnings what is doubtful although it can be used
 * @param places where a thing stands in the file, by name: {@code position N014}, {@code upper net
 *     GND}, {@code channel 12}; the whole file when that is not known
 */
public record Read<T>(
    T value, String file, String text, List<Fault> warnings, Function<String, Place> places) {

  public Read {
    warnings = List.copyOf(warnings);
  }

  /** A noun that comes from no file; places are the whole of what it is called. */
  static <T> Read<T> unfiled(T value, String name) {
    return new Read<>(value, name, "", List.of(), thing -> Place.whole(name));
  }

  /** Where a thing stands. */
  public Place place(String thing) {
    return places.apply(thing);
  }
}

package org.jointwalk.files;

import java.util.List;
import java.util.Map;

/**
 * What was read from a file without a fault.
 *
 * @param value the noun
 * @param file as the caller named it
 * @param text the whole text, for instance to be kept by content
 * @param warnings what is doubtful although it can be used
 * @param places where things stand in the file, by name: {@code position N014}, {@code upper net
 *     GND}, {@code channel 12}
 */
public record Read<T>(
    T value, String file, String text, List<Fault> warnings, Map<String, Place> places) {

  public Read {
    warnings = List.copyOf(warnings);
    places = Map.copyOf(places);
  }

  /** Where a thing stands; the whole file when that is not known. */
  public Place place(String thing) {
    return places.getOrDefault(thing, Place.whole(file));
  }
}

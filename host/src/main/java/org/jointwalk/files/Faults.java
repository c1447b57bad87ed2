package org.jointwalk.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Gathers what is wrong with one file while it is read. For one thread. */
final class Faults {

  private static final int MOST_HINTS = 200;

  private final String file;
  private final List<Fault> errors = new ArrayList<>();
  private final List<Fault> warnings = new ArrayList<>();
  private final Map<String, Place> places = new HashMap<>();

  /**
   * @param file as the caller named it
   */
  Faults(String file) {
    this.file = file;
  }

  String file() {
    return file;
  }

  void error(Fault fault) {
    errors.add(fault);
  }

  /** Tells a word that is none of the known ones, with the nearest as hint. */
  void unknown(Place place, String reason, String word, Collection<String> known) {
    // Looking for the nearest of thousands of words, thousands of times, would take minutes.
    Optional<String> near =
        errors.size() < MOST_HINTS ? Words.nearest(word, known) : Optional.empty();
    error(
        new Fault(
            place,
            reason,
            JsonOut.quoted(word),
            Words.listed(known),
            near.map(n -> "Did you mean " + JsonOut.quoted(n) + "?")
                .orElse("Take one of the allowed words")));
  }

  void warning(Fault fault) {
    warnings.add(fault);
  }

  /** Remembers where a thing stands, for what is found out about it later. */
  void stands(String thing, Place place) {
    places.putIfAbsent(thing, place);
  }

  /** Where a thing stands; the whole file when that was not remembered. */
  Place placeOf(String thing) {
    return places.getOrDefault(thing, Place.whole(file));
  }

  boolean any() {
    return !errors.isEmpty();
  }

  List<Fault> errors() {
    return List.copyOf(errors);
  }

  /** Ends the reading if anything is wrong. */
  void stopIfAny() throws FileFaults {
    if (any()) {
      throw new FileFaults(file, errors, warnings);
    }
  }

  /** What was read, with all that was told about it. */
  <T> Read<T> read(T value, String text) {
    return new Read<>(value, file, text, warnings, places);
  }
}

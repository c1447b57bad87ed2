package org.jointwalk.files;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;

/** Gathers what is wrong with one file while it is read. For one thread. */
final class Faults {

  private static final int MOST_HINTS = 200;

  /** A file with more is not one with slips but another file; keeping all could fill the memory. */
  static final int MOST_FAULTS = 10_000;

  private final String file;
  private final Function<List<String>, String> path;
  private final List<Fault> errors = new ArrayList<>();
  private final List<Fault> warnings = new ArrayList<>();
  private final Map<String, Supplier<Place>> places = new HashMap<>();
  private int count;

  /**
   * @param file as the caller named it; its faults have JSON pointers
   */
  Faults(String file) {
    this(file, Place::pointer);
  }

  private Faults(String file, Function<List<String>, String> path) {
    this.file = file;
    this.path = path;
  }

  /** For a CSV file, whose faults name the column. */
  static Faults ofCsv(String file) {
    return new Faults(file, names -> names.isEmpty() ? "" : names.get(names.size() - 1));
  }

  /** The path of a place from the names that lead to it. */
  String path(List<String> names) {
    return path.apply(names);
  }

  String file() {
    return file;
  }

  void error(Fault fault) {
    count++;
    if (count <= MOST_FAULTS) {
      errors.add(fault);
    } else if (count == MOST_FAULTS + 1) {
      errors.add(
          new Fault(
              Place.whole(file),
              "there are more than " + MOST_FAULTS + " faults, and the rest is not told",
              "",
              "a file with fewer faults",
              "Check that this is the file that you meant"));
    }
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
    if (warnings.size() < MOST_FAULTS) {
      warnings.add(fault);
    }
  }

  /** Remembers where a thing stands, for what is found out about it later; few are asked for. */
  void stands(String thing, Supplier<Place> place) {
    places.putIfAbsent(thing, place);
  }

  /** Where a thing stands; the whole file when that was not remembered. */
  Place placeOf(String thing) {
    return places.getOrDefault(thing, () -> Place.whole(file)).get();
  }

  boolean any() {
    return !errors.isEmpty();
  }

  /** How many faults there are, told or not. */
  int count() {
    return count;
  }

  List<Fault> errors() {
    return List.copyOf(errors);
  }

  List<Fault> warnings() {
    return List.copyOf(warnings);
  }

  /** Ends the reading if anything is wrong. */
  void stopIfAny() throws FileFaults {
    if (any()) {
      throw new FileFaults(file, errors, warnings);
    }
  }

  /** What was read, with all that was told about it. */
  <T> Read<T> read(T value, String text) {
    return new Read<>(value, file, text, warnings, this::placeOf);
  }
}

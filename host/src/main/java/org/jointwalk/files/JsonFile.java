package org.jointwalk.files;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;

/**
 * Reads files of one format: gets the text, checks the format's name, lets the faults gather and
 * builds the noun only if there are none.
 *
 * @param format its name and version, as the file writes it
 * @param read reads all fields, telling faults, and returns what builds the noun afterwards
 */
record JsonFile<T>(String format, Function<Field, Supplier<T>> read) {

  /** Twice what the largest ring needs; more would fill the memory before it is refused. */
  private static final int MOST_VALUES = 1_000_000;

  /** The formats that the program knows, each with what files of it are called. */
  private static final List<String> KINDS = List.of("pad map", "fixture map", "stack", "shop");

  Read<T> read(Path path) throws FileFaults {
    Faults faults = new Faults(path.toString());
    Optional<String> text = FileText.read(path, faults);
    faults.stopIfAny();
    return read(faults, text.orElse(""));
  }

  Read<T> read(String file, String text) throws FileFaults {
    return read(new Faults(file), text);
  }

  private Read<T> read(Faults faults, String text) throws FileFaults {
    if (text.startsWith("\uFEFF")) {
      faults.error(
          new Fault(
              new Place(faults.file(), "", 1, 1),
              "the file begins with a byte order mark",
              "EF BB BF",
              "a text in UTF-8 without byte order mark",
              "Save it as \"UTF-8\", not as \"UTF-8 with BOM\""));
      faults.stopIfAny();
    }
    Optional<Json> json = JsonIn.read(text, MOST_VALUES, faults);
    if (json.isEmpty()) {
      faults.stopIfAny();
    }
    Field root = Field.root(json.orElseThrow(), faults);
    if (!root.isObject()) {
      root.error("this is no object", "one JSON object, in braces", "Give a file of this format");
      faults.stopIfAny();
    }
    if (!formatFits(root.at("format"))) {
      faults.stopIfAny();
    }
    // For editors, which look the format up there; the program goes by "format".
    root.at("$schema").maybe(Field::text);
    Supplier<T> build = read.apply(root);
    faults.stopIfAny();
    T value = build.get();
    faults.stopIfAny();
    return faults.read(value, text);
  }

  /** Whether the rest of the file is worth reading. */
  private boolean formatFits(Field field) {
    if (!field.isText()) {
      field.error(
          field.given() ? "the format's name is not a text" : "\"format\" is missing",
          JsonOut.quoted(format),
          "Write \"format\": " + JsonOut.quoted(format) + " as the first entry");
      return true;
    }
    String found = field.text();
    if (found.equals(format)) {
      return true;
    }
    String wanted = kindOf(format);
    String given = kindOf(found);
    if (given.equals(wanted)) {
      field.error(
          "this version of the format is not known",
          JsonOut.quoted(format),
          "Read the file with the program that wrote it, or with a newer jointwalk");
    } else if (!given.isEmpty()) {
      field.error(
          "this is a " + given + ", and a " + wanted + " is wanted here",
          JsonOut.quoted(format),
          "Give the " + wanted + " here; perhaps the two files were swapped");
    } else {
      field.error(
          "this format is not known",
          JsonOut.quoted(format),
          "Check that this is a " + wanted + " of jointwalk");
    }
    return false;
  }

  private static String kindOf(String format) {
    return KINDS.stream()
        .filter(k -> format.startsWith("jointwalk " + k + " "))
        .findFirst()
        .orElse("");
  }
}

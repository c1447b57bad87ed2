package org.jointwalk.files;

import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.io.JsonEOFException;

/**
 * Says in bench words why a text is no JSON; the parser's own words are for programmers. Stateless.
 */
final class BrokenJson {

  private static final String JSON =
      "JSON as RFC 8259 has it: double quotes, commas between entries, no comments";

  private BrokenJson() {}

  static Fault fault(JsonProcessingException e, String text, String file) {
    Place place = place(e.getLocation(), file);
    if (e instanceof JsonEOFException || e.getOriginalMessage().contains("end-of-input")) {
      return new Fault(
          place,
          "the file ends in the middle",
          "",
          "a whole JSON object, closed by its last brace",
          "Take a copy that was saved completely, or close what is open");
    }
    if (e instanceof StreamConstraintsException) {
      return new Fault(
          place,
          "something here is far longer or deeper than any map needs",
          "",
          "lists, texts, numbers and nesting of a usual size",
          "Check that this is the file that you meant");
    }
    return new Fault(
        place, "this is not JSON", found(text, place), JSON, hint(e.getOriginalMessage()));
  }

  private static Place place(JsonLocation at, String file) {
    return at != null && at.getLineNr() > 0
        ? new Place(file, "", at.getLineNr(), at.getColumnNr())
        : Place.whole(file);
  }

  /** What stands at a place, up to the end of its line. */
  private static String found(String text, Place place) {
    String line = text.lines().skip(Math.max(0, place.line() - 1)).findFirst().orElse("");
    return place.column() > 0 && place.column() <= line.length()
        ? line.substring(place.column() - 1)
        : line;
  }

  private static String hint(String message) {
    if (message.contains("expecting comma")) {
      return "Put a comma between this entry and the one before";
    }
    if (message.contains("character (']'") || message.contains("character ('}'")) {
      return "Remove the comma before it, or open what it closes";
    }
    if (message.contains("character ('/'") || message.contains("character ('#'")) {
      return "Remove the comment; JSON has none";
    }
    if (message.contains("character (''")) {
      return "Use double quotes";
    }
    if (message.contains("colon")) {
      return "Put a colon between the key and its value";
    }
    if (message.contains("Unrecognized token") || message.contains("field name")) {
      return "Put texts and keys in double quotes";
    }
    return "Look at this place and just before it for a comma, quote or bracket";
  }
}

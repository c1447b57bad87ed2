package org.jointwalk.files;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.exc.StreamConstraintsException;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Text to {@link Json}. Keys given twice are told all at once; a text that is no JSON ends at the
 * first such place. For one thread and one text.
 */
final class JsonIn {

  // NaN is let through here, so that it is refused where its allowed range is known.
  private static final JsonFactory FACTORY =
      JsonFactory.builder().enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS).build();

  private final JsonParser parser;
  private final int most;
  private final Faults faults;
  private final Deque<String> path = new ArrayDeque<>();
  private int values;

  private JsonIn(JsonParser parser, int most, Faults faults) {
    this.parser = parser;
    this.most = most;
    this.faults = faults;
  }

  /**
   * The value that a text is, empty when it is none; the faults then say why.
   *
   * @param most values that the text may have, so that none fills the memory
   */
  static Optional<Json> read(String text, int most, Faults faults) {
    try (JsonParser parser = FACTORY.createParser(text)) {
      return new JsonIn(parser, most, faults).whole();
    } catch (JsonProcessingException e) {
      faults.error(BrokenJson.fault(e, text, faults.file()));
      return Optional.empty();
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory cannot fail to be read", e);
    }
  }

  private Optional<Json> whole() throws IOException {
    if (parser.nextToken() == null) {
      faults.error(
          new Fault(
              Place.whole(faults.file()),
              "the file is empty",
              "",
              "one JSON object",
              "Give another file, or take a copy that was saved completely"));
      return Optional.empty();
    }
    Json value = value();
    if (parser.nextToken() != null) {
      JsonLocation at = parser.currentTokenLocation();
      faults.error(
          new Fault(
              new Place(faults.file(), "", at.getLineNr(), at.getColumnNr()),
              "something follows after the end of the JSON value",
              parser.getText(),
              "one JSON value in a file",
              "Remove all that follows, or move it inside the braces"));
    }
    return Optional.of(value);
  }

  private Json value() throws IOException {
    if (++values > most) {
      throw new StreamConstraintsException("too many values", parser.currentTokenLocation());
    }
    JsonLocation at = parser.currentTokenLocation();
    int line = at.getLineNr();
    int column = at.getColumnNr();
    return switch (parser.currentToken()) {
      case START_OBJECT -> new Json.Members(members(), line, column);
      case START_ARRAY -> new Json.Items(items(), line, column);
      case VALUE_STRING -> new Json.Text(parser.getText(), line, column);
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> new Json.Figure(parser.getText(), line, column);
      case VALUE_TRUE -> new Json.Flag(true, line, column);
      case VALUE_FALSE -> new Json.Flag(false, line, column);
      default -> new Json.Nothing(line, column);
    };
  }

  private Map<String, Json> members() throws IOException {
    Map<String, Json> members = new LinkedHashMap<>();
    while (parser.nextToken() != JsonToken.END_OBJECT) {
      String key = parser.currentName();
      path.addLast(key);
      if (members.containsKey(key)) {
        JsonLocation at = parser.currentTokenLocation();
        faults.error(
            new Fault(
                new Place(
                    faults.file(),
                    faults.path(List.copyOf(path)),
                    at.getLineNr(),
                    at.getColumnNr()),
                "this key is given twice",
                "\"" + key + "\"",
                "each key once in an object",
                "Keep one of the two"));
      }
      parser.nextToken();
      members.putIfAbsent(key, value());
      path.removeLast();
    }
    return members;
  }

  private List<Json> items() throws IOException {
    List<Json> items = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      path.addLast(Integer.toString(items.size()));
      items.add(value());
      path.removeLast();
    }
    return items;
  }
}

package org.jointwalk.files;

import java.util.List;

/**
 * Where something stands in a file.
 *
 * @param file as the caller named it
 * @param path JSON pointer (RFC 6901) or, in a CSV file, the name of the column; empty for the
 *     whole file
 * @param line from 1; 0 when no line is meant
 * @param column from 1, in characters; 0 when no column is meant
 */
public record Place(String file, String path, int line, int column) {

  /** The file as a whole. */
  public static Place whole(String file) {
    return new Place(file, "", 0, 0);
  }

  /** A JSON pointer of names. */
  static String pointer(List<String> names) {
    StringBuilder text = new StringBuilder();
    for (String name : names) {
      text.append('/').append(name.replace("~", "~0").replace("/", "~1"));
    }
    return text.toString();
  }

  /** File, line and column as editors take them, then the path: {@code a.json:4:7 (/nets/2)}. */
  @Override
  public String toString() {
    String text = file;
    if (line > 0) {
      text += ":" + line + (column > 0 ? ":" + column : "");
    }
    return path.isEmpty() ? text : text + " (" + path + ")";
  }
}

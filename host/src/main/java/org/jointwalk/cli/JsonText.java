package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;

/** JSON for other programs, an entry a line and the same line ends everywhere. Stateless. */
final class JsonText {

  private JsonText() {}

  /** Something that is written. */
  @FunctionalInterface
  interface Part {

    void write(JsonGenerator json) throws IOException;
  }

  /** Writes one value, and only when it is whole. */
  static void write(PrintWriter out, Part part) {
    DefaultIndenter lines = new DefaultIndenter("  ", "\n");
    StringWriter text = new StringWriter();
    try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
      generator.setPrettyPrinter(
          new DefaultPrettyPrinter().withObjectIndenter(lines).withArrayIndenter(lines));
      part.write(generator);
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory cannot fail to be written", e);
    }
    out.println(text);
  }
}

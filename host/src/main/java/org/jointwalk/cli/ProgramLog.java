package org.jointwalk.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;

/**
 * The file that takes what helps to mend this program and would only frighten on a terminal: the
 * details of a defect, warnings of libraries. It is made when there is something to write. Several
 * threads may use it.
 */
final class ProgramLog {

  private final Surroundings surroundings;

  ProgramLog(Surroundings surroundings) {
    this.surroundings = surroundings;
  }

  /** Where the details go. */
  Path file() {
    return surroundings.folder().resolve("jointwalk.log");
  }

  /**
   * Adds a line and the stack trace below it.
   *
   * @return the file, empty when it cannot be written
   */
  synchronized Optional<Path> add(String line, Throwable problem) {
    StringWriter text = new StringWriter();
    PrintWriter writer = new PrintWriter(text);
    writer.println(surroundings.clock().instant() + " " + line);
    problem.printStackTrace(writer);
    return add(text.toString());
  }

  /**
   * Adds a text that ends with a line break.
   *
   * @return the file, empty when it cannot be written
   */
  synchronized Optional<Path> add(String text) {
    try {
      Files.createDirectories(surroundings.folder());
      Files.writeString(file(), text, UTF_8, StandardOpenOption.CREATE, StandardOpenOption.APPEND);
      return Optional.of(file());
    } catch (IOException e) {
      return Optional.empty();
    }
  }
}

package org.jointwalk.architecture;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/** The parts of the JDK and of the libraries that a room needs leave for, told by name prefixes. */
enum Outside {
  /** What no room needs leave for. */
  PLAIN(
      "java.lang.",
      "java.math.",
      "java.nio.",
      "java.security.",
      "java.text.",
      "java.time.",
      "java.util.",
      "org.jspecify.annotations."),
  STREAMS("java.io."),
  FILES("java.io.File", "java.io.RandomAccessFile", "java.nio.channels.", "java.nio.file."),
  NETWORK("java.net.", "javax.net."),
  DATABASE("java.sql.", "javax.sql.", "org.sqlite."),
  THREADS(
      "java.lang.InheritableThreadLocal",
      "java.lang.Thread",
      "java.util.Timer",
      "java.util.concurrent."),
  LOGGING("java.lang.System$Logger", "java.util.logging.", "org.slf4j."),
  PROCESSES("java.lang.Process", "java.lang.Runtime", "java.lang.Shutdown"),
  SERIAL_PORT("com.fazecast.jSerialComm."),
  MATHEMATICS("org.apache.commons.numbers.", "org.apache.commons.statistics.", "org.ejml."),
  JSON("com.fasterxml.jackson."),
  CSV("de.siegmar.fastcsv."),
  XML("javax.xml.", "org.w3c.dom."),
  PICTURES("java.awt.image.", "javax.imageio."),
  PAGES("com.openhtmltopdf.", "gg.jte.", "io.javalin.", "jakarta.servlet.", "org.eclipse.jetty."),
  COMMAND_LINE("picocli.");

  /** A runtime exception that merely has Runtime in front of its name starts no process. */
  private static final String RUNTIME_EXCEPTION = RuntimeException.class.getName();

  private final List<String> prefixes;

  Outside(String... prefixes) {
    this.prefixes = List.of(prefixes);
  }

  /** The kind with the longest prefix that fits, or empty for a library that the table lacks. */
  static Optional<Outside> of(String className) {
    if (className.equals(RUNTIME_EXCEPTION)) {
      return Optional.of(PLAIN);
    }
    Optional<Outside> best = Optional.empty();
    int longest = 0;
    for (Outside kind : values()) {
      int length = kind.longestPrefixOf(className);
      if (length > longest) {
        longest = length;
        best = Optional.of(kind);
      }
    }
    return best;
  }

  private int longestPrefixOf(String className) {
    return prefixes.stream().filter(className::startsWith).mapToInt(String::length).max().orElse(0);
  }

  /** Everything there is, for the root of the house. */
  static List<Outside> everything() {
    return Arrays.asList(values());
  }
}

package org.jointwalk.files;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;

/** The small files beside the tests. */
final class Samples {

  static final String PADS = "small.pads.json";
  static final String FIXTURE = "small.fixture.json";
  static final String STACK = "small.stack.json";

  private Samples() {}

  static String text(String name) {
    try (InputStream in = Objects.requireNonNull(Samples.class.getResourceAsStream(name))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}

package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** The files beside the specification, as whoever writes a fixture gets them. */
final class Committed {

  private Committed() {}

  static String text(String file) throws IOException {
    try (InputStream in = Committed.class.getResourceAsStream("/firmware-protocol/" + file)) {
      assertThat(in).as(file + " on the class path").isNotNull();
      return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  static List<JsonNode> vectors(String file) throws IOException {
    List<JsonNode> vectors = new ArrayList<>();
    new ObjectMapper().readTree(text("vectors/" + file)).get("vectors").forEach(vectors::add);
    assertThat(vectors).as(file).isNotEmpty();
    return vectors;
  }

  static Bytes bytes(JsonNode vector, String field) {
    return Bytes.ofHex(vector.get(field).asText());
  }

  static String name(JsonNode vector) {
    return vector.get("name").asText();
  }
}

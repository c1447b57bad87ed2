package org.jointwalk.schema;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;

/** Makes every file that differs from a sound one by a single slip. */
final class Slips {

  /** What is put where something else stood. */
  private static final List<String> INSTEAD =
      List.of("null", "true", "\"word\"", "\"\"", "-1", "0", "1", "2.5", "[]", "{}", "[\"word\"]");

  private final ObjectMapper mapper = new ObjectMapper();
  private final JsonNode root;
  private final List<Slip> slips = new ArrayList<>();

  /**
   * A file with a slip.
   *
   * @param what was done
   * @param text the whole file
   */
  record Slip(String what, String text) {}

  private Slips(String text) throws JsonProcessingException {
    this.root = mapper.readTree(text);
  }

  static List<Slip> of(String text) throws JsonProcessingException {
    Slips all = new Slips(text);
    all.walk(all.root, "");
    return all.slips;
  }

  private void walk(JsonNode node, String path) throws JsonProcessingException {
    if (node instanceof ObjectNode object) {
      for (String key : keys(object)) {
        JsonNode value = object.get(key);
        String at = path + "/" + key;
        object.remove(key);
        add("without " + at);
        object.set(key + "x", value);
        add("renamed " + at);
        object.remove(key + "x");
        for (String instead : INSTEAD) {
          object.set(key, mapper.readTree(instead));
          add(at + " is " + instead);
        }
        object.set(key, value);
        walk(value, at);
      }
    } else if (node instanceof ArrayNode array) {
      for (int i = 0; i < array.size(); i++) {
        JsonNode value = array.get(i);
        for (String instead : INSTEAD) {
          array.set(i, mapper.readTree(instead));
          add(path + "/" + i + " is " + instead);
        }
        array.set(i, value);
        walk(value, path + "/" + i);
      }
    }
  }

  private static List<String> keys(ObjectNode object) {
    List<String> keys = new ArrayList<>();
    object.fieldNames().forEachRemaining(keys::add);
    return keys;
  }

  private void add(String what) throws JsonProcessingException {
    slips.add(new Slip(what, mapper.writeValueAsString(root)));
  }
}

package org.jointwalk.report;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Small helps for writing JSON; keys keep the order they are put in. Stateless. */
final class Json {

  private Json() {}

  static ObjectNode object() {
    return JsonNodeFactory.instance.objectNode();
  }

  static ArrayNode texts(List<String> texts) {
    ArrayNode array = JsonNodeFactory.instance.arrayNode();
    texts.forEach(array::add);
    return array;
  }

  static void put(ObjectNode node, String key, Optional<Double> value) {
    if (value.isPresent()) {
      node.put(key, value.get().doubleValue());
    } else {
      node.putNull(key);
    }
  }

  /** A constant as programs read it: NOT_CONTACTED is notContacted. */
  static String name(Enum<?> constant) {
    StringBuilder name = new StringBuilder();
    for (String word : constant.name().toLowerCase(Locale.ROOT).split("_", -1)) {
      name.append(
          name.isEmpty()
              ? word
              : word.substring(0, 1).toUpperCase(Locale.ROOT) + word.substring(1));
    }
    return name.toString();
  }
}

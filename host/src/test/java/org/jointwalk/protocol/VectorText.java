package org.jointwalk.protocol;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.lang.reflect.RecordComponent;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Kind;

/** Vectors as JSON, one on a line. */
final class VectorText {

  private static final ObjectMapper MAPPER = new ObjectMapper();

  /** Fields of eight bytes, which not every reader of JSON can hold as a number. */
  private static final Set<String> WIDE = Set.of("boot", "build");

  private VectorText() {}

  static String file(String about, List<Map<String, Object>> vectors) {
    return file(about, Map.of(), vectors);
  }

  /** A file whose vectors share some things, each of which has a name. */
  static String file(String about, Map<String, Object> shared, List<Map<String, Object>> vectors) {
    StringBuilder text = new StringBuilder("{\n  \"format\": \"jointwalk protocol vectors 1\",\n");
    text.append("  \"about\": ").append(json(about)).append(",\n");
    shared.forEach(
        (name, value) ->
            text.append("  ").append(json(name)).append(": ").append(json(value)).append(",\n"));
    text.append("  \"vectors\": [\n");
    for (int i = 0; i < vectors.size(); i++) {
      text.append("    ").append(json(vectors.get(i)));
      text.append(i + 1 < vectors.size() ? ",\n" : "\n");
    }
    return text.append("  ]\n}\n").toString();
  }

  private static String json(Object value) {
    try {
      return MAPPER.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("cannot write " + value, e);
    }
  }

  /** The fields of a message under the names of the specification. */
  static Map<String, Object> fields(Message message) {
    Map<String, Object> fields = new LinkedHashMap<>();
    components((Record) message, fields);
    if (message instanceof Streamed.SetBits bits) {
      fields.remove("more");
      fields.put("form", bits.more() ? 1 : 0);
    } else if (message instanceof Streamed.SetChange) {
      fields.put("form", 2);
    }
    return fields;
  }

  private static void components(Record value, Map<String, Object> fields) {
    for (RecordComponent component : value.getClass().getRecordComponents()) {
      String name = component.getName().replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
      Object content = content(component, value);
      if (content instanceof Account || content instanceof Notice.Span) {
        components((Record) content, fields);
      } else if (WIDE.contains(name)) {
        fields.put(name, String.format(Locale.ROOT, "%016x", (Long) content));
      } else {
        fields.put(name, plain(content));
      }
    }
  }

  private static Object content(RecordComponent component, Record value) {
    try {
      return component.getAccessor().invoke(value);
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("cannot read " + component, e);
    }
  }

  private static Object plain(Object value) {
    if (value instanceof Boolean flag) {
      return flag ? 1 : 0;
    }
    if (value instanceof Kind kind) {
      return KindCode.of(kind);
    }
    if (value instanceof Bytes bytes) {
      return bytes.toString();
    }
    if (value instanceof Coded coded) {
      return coded.code();
    }
    if (value instanceof Terminal terminal) {
      return terminal(terminal);
    }
    if (value instanceof Raw raw) {
      return List.of(raw.volt(), raw.amp());
    }
    if (value instanceof Taken taken) {
      return taken(taken);
    }
    if (value instanceof Set<?> parts) {
      return parts.stream().mapToInt(part -> 1 << ((Request.Part) part).code()).sum();
    }
    if (value instanceof List<?> list) {
      List<Object> plain = new ArrayList<>();
      list.forEach(item -> plain.add(plain(item)));
      return plain;
    }
    if (value instanceof Record inner) {
      Map<String, Object> fields = new LinkedHashMap<>();
      components(inner, fields);
      return fields;
    }
    return value;
  }

  private static Object terminal(Terminal terminal) {
    if (terminal instanceof Terminal.Channel channel) {
      return List.of(channel.code(), channel.number());
    }
    if (terminal instanceof Terminal.Group group) {
      return List.of(group.code(), group.slot());
    }
    return List.of(terminal.code());
  }

  private static Object taken(Taken taken) {
    if (taken instanceof Taken.Measured measured) {
      return ordered("status", 0, "points", plain(measured.points()));
    }
    if (taken instanceof Taken.OverRange over) {
      return ordered("status", 1, "points", plain(over.points()));
    }
    return ordered("status", 2, "reason", ((Taken.Refused) taken).reason());
  }

  private static Map<String, Object> ordered(String first, Object one, String second, Object two) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put(first, one);
    map.put(second, two);
    return map;
  }
}

package org.jointwalk.files;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.random.RandomGenerator;

/**
 * Draws any record of the program by its components, so that a component added later is drawn too.
 * What a constructor refuses is drawn again.
 */
final class RandomNouns {

  /** Components that hold what a person typed; all other texts are ids without white space. */
  private static final Set<String> PROSE =
      Set.of(
          "because",
          "headline",
          "note",
          "notSeen",
          "part",
          "place",
          "program",
          "reason",
          "rule",
          "source",
          "text",
          "to",
          "what");

  private static final List<String> PIECES =
      List.of(
          "a",
          "N014",
          "-",
          "7",
          "\"",
          "\\",
          "\n",
          "\r\n",
          "\t",
          " ",
          ",",
          ";",
          "=",
          "\u00e5",
          "\u03a9",
          "\ud83d\udd0d",
          "\ud83d",
          "\udd0d",
          "\u2028",
          "\u0001",
          "/",
          "~",
          "{",
          "]");

  private static final List<Double> NUMBERS =
      List.of(
          0.0,
          -0.0,
          1.0,
          0.1,
          1e-9,
          1.0 / 3,
          Math.PI * 1e-7,
          Math.scalb(0.7, 80),
          Double.MIN_VALUE,
          Double.MAX_VALUE,
          Double.POSITIVE_INFINITY,
          123456789012.5,
          -0.05);

  private final RandomGenerator random;

  RandomNouns(RandomGenerator random) {
    this.random = random;
  }

  /** Any value of a type; of a sealed type, any of its records. */
  <T> T any(Class<T> type) {
    return type.cast(draw(type, ""));
  }

  private Object draw(Type type, String name) {
    if (type instanceof ParameterizedType generic) {
      return drawGeneric(generic, name);
    }
    if (type == int.class) {
      return random.nextInt(5) == 0 ? Integer.MAX_VALUE : random.nextInt(1000);
    }
    if (type == long.class) {
      return random.nextInt(3) == 0 ? random.nextLong() : random.nextInt(1000);
    }
    if (type == double.class || type == Double.class) {
      return number();
    }
    if (type == Integer.class) {
      return random.nextInt(1000);
    }
    if (type == Instant.class) {
      return Instant.ofEpochMilli(random.nextLong(4_000_000_000_000L));
    }
    if (type == boolean.class) {
      return random.nextBoolean();
    }
    if (type == String.class) {
      return PROSE.contains(name) ? prose() : "N" + random.nextInt(500);
    }
    Class<?> drawn = (Class<?>) type;
    if (drawn.isEnum()) {
      return pick(Arrays.asList(drawn.getEnumConstants()));
    }
    if (drawn.isSealed()) {
      return draw(pick(Arrays.asList(drawn.getPermittedSubclasses())), name);
    }
    return drawRecord(drawn);
  }

  private Object drawGeneric(ParameterizedType type, String name) {
    Type[] of = type.getActualTypeArguments();
    int size = random.nextInt(4);
    if (type.getRawType() == Optional.class) {
      return random.nextBoolean() ? Optional.of(draw(of[0], name)) : Optional.empty();
    }
    if (type.getRawType() == Map.class) {
      Map<Object, Object> map = new LinkedHashMap<>();
      for (int i = 0; i < size; i++) {
        map.put(draw(of[0], name), draw(of[1], name));
      }
      return map;
    }
    List<Object> list = new ArrayList<>();
    for (int i = 0; i < size; i++) {
      list.add(draw(of[0], name));
    }
    return type.getRawType() == Set.class ? Set.copyOf(list) : list;
  }

  private Object drawRecord(Class<?> type) {
    RecordComponent[] components = type.getRecordComponents();
    Class<?>[] types =
        Arrays.stream(components).map(RecordComponent::getType).toArray(Class<?>[]::new);
    for (int attempt = 0; attempt < 1000; attempt++) {
      Object[] values =
          Arrays.stream(components).map(c -> draw(c.getGenericType(), c.getName())).toArray();
      try {
        return type.getDeclaredConstructor(types).newInstance(values);
      } catch (InvocationTargetException refused) {
        if (!(refused.getCause() instanceof IllegalArgumentException)) {
          throw new IllegalStateException("cannot draw a " + type, refused);
        }
      } catch (ReflectiveOperationException e) {
        throw new IllegalStateException("cannot draw a " + type, e);
      }
    }
    throw new IllegalStateException("every " + type + " that was drawn was refused");
  }

  private double number() {
    return random.nextBoolean() ? pick(NUMBERS) : random.nextDouble();
  }

  private String prose() {
    StringBuilder text = new StringBuilder();
    for (int i = random.nextInt(12); i > 0; i--) {
      text.append(pick(PIECES));
    }
    return text.toString();
  }

  private <T> T pick(List<T> from) {
    return from.get(random.nextInt(from.size()));
  }
}

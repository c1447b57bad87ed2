package org.jointwalk.stack;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * The faults of a stack at a moment, in a stable order.
 *
 * @param conditions what is wrong, by component
 */
public record Defects(Map<Component, Condition> conditions) {

  /** A sound stack. */
  public static final Defects NONE = new Defects(Map.of());

  public Defects {
    conditions = Collections.unmodifiableMap(new LinkedHashMap<>(conditions));
  }

  /** What is wrong with a component, empty when it is sound. */
  public Optional<Condition> of(Component component) {
    return Optional.ofNullable(conditions.get(component));
  }

  /** These defects with one more, or with another condition of the same component. */
  public Defects with(Component component, Condition condition) {
    Map<Component, Condition> next = new LinkedHashMap<>(conditions);
    next.put(component, condition);
    return new Defects(next);
  }

  /** These defects without that of one component. */
  public Defects without(Component component) {
    Map<Component, Condition> next = new LinkedHashMap<>(conditions);
    next.remove(component);
    return new Defects(next);
  }
}

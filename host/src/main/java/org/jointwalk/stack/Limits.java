package org.jointwalk.stack;

import java.util.Map;
import org.jointwalk.quantity.Ohms;

/**
 * The largest resistance that a good joint of the model may have.
 *
 * @param signal for joints on signal nets
 * @param power for joints on rails and ground
 * @param overrides by position id, before the two
 */
public record Limits(Ohms signal, Ohms power, Map<String, Ohms> overrides) {

  public Limits {
    overrides = Map.copyOf(overrides);
  }

  /** The limit of one joint at a position whose net has this role. */
  public Ohms of(String position, Role role) {
    Ohms byRole = role == Role.RAIL || role == Role.GROUND ? power : signal;
    return overrides.getOrDefault(position, byRole);
  }
}

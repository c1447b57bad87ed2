package org.jointwalk.stack;

import java.util.Optional;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;

/**
 * What one board ties together.
 *
 * @param id board and name
 * @param role what it is for
 * @param function the device function it serves (radio, touch, charge, ...), or {@code unknown}
 * @param nominal the voltage it carries in operation, when known
 * @param dcPath false when direct current cannot flow from its pads to ground (blocked by a
 *     capacitor, or nothing attached)
 * @param trace copper between each pad and the point where the net's pads meet
 */
public record Net(
    NetId id, Role role, String function, Optional<Volts> nominal, boolean dcPath, Ohms trace) {}

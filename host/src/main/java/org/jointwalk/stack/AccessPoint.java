package org.jointwalk.stack;

/**
 * Where a net can be reached away from the ring: a test point or a connector pin.
 *
 * @param id as the map writes it
 * @param net the net it reaches
 * @param place in words, for the technician
 */
public record AccessPoint(String id, NetId net, String place) {}

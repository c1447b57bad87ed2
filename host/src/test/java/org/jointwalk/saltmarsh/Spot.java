package org.jointwalk.saltmarsh;

/**
 * A place on the ring before nets are laid.
 *
 * @param id of the position
 * @param column along the ring, from 0
 * @param row across it, 0 at the outer edge
 * @param xMm to the right
 * @param yMm away from the viewer
 */
record Spot(String id, int column, int row, double xMm, double yMm) {}

package org.jointwalk.simulator;

import org.jointwalk.fixture.Capabilities;

/**
 * What a run of a {@link Device} works with.
 *
 * @param able what the fixture can do
 * @param fixture with what is clamped
 * @param taker of steps
 * @param pace share of its time that it really takes
 * @param witness of what happens
 */
record DeviceParts(
    Capabilities able, VirtualFixture fixture, Taker taker, double pace, Device.Witness witness) {

  int readers() {
    return able.readers();
  }
}

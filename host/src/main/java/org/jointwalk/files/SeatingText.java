package org.jointwalk.files;

import org.jointwalk.fixture.Clamping;
import org.jointwalk.job.Seating;

/** A seating within the body of an entry. Stateless. */
final class SeatingText {

  private SeatingText() {}

  static void write(JsonOut out, Seating seating) {
    out.with("seating", seating.number())
        .with("boot", seating.clamping().boot())
        .with("lid", seating.clamping().lid());
  }

  static Seating read(Field body) {
    return new Seating(
        body.at("seating").count(Integer.MIN_VALUE),
        new Clamping(body.at("boot").whole(Long.MIN_VALUE), body.at("lid").whole(Long.MIN_VALUE)));
  }
}

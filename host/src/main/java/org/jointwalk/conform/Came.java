package org.jointwalk.conform;

import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Message;

/**
 * A frame from the fixture.
 *
 * @param raw as it came
 * @param message what it says
 * @param nanos when its last byte was here
 */
record Came(RawFrame raw, Message message, long nanos) {

  boolean answers(RawFrame request) {
    return message instanceof Answer
        && raw.session() == request.session()
        && raw.number() == request.number();
  }
}

package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.random.RandomGenerator;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class RoundTripTest {

  private static final int EACH = 1000;

  @Test
  void thousandRandomMessagesOfEveryKindComeBackAsTheyWere() {
    RandomMessages.kinds()
        .forEach(
            (kind, draw) ->
                Trials.of(
                    EACH,
                    random -> {
                      Message message = draw.apply(random);
                      Frame frame =
                          new Frame(session(message, random), random.nextInt(65536), message);
                      Bytes wire = Bytes.of(frame.encode());
                      Parser parser = new Parser(Lines.receiver(message.type()));

                      List<Received> received = Lines.feed(parser, wire);

                      assertThat(received)
                          .as(kind)
                          .containsExactly(new Received.Whole(frame, frame.check()));
                      assertThat(wire.size()).as(kind).isLessThanOrEqualTo(252);
                      assertThat(wire.toString().indexOf("00", wire.size() * 2 - 2))
                          .as(kind)
                          .isEqualTo(wire.size() * 2 - 2);
                    }));
  }

  private static int session(Message message, RandomGenerator random) {
    if (message instanceof Answer.Welcome welcome) {
      return (int) (welcome.nonce() & 0xFFFF);
    }
    return message instanceof Request.Hello hello ? hello.session() : random.nextInt(65536);
  }

  @Test
  void randomDataComesBackFromItsEncodingWithoutAZeroOnTheWay() {
    Trials.of(
        2000,
        random -> {
          byte[] data = new byte[random.nextInt(1100)];
          random.nextBytes(data);
          for (int i = 0; i < data.length; i++) {
            if (random.nextInt(300) == 0) {
              data[i] = 0;
            }
          }

          byte[] encoded = Cobs.encode(data);

          assertThat(encoded).doesNotContain(0);
          assertThat(encoded.length).isLessThanOrEqualTo(data.length + data.length / 254 + 1);
          assertThat(Cobs.decode(encoded, 0, encoded.length)).hasValue(data);
        });
  }
}

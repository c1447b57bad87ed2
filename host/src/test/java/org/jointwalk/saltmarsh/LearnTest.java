package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.stack.PadMap;
import org.junit.jupiter.api.Test;

class LearnTest {
  @Test
  void look() throws Exception {
    PadMap map = SaltmarshS2.unlearned();
    for (int i = 0; i < 3; i++) {
      long t = System.nanoTime();
      PadMap l = Learn.learned(map, 20, Learn.virtual(map));
      System.out.println("TIME " + (System.nanoTime() - t) / 1e9 + " " + l.references().size());
      if (i == 0) l.references().forEach(System.out::println);
    }
  }
}

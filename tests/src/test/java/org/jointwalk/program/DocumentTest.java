package org.jointwalk.program;

import static org.assertj.core.api.Assertions.assertThat;

import org.jointwalk.program.Document.Count;
import org.junit.jupiter.api.Test;

class DocumentTest {

  private static final Document PAGE =
      Document.of(
          """
          Build it, then `jointwalk demo`:

          ```sh
          mvn -q package && host/target/jointwalk/bin/jointwalk demo
          # jointwalk is a comment here
          $ jointwalk job open --device "Saltmarsh S2" \\
              --fails radio
          ls jointwalk
          ```

          It says:

          ```text
          This pass, 12 pads:
            3  connected     current passed
            9  not seen      nothing was read here
          2 seatings
          ```

          ```json
          {"jointwalk": 1}
          ```
          jointwalk verdict --job 1
          ~~~sh
          jointwalk job list; jointwalk job show --job 1
          ~~~
          """);

  @Test
  void callsInShellBlocksAreFoundWhole() {
    assertThat(PAGE.commands())
        .containsExactly(
            "host/target/jointwalk/bin/jointwalk demo",
            "jointwalk job open --device \"Saltmarsh S2\"     --fails radio",
            "jointwalk job list",
            "jointwalk job show --job 1");
  }

  @Test
  void countsOfAResultStandTogether() {
    assertThat(PAGE.results()).hasSize(1);
    assertThat(PAGE.results().get(0))
        .containsExactly(
            new Count(3, "3  connected     current passed"),
            new Count(9, "9  not seen      nothing was read here"));
  }
}

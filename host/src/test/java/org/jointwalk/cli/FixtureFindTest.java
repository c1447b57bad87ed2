package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import org.jointwalk.link.Served;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class FixtureFindTest {

  @TempDir Path home;

  private Desk desk;

  @BeforeEach
  void sitDown() {
    desk = new Desk(home);
  }

  @Test
  void fixtureSaysWhoItIs() throws Exception {
    try (Served served = Served.here()) {
      assertThat(desk.run("fixture", "find", "--port", served.port())).as(desk.err()).isZero();

      assertThat(desk.out())
          .contains(served.port() + "  ", "channels, lid closed, calibration ", "protocol 1");
    }
  }

  @Test
  void portsThatCannotBeUsedSayWhy() throws Exception {
    try (Served served = Served.here().busy()) {
      assertThat(desk.run("fixture", "find", "--port", served.port(), "--port", "/dev/no-such-tty"))
          .isEqualTo(ExitCode.FIXTURE.number());

      assertThat(desk.out())
          .contains(
              served.port() + "  busy",
              "Another program is measuring",
              "/dev/no-such-tty  not there",
              "there is no such device");
    }
  }

  @Test
  void programsReadTheSame() throws Exception {
    try (Served served = Served.here()) {
      assertThat(
              desk.run(
                  "fixture",
                  "find",
                  "--json",
                  "--port",
                  served.port(),
                  "--port",
                  "/dev/no-such-tty"))
          .isZero();

      JsonNode ports = new ObjectMapper().readTree(desk.out()).get("ports");
      assertThat(ports).hasSize(2);
      assertThat(ports.get(0).get("usable").asBoolean()).isTrue();
      assertThat(ports.get(0).get("protocol").asInt()).isEqualTo(1);
      assertThat(ports.get(0).get("lid").asText()).isEqualTo("closed");
      assertThat(ports.get(1).get("usable").asBoolean()).isFalse();
      assertThat(ports.get(1).get("why").asText()).isEqualTo("missing");
    }
  }

  @Test
  void whatIsNoPortIsTheUsersInput() {
    assertThat(desk.run("fixture", "find", "--port", "tcp:here"))
        .isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("tcp:here", "tcp:HOST:NUMBER");

    assertThat(desk.run("fixture", "find", "--baud", "0")).isEqualTo(ExitCode.INPUT.number());
    assertThat(desk.err()).contains("115200");
  }
}

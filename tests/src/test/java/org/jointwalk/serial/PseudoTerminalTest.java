package org.jointwalk.serial;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.InstanceOfAssertFactories.type;

import java.io.ByteArrayOutputStream;
import java.nio.file.Path;
import java.time.Duration;
import java.util.SplittableRandom;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.jointwalk.link.ByteLink;
import org.jointwalk.link.Finder;
import org.jointwalk.link.Found;
import org.jointwalk.link.LinkException;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ports;
import org.jointwalk.link.Ticks;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@NeedsTool("socat")
@Timeout(60)
class PseudoTerminalTest {

  private static final Duration LONG = Duration.ofSeconds(10);
  private static final String ECHO = "EXEC:cat";
  private static final String DEAF = "EXEC:sleep 60";

  @TempDir private Path folder = Path.of("");

  private Path device = Path.of("");
  private Port port = Ports.named("none", LinkSettings.DEFAULTS);

  @BeforeEach
  void name() {
    device = folder.resolve("fixture0");
    port = Ports.named(device.toString(), LinkSettings.DEFAULTS);
  }

  private static void assertFails(ThrowingCallable call, LinkException.Cause how, String words) {
    assertThatThrownBy(call)
        .hasMessageContaining(words)
        .asInstanceOf(type(LinkException.class))
        .extracting(LinkException::failure)
        .isEqualTo(how);
  }

  private static void drain(ByteLink link) throws LinkException {
    for (int i = 0; i < 100; i++) {
      link.read(LONG);
    }
  }

  @Test
  void everyByteValuePassesBothWays() throws Exception {
    byte[] all = new byte[256];
    for (int i = 0; i < all.length; i++) {
      all[i] = (byte) i;
    }
    try (PseudoTerminal terminal = PseudoTerminal.at(device, ECHO);
        ByteLink link = port.open()) {
      assertThat(terminal).isNotNull();
      link.write(all);
      ByteArrayOutputStream back = new ByteArrayOutputStream();
      while (back.size() < all.length) {
        byte[] piece = link.read(LONG);
        assertThat(piece).isNotEmpty();
        back.writeBytes(piece);
      }
      assertThat(back.toByteArray()).isEqualTo(all);
    }
  }

  @Test
  void deviceThatIsNotThereIsMissing() {
    assertFails(port::open, LinkException.Cause.MISSING, "there is no such device");
  }

  @Test
  void deviceThatIsHeldIsBusy() throws Exception {
    try (PseudoTerminal terminal = PseudoTerminal.at(device, ECHO);
        ByteLink link = port.open()) {
      assertThat(terminal).isNotNull();
      assertThat(link.name()).isEqualTo(device.toString());
      assertFails(port::open, LinkException.Cause.BUSY, "Another program holds " + device);
    }
  }

  @Test
  void deviceThatGoesIsGoneAndOpensAnewWhenItIsBack() throws Exception {
    PseudoTerminal terminal = PseudoTerminal.at(device, ECHO);
    try (ByteLink link = port.open()) {
      terminal.close();
      assertFails(() -> drain(link), LinkException.Cause.GONE, "Look whether the cable sits");
    }
    try (PseudoTerminal again = PseudoTerminal.at(device, ECHO);
        ByteLink link = port.open()) {
      assertThat(again).isNotNull();
      link.write(new byte[] {1, 2, 3});
      assertThat(link.read(LONG)).isNotEmpty();
    }
  }

  @Test
  void deviceThatTakesNothingIsStuckAndGivenBack() throws Exception {
    try (PseudoTerminal terminal = PseudoTerminal.at(device, DEAF);
        ByteLink link = port.open()) {
      assertThat(terminal).isNotNull();
      assertFails(
          () -> {
            for (int i = 0; i < 200; i++) {
              link.write(new byte[16_384]);
            }
          },
          LinkException.Cause.STUCK,
          "has taken no bytes for 700 ms");
    }
  }

  private Found look() {
    return new Finder(Ticks.ofThisComputer(), new SplittableRandom(6), LinkSettings.DEFAULTS)
        .look(port);
  }

  @Test
  void portThatEchoesIsNoFixture() throws Exception {
    try (PseudoTerminal terminal = PseudoTerminal.at(device, ECHO)) {
      assertThat(terminal).isNotNull();
      Found.Unusable found = (Found.Unusable) look();
      assertThat(found.why()).isEqualTo(Found.Why.GARBAGE);
      assertThat(found.text()).contains("echoes what is sent to it");
    }
  }

  @Test
  void portWhereNobodyAnswersIsSilent() throws Exception {
    try (PseudoTerminal terminal = PseudoTerminal.at(device, DEAF)) {
      assertThat(terminal).isNotNull();
      Found.Unusable found = (Found.Unusable) look();
      assertThat(found.why()).isEqualTo(Found.Why.SILENT);
      assertThat(found.text()).contains("asked 7 times in 2100 ms");
    }
  }
}

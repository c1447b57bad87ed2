package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.SplittableRandom;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Switching;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.CapabilityItems;
import org.jointwalk.protocol.Frame;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Parser;
import org.jointwalk.protocol.Received;
import org.jointwalk.protocol.Request;
import org.junit.jupiter.api.Test;

/** The device under bytes of every kind: vectors beside the specification, noise, floods. */
class DeviceBytesTest {

  private static DeviceHost host() {
    DeviceHost host =
        new DeviceHost(
            DeviceTest.device(0, Rings.fixture(Clamped.MAP, Kelvin.TAIL, Switching.MATRIX)));
    assertThat(host.hello(0x5A1C_9E37, false, 0)).isInstanceOf(Answer.Welcome.class);
    return host;
  }

  private static List<JsonNode> vectors(String file) throws IOException {
    List<JsonNode> vectors = new ArrayList<>();
    try (InputStream in =
        DeviceBytesTest.class.getResourceAsStream("/firmware-protocol/vectors/" + file)) {
      assertThat(in).as(file).isNotNull();
      new ObjectMapper().readTree(in).get("vectors").forEach(vectors::add);
    }
    assertThat(vectors).as(file).isNotEmpty();
    return vectors;
  }

  private static byte[] wire(JsonNode vector) {
    return HexFormat.of().parseHex(vector.get("wire").asText());
  }

  /** What the device says to bytes from nobody in particular. */
  private static List<Received> says(Device device, DeviceLine line, byte[] bytes, long now) {
    line.take(bytes);
    device.poll(now);
    byte[] out = line.outgoing();
    return new Parser(Parser.End.HOST).feed(out, 0, out.length);
  }

  @Test
  void wrongRequestsOfTheVectorsAreRefusedWithTheirCode() throws IOException {
    int requests = 0;
    for (JsonNode vector : vectors("refused.json")) {
      int type = vector.get("type").asInt();
      if (type >= 0x40) {
        continue;
      }
      requests++;
      Device device = host().device;
      DeviceHost host = new DeviceHost(device);
      host.hello(0x5A1C_9E37, false, 0);
      List<Received> said = says(device, host.line, wire(vector), 1_000);

      assertThat(said).as(vector.get("name").asText()).hasSize(1);
      Frame frame = ((Received.Whole) said.get(0)).frame();
      assertThat(frame.message()).isInstanceOf(Answer.Refused.class);
      int code = ((Answer.Refused) frame.message()).code();
      assertThat(code).as(vector.get("name").asText()).isEqualTo(vector.get("code").asInt());
    }
    assertThat(requests).isGreaterThan(20);
  }

  @Test
  void framesThatTheVectorsDropAreCountedAndNoneElse() throws IOException {
    for (JsonNode vector : vectors("frames.json")) {
      if (!vector.get("to").asText().equals("fixture")) {
        continue;
      }
      int dropped = 0;
      int oversize = 0;
      for (JsonNode one : vector.get("expected")) {
        if (one.get("verdict").asText().equals("drop")) {
          boolean over = one.get("cause").asText().equals("oversize");
          oversize += over ? 1 : 0;
          dropped += over ? 0 : 1;
        }
      }
      Device device = host().device;
      says(device, device.line(), wire(vector), 1_000);
      DeviceHost host = new DeviceHost(device);
      host.hello(9, false, 0);
      Answer.State state = (Answer.State) host.ask(new Request.Status());

      assertThat(state.dropped()).as(vector.get("name").asText()).isEqualTo(dropped);
      assertThat(state.oversize()).as(vector.get("name").asText()).isEqualTo(oversize);
    }
  }

  @Test
  void capabilitiesComeInPagesThatAgreeWithTheirCheck() {
    DeviceHost host = host();
    List<Item> items = new ArrayList<>();
    int total = 1;
    while (items.size() < total) {
      Answer.Page page = (Answer.Page) host.ask(new Request.Capabilities(items.size()));
      total = page.total();
      items.addAll(page.items());
    }

    assertThat(CapabilityItems.check(items)).isEqualTo(host.welcome().capabilities());
    assertThat(host.ask(new Request.Capabilities(total))).isInstanceOf(Answer.Refused.class);
  }

  @Test
  void afterAnyNoiseTheNextRequestIsAnsweredAndNothingIsAmplified() {
    SplittableRandom random = new SplittableRandom(5);
    DeviceHost host = host();
    for (int round = 0; round < 300; round++) {
      byte[] noise = new byte[random.nextInt(900)];
      random.nextBytes(noise);
      host.line.take(noise);
      host.device.poll(round);
      assertThat(host.line.outgoing()).isEmpty();
      host.line.take(new byte[] {0});
      assertThat(host.ask(new Request.Status())).isInstanceOf(Answer.State.class);
    }
    assertThat(((Answer.State) host.ask(new Request.Status())).dropped()).isPositive();
  }

  @Test
  void requestsThatNobodyReadsTheAnswersOfFillNoMemory() {
    DeviceHost host = host();
    byte[] status = new Frame(host.session(), 1, new Request.Status()).encode();
    for (int i = 0; i < 5_000; i++) {
      host.line.take(status);
      host.device.poll(i);
    }

    assertThat(host.line.room()).isZero();
    assertThat(host.line.outgoing()).hasSizeLessThan(10_000);
    for (int i = 0; i < 50; i++) {
      host.device.poll(10_000);
      host.line.outgoing();
    }
    host.line.take(new byte[] {0});
    Answer.State state = (Answer.State) host.ask(new Request.Status());
    assertThat(state.overrun()).isPositive();
  }
}

package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;

class VectorsTest {

  @Test
  void committedFilesAreWhatTheGeneratorMakes() throws IOException {
    for (Map.Entry<String, String> file : WriteVectors.files().entrySet()) {
      assertThat(Committed.text("vectors/" + file.getKey()))
          .as(file.getKey())
          .isEqualTo(file.getValue());
    }
  }

  @Test
  void checksAgreeWithPublishedOnes() throws IOException {
    for (JsonNode vector : Committed.vectors("crc.json")) {
      byte[] data = Committed.bytes(vector, "data").toArray();
      assertThat(Crc.of(data, 0, data.length))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("crc").asLong());
    }
  }

  @Test
  void encodingsAgreeWithPublishedOnesBothWays() throws IOException {
    for (JsonNode vector : Committed.vectors("cobs.json")) {
      Bytes encoded = Committed.bytes(vector, "encoded");
      if (vector.get("verdict").asText().equals("reject")) {
        assertThat(decode(encoded)).as(Committed.name(vector)).isEmpty();
        continue;
      }
      Bytes data = Committed.bytes(vector, "data");
      assertThat(Bytes.of(Cobs.encode(data.toArray())))
          .as(Committed.name(vector))
          .isEqualTo(encoded);
      assertThat(decode(encoded)).as(Committed.name(vector)).contains(data);
      for (JsonNode also : vector.get("also")) {
        assertThat(decode(Bytes.ofHex(also.asText()))).as(Committed.name(vector)).contains(data);
      }
    }
  }

  private static Optional<Bytes> decode(Bytes encoded) {
    return Cobs.decode(encoded.toArray(), 0, encoded.size()).map(Bytes::of);
  }

  @Test
  void receiverMakesOfEveryLineWhatIsExpected() throws IOException {
    for (JsonNode vector : Committed.vectors("frames.json")) {
      Parser parser =
          new Parser(Parser.End.valueOf(vector.get("to").asText().toUpperCase(Locale.ROOT)));
      List<Received> received = Lines.feed(parser, Committed.bytes(vector, "wire"));
      List<String> found = new ArrayList<>();
      for (Received one : received) {
        found.add(
            one instanceof Received.Dropped dropped
                ? dropped.cause().name().toLowerCase(Locale.ROOT)
                : raw(one).toString());
      }
      List<String> expected = new ArrayList<>();
      for (JsonNode one : vector.get("expected")) {
        expected.add(one.get(one.has("cause") ? "cause" : "raw").asText());
      }
      assertThat(found).as(Committed.name(vector)).isEqualTo(expected);
    }
  }

  private static Bytes raw(Received received) {
    assertThat(received).isInstanceOf(Received.Whole.class);
    return ((Received.Whole) received).frame().raw();
  }

  @Test
  void everyMessageIsReadAndWrittenAsItsVectorSays() throws IOException {
    ObjectMapper mapper = new ObjectMapper();
    Set<Integer> types = new HashSet<>();
    for (JsonNode vector : Committed.vectors("messages.json")) {
      String name = Committed.name(vector);
      Bytes wire = Committed.bytes(vector, "wire");
      int type = vector.get("type").asInt();
      types.add(type);

      List<Received> received = Lines.feed(new Parser(Lines.receiver(type)), wire);

      assertThat(received).as(name).hasSize(1);
      Frame frame = ((Received.Whole) received.get(0)).frame();
      assertThat(frame.session()).as(name).isEqualTo(vector.get("session").asInt());
      assertThat(frame.number()).as(name).isEqualTo(vector.get("number").asInt());
      assertThat(frame.message().type()).as(name).isEqualTo(type);
      assertThat(mapper.writeValueAsString(VectorText.fields(frame.message())))
          .as(name)
          .isEqualTo(mapper.writeValueAsString(vector.get("fields")));
      assertThat(Bytes.of(frame.encode())).as(name).isEqualTo(wire);
      assertThat(frame.raw()).as(name).isEqualTo(Committed.bytes(vector, "raw"));
      assertThat(((Received.Whole) received.get(0)).check()).as(name).isEqualTo(frame.check());
    }
    assertThat(types).as("types that have a vector").hasSize(22);
  }

  @Test
  void everyWrongContentIsFoundAndNamed() throws IOException {
    for (JsonNode vector : Committed.vectors("refused.json")) {
      String name = Committed.name(vector);
      int type = vector.get("type").asInt();

      List<Received> received =
          Lines.feed(new Parser(Lines.receiver(type)), Committed.bytes(vector, "wire"));

      assertThat(received).as(name).hasSize(1);
      assertThat(received.get(0)).as(name).isInstanceOf(Received.Unreadable.class);
      Received.Unreadable found = (Received.Unreadable) received.get(0);
      assertThat(found.refusal().code()).as(name).isEqualTo(vector.get("code").asInt());
      assertThat(found.type()).as(name).isEqualTo(type);
      assertThat(found.number()).as(name).isEqualTo(99);
      assertThat(found.session()).as(name).isEqualTo(Samples.SESSION);
    }
  }

  @Test
  void namesAreUsedOnceInAFile() throws IOException {
    for (String file : WriteVectors.files().keySet()) {
      assertThat(Committed.vectors(file).stream().map(Committed::name).toList())
          .as(file)
          .doesNotHaveDuplicates();
    }
  }
}

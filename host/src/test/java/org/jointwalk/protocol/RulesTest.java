package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Kind;
import org.junit.jupiter.api.Test;

class RulesTest {

  private static List<JsonNode> rules(String rule) throws IOException {
    List<JsonNode> rules =
        Committed.vectors("rules.json").stream()
            .filter(vector -> vector.get("rule").asText().equals(rule))
            .toList();
    assertThat(rules).as(rule).isNotEmpty();
    return rules;
  }

  @Test
  void answersAreComputedAsTheTableSays() throws IOException {
    for (JsonNode vector : rules("answer")) {
      List<Raw> points = new ArrayList<>();
      vector
          .get("points")
          .forEach(point -> points.add(new Raw(point.get(0).asInt(), point.get(1).asInt())));
      Kind kind = KindCode.kind(vector.get("kind").asInt()).orElseThrow();

      assertThat(Extension.answer(kind, points, vector.get("over").asInt() == 1))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("answer").asLong());
    }
  }

  @Test
  void stepEndsWithThePointThatDecidesIt() throws IOException {
    for (JsonNode vector : rules("extension")) {
      Streamed.Setting setting =
          new Streamed.Setting(
              1,
              0,
              Kind.LOW_LEVEL,
              true,
              vector.get("samples").asInt(),
              vector.get("most").asInt(),
              0,
              List.of(1),
              0,
              vector.get("limit").asLong(),
              vector.get("below").asLong(),
              vector.get("above").asLong(),
              List.of());
      List<Long> answers = new ArrayList<>();
      int taken = 0;
      do {
        answers.add(vector.get("answers").get(taken).asLong());
        taken++;
      } while (!Extension.ends(setting, answers, false));

      assertThat(taken).as(Committed.name(vector)).isEqualTo(vector.get("taken").asInt());
      assertThat(Extension.brief(setting, answers, false).code())
          .as(Committed.name(vector))
          .isEqualTo(vector.get("bits").asInt());
    }
  }

  @Test
  void pointOverRangeEndsAStepAndIsAboveAnyLimit() {
    Streamed.Setting setting =
        new Streamed.Setting(
            1, 0, Kind.LOW_LEVEL, true, 4, 9, 0, List.of(1), 0, 0xFFFF_FFFFL, 0, 9, List.of());
    List<Long> answers = List.of(Extension.MOST_ANSWER);

    assertThat(Extension.ends(setting, answers, true)).isTrue();
    assertThat(Extension.brief(setting, answers, true)).isEqualTo(Notice.Brief.ABOVE);
  }

  @Test
  void checksAreTakenOverTheBytesThatTheSectionsName() throws IOException {
    for (JsonNode vector : rules("declaration")) {
      int[] places = new int[vector.get("channels").asInt()];
      for (JsonNode channels : vector.get("places")) {
        Bytes payload = Bytes.ofHex(channels.asText());
        int first = payload.at(0) | (payload.at(1) << 8);
        int count = payload.at(2) | (payload.at(3) << 8);
        for (int i = 0; i < count; i++) {
          places[first + i] = (payload.at(4 + i / 2) >> (4 * (i % 2))) & 0xF;
        }
      }
      Out out = new Out().bytes(Committed.bytes(vector, "declare"));
      for (int place : places) {
        out.u8(place);
      }
      byte[] all = out.done().toArray();

      assertThat(Crc.of(all, 0, all.length))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("check").asLong());
    }
    for (JsonNode vector : rules("capabilities")) {
      byte[] items = Committed.bytes(vector, "items").toArray();

      assertThat(Crc.of(items, 0, items.length)).isEqualTo(vector.get("check").asLong());
    }
  }
}

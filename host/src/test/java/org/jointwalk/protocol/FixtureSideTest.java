package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Switching;
import org.junit.jupiter.api.Test;

class FixtureSideTest {

  private static List<JsonNode> rules(String rule) throws IOException {
    List<JsonNode> rules =
        Committed.vectors("rules.json").stream()
            .filter(vector -> vector.get("rule").asText().equals(rule))
            .toList();
    assertThat(rules).as(rule).isNotEmpty();
    return rules;
  }

  private static Message message(JsonNode line) {
    int type = line.get("type").asInt();
    List<Received> received =
        Lines.feed(
            new Parser(Parser.End.FIXTURE),
            Lines.wire(Lines.raw(type, 1, 1, Committed.bytes(line, "payload"))));
    assertThat(received.get(0)).isInstanceOf(Received.Whole.class);
    return ((Received.Whole) received.get(0)).frame().message();
  }

  @Test
  void programsAreTakenUpToTheFaultThatTheVectorNames() throws IOException {
    for (JsonNode vector : Committed.vectors("programs.json")) {
      ProgramReader reader = new ProgramReader(Programs.LIMITS, Programs.RUN);
      List<Integer> faults = new ArrayList<>();
      for (JsonNode line : vector.get("stream")) {
        Optional<ProgramFault> fault =
            reader.take((Streamed) message(line), line.get("done").asLong());
        faults.add(fault.map(ProgramFault::code).orElse(0));
      }
      int last = faults.size() - 1;

      assertThat(faults.subList(0, last)).as(Committed.name(vector)).containsOnly(zeros(last));
      assertThat(faults.get(last))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("fault").asInt());
    }
  }

  private static Integer[] zeros(int count) {
    return count == 0 ? new Integer[0] : new Integer[] {0};
  }

  @Test
  void stepsAreRefusedForTheReasonThatTheVectorNames() throws IOException, BreachException {
    JsonNode file = new ObjectMapper().readTree(Committed.text("vectors/steps.json"));
    int channels = file.get("channels").asInt();
    for (JsonNode vector : Committed.vectors("steps.json")) {
      Bytes items = Bytes.ofHex(file.get("items").get(vector.get("fixture").asText()).asText());
      Capabilities able = CapabilityItems.read(items(items));
      Declaration declaration = declaration(file.get(vector.get("declared").asText()), channels);
      ProgramReader reader =
          new ProgramReader(
              new Answer.Welcome(1, 1, 0, 0, 0, 0, 0, 0, 252, channels, 16, 8, 4, 24, 0, 0, 0, 0),
              new Request.Run(1, 0, 1, 0, 0));
      for (JsonNode line : vector.get("stream")) {
        assertThat(reader.take((Streamed) message(line), 0)).as(Committed.name(vector)).isEmpty();
      }

      Optional<StepRefusal> refusal =
          new StepCheck(able, channels)
              .refusal(
                  reader.step(0).orElseThrow(),
                  declaration,
                  Refusals.channels(vector.get("proved")));

      assertThat(refusal.map(StepRefusal::code).orElse(0))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("reason").asInt());
    }
  }

  private static List<Item> items(Bytes bytes) {
    List<Item> items = new ArrayList<>();
    int at = 0;
    while (at < bytes.size()) {
      int end = at + 2 + bytes.at(at + 1);
      items.add(new Item(bytes.at(at), Lines.part(bytes, at + 2, end)));
      at = end;
    }
    return items;
  }

  private static Declaration declaration(JsonNode requests, int channels) {
    Declaration held = Declaration.begun((Request.Declare) message(requests.get(0)), channels);
    for (int i = 1; i < requests.size(); i++) {
      held = held.with((Request.Channels) message(requests.get(i))).orElseThrow();
    }
    return held;
  }

  @Test
  void everyReasonThatComputationCanFindHasAStep() throws IOException {
    Set<Integer> reasons = new HashSet<>();
    Committed.vectors("steps.json").forEach(v -> reasons.add(v.get("reason").asInt()));

    assertThat(reasons)
        .as("all but power and a live board, which only hardware knows")
        .containsExactlyInAnyOrder(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 13);
  }

  @Test
  void stepsAreTakenTogetherOnlyWhenReadersAndBanksAllow() {
    Capabilities able = Refusals.able(Switching.MULTIPLEXER);
    StepCheck check = new StepCheck(able, Refusals.CHANNELS);
    Optional<StepRefusal> refused = Optional.of(StepRefusal.SWITCHING);

    assertThat(check.refusal(List.of(pair(0, 12)), Refusals.ON_BOARD))
        .as("a step by itself may use several banks")
        .isEmpty();
    assertThat(check.refusal(List.of(pair(0, 1), pair(4, 6)), Refusals.ON_BOARD)).isEmpty();
    assertThat(check.refusal(List.of(pair(0, 1), pair(2, 6)), Refusals.ON_BOARD))
        .as("channel 2 is in the bank of 0 and 1")
        .isEqualTo(refused);
    assertThat(check.refusal(List.of(pair(0, 1), pair(4, 6), pair(8, 9)), Refusals.ON_BOARD))
        .as("there are two readers")
        .isEqualTo(refused);
  }

  private static ProgramReader.Loaded pair(int high, int low) {
    return loaded(Optional.empty(), List.of(high), List.of(low));
  }

  private static ProgramReader.Loaded loaded(
      Optional<Streamed.Setting> setting, List<Integer> high, List<Integer> low) {
    WireStep step =
        new WireStep(
            0,
            false,
            new Terminal.Nothing(),
            new Terminal.Nothing(),
            new Terminal.Nothing(),
            new Terminal.Nothing());
    return new ProgramReader.Loaded(step, setting, high, low, List.of(), List.of(), true);
  }

  @Test
  void proofsFollowTheJunctionsThatWereRead() throws IOException {
    for (JsonNode vector : rules("proofs")) {
      Proofs proofs = new Proofs();
      for (JsonNode junction : vector.get("junctions")) {
        Streamed.Setting setting =
            new Streamed.Setting(
                1,
                0,
                Kind.JUNCTION,
                false,
                1,
                1,
                junction.get("voltage").asInt(),
                List.of(junction.get("current").asInt()),
                0,
                0,
                0,
                0,
                List.of());
        List<Raw> points = List.of(new Raw(junction.get("volt").asInt(), 1));
        Taken taken =
            switch (junction.get("status").asInt()) {
              case 0 -> new Taken.Measured(points);
              case 1 -> new Taken.OverRange(points);
              default -> new Taken.Refused(1);
            };
        proofs.learn(
            loaded(
                Optional.of(setting),
                List.copyOf(Refusals.channels(junction.get("high"))),
                List.copyOf(Refusals.channels(junction.get("low")))),
            Refusals.BARE,
            taken);
      }

      assertThat(proofs.proved())
          .as(Committed.name(vector))
          .isEqualTo(Refusals.channels(vector.get("proved")));
      proofs.forget();
      assertThat(proofs.proved()).isEmpty();
    }
  }

  @Test
  void requestsAreExecutedRepeatedOrRefusedByTheirNumbers() throws IOException {
    for (JsonNode vector : rules("requests")) {
      int session = vector.get("session").asInt();
      Frame answer = answer(session, vector.get("number").asInt());
      RequestLedger ledger = new RequestLedger(answer, vector.get("check").asLong(), answer);
      for (JsonNode request : vector.get("requests")) {
        int number = request.get("number").asInt();
        long check = request.get("check").asLong();

        RequestLedger.Order order = ledger.look(request.get("session").asInt(), number, check);

        RequestLedger.Order expected = new RequestLedger.Order.Execute();
        if (request.get("repeat").asInt() == 1) {
          expected = new RequestLedger.Order.Repeat(answer);
        } else if (request.get("code").asInt() != 0) {
          expected =
              new RequestLedger.Order.Refuse(Refusal.of(request.get("code").asInt()).orElseThrow());
        }
        assertThat(order).as(Committed.name(vector)).isEqualTo(expected);
        if (order instanceof RequestLedger.Order.Execute) {
          answer = answer(session, number);
          ledger.keep(check, answer);
        }
      }
      assertThat(ledger.session()).isEqualTo(session);
    }
  }

  private static Frame answer(int session, int number) {
    return new Frame(session, number, new Answer.Declared(number));
  }

  @Test
  void streamedFramesAreNextFurtherOnOrOld() throws IOException {
    for (JsonNode vector : rules("stream")) {
      int ahead = RequestLedger.ahead(vector.get("heard").asInt(), vector.get("number").asInt());

      assertThat(Integer.signum(ahead))
          .as(Committed.name(vector))
          .isEqualTo(vector.get("ahead").asInt());
    }
  }
}

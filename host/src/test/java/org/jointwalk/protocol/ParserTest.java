package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.random.RandomGenerator;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class ParserTest {

  /** Every vector that is bytes on a line, with the end that receives it. */
  private record Line(String name, Parser.End end, Bytes wire) {}

  private static List<Line> lines() throws IOException {
    List<Line> lines = new ArrayList<>();
    for (String file : List.of("messages.json", "refused.json")) {
      for (JsonNode vector : Committed.vectors(file)) {
        lines.add(
            new Line(
                Committed.name(vector),
                Lines.receiver(vector.get("type").asInt()),
                Committed.bytes(vector, "wire")));
      }
    }
    for (JsonNode vector : Committed.vectors("frames.json")) {
      lines.add(
          new Line(
              Committed.name(vector),
              Parser.End.valueOf(vector.get("to").asText().toUpperCase(Locale.ROOT)),
              Committed.bytes(vector, "wire")));
    }
    return lines;
  }

  private static List<Received> pieces(Parser.End end, Bytes wire, int... cuts) {
    Parser parser = new Parser(end);
    List<Received> received = new ArrayList<>();
    byte[] bytes = wire.toArray();
    int from = 0;
    for (int cut : cuts) {
      received.addAll(parser.feed(bytes, from, cut));
      from = cut;
    }
    received.addAll(parser.feed(bytes, from, bytes.length));
    return received;
  }

  @Test
  void everySplitOfEveryVectorGivesTheSameFrames() throws IOException {
    for (Line line : lines()) {
      List<Received> whole = pieces(line.end(), line.wire());
      for (int cut = 0; cut <= line.wire().size(); cut++) {
        assertThat(pieces(line.end(), line.wire(), cut))
            .as(line.name() + " cut before byte " + cut)
            .isEqualTo(whole);
      }
    }
  }

  @Test
  void everyPairOfSplitsOfAShortFrameGivesTheSameFrame() throws IOException {
    for (Line line : lines()) {
      if (line.wire().size() > 40) {
        continue;
      }
      List<Received> whole = pieces(line.end(), line.wire());
      for (int a = 0; a <= line.wire().size(); a++) {
        for (int b = a; b <= line.wire().size(); b++) {
          assertThat(pieces(line.end(), line.wire(), a, b)).as(line.name()).isEqualTo(whole);
        }
      }
    }
  }

  @Test
  void everySplitWithNoiseBeforeBetweenAndAfterStillFindsTheFrames() throws IOException {
    RandomGenerator random = Trials.random(1);
    Bytes delimiter = Lines.repeat(0, 1);
    for (Line line : lines()) {
      List<Received> clean = frames(pieces(line.end(), line.wire()));
      Bytes stream =
          Lines.join(
              noise(random, 1 + random.nextInt(40)),
              delimiter,
              line.wire(),
              noise(random, 1 + random.nextInt(300)),
              delimiter,
              delimiter,
              line.wire(),
              delimiter,
              noise(random, 1 + random.nextInt(40)));
      List<Received> twice = new ArrayList<>(clean);
      twice.addAll(clean);
      // Bytes without a delimiter at the end of a vector run into the noise, which is its point.
      boolean open = line.wire().at(line.wire().size() - 1) != 0;
      for (int cut = 0; cut <= stream.size(); cut++) {
        assertThat(frames(pieces(line.end(), stream, cut)))
            .as(line.name() + " in noise, cut before byte " + cut)
            .isEqualTo(open ? frames(pieces(line.end(), stream)) : twice);
      }
    }
  }

  private static List<Received> frames(List<Received> all) {
    return all.stream().filter(one -> !(one instanceof Received.Dropped)).toList();
  }

  private static Bytes noise(RandomGenerator random, int size) {
    byte[] bytes = new byte[size];
    random.nextBytes(bytes);
    return Bytes.of(bytes);
  }

  @Test
  void bytesFedOneByOneGiveTheSameFrames() throws IOException {
    for (Line line : lines()) {
      int[] cuts = new int[line.wire().size()];
      for (int i = 0; i < cuts.length; i++) {
        cuts[i] = i;
      }
      assertThat(pieces(line.end(), line.wire(), cuts))
          .as(line.name())
          .isEqualTo(pieces(line.end(), line.wire()));
    }
  }

  @Test
  void frameAfterAnyGarbageIsReceived() {
    Trials.of(
        500,
        random -> {
          Bytes wire = Bytes.of(new Frame(1, 2, new Request.Status()).encode());
          Bytes garbage = noise(random, random.nextInt(1, 700));
          List<Received> received =
              pieces(Parser.End.FIXTURE, Lines.join(garbage, Lines.repeat(0, 1), wire));

          assertThat(frames(received)).hasSize(1);
        });
  }
}

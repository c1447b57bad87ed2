package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class SpecificationTest {

  private static final Pattern CLAUSE =
      Pattern.compile("^- \\*\\*(M\\d+)\\*\\* \\((fixture|host|both)\\) ", Pattern.MULTILINE);

  private static List<String> clauses() throws IOException {
    return CLAUSE.matcher(Committed.text("SPEC.md")).results().map(m -> m.group(1)).toList();
  }

  @Test
  void clausesAreNumberedInOrderWithoutAGap() throws IOException {
    List<String> clauses = clauses();
    List<String> expected = new ArrayList<>();
    for (int i = 1; i <= clauses.size(); i++) {
      expected.add("M" + i);
    }

    assertThat(clauses).isNotEmpty().isEqualTo(expected);
    assertThat(Pattern.compile("\\*\\*M\\d+").matcher(Committed.text("SPEC.md")).results().count())
        .as("clauses in bold, all of them at the beginning of a line")
        .isEqualTo(clauses.size());
  }

  @Test
  void everyClauseThatIsReferredToExists() throws IOException {
    Set<String> clauses = new HashSet<>(clauses());
    List<String> referred =
        Pattern.compile("\\bM\\d+\\b")
            .matcher(Committed.text("SPEC.md"))
            .results()
            .map(MatchResult::group)
            .toList();

    assertThat(clauses).containsAll(referred);
  }

  @Test
  void everyVectorQuotesClausesThatExist() throws IOException {
    Set<String> clauses = new HashSet<>(clauses());
    for (String file : WriteVectors.files().keySet()) {
      for (JsonNode vector : Committed.vectors(file)) {
        assertThat(vector.get("clauses")).as(Committed.name(vector)).isNotEmpty();
        vector
            .get("clauses")
            .forEach(c -> assertThat(clauses).as(Committed.name(vector)).contains(c.asText()));
      }
    }
  }

  @Test
  void everyTypeOfTheOverviewCanBeRead() throws IOException {
    List<Integer> types =
        Pattern.compile("^\\| 0x([0-9A-F]{2}) \\| [A-Z]+ \\|", Pattern.MULTILINE)
            .matcher(Committed.text("SPEC.md"))
            .results()
            .map(m -> Integer.parseInt(m.group(1), 16))
            .toList();

    assertThat(types).hasSize(22);
    for (int type : types) {
      List<Received> received =
          Lines.feed(
              new Parser(Lines.receiver(type)),
              Lines.wire(Lines.raw(type, 1, 1, Lines.repeat(0, 30))));
      assertThat(received).as("type " + type).hasSize(1);
      assertThat(received.get(0) instanceof Received.Unreadable u ? u.refusal() : Refusal.BAD_VALUE)
          .as("type " + type)
          .isNotEqualTo(Refusal.UNKNOWN_TYPE);
    }
  }

  @Test
  void everyCodeOfTheTablesHasItsWord() throws IOException {
    assertThat(rows("### 16.1")).isEqualTo(words(Refusal.values()));
    assertThat(rows("### 16.2")).isEqualTo(words(StepRefusal.values()));
    assertThat(rows("### 16.3")).isEqualTo(words(RunEnd.values()));
    assertThat(rows("### 16.5")).isEqualTo(words(ProgramFault.values()));
  }

  private static <E extends Enum<E> & Coded> List<String> words(E[] words) {
    return List.of(words).stream().map(word -> word.code() + " " + word.name()).toList();
  }

  private static List<String> rows(String heading) throws IOException {
    String text = Committed.text("SPEC.md");
    int from = text.indexOf(heading);
    int to = text.indexOf("\n#", from);
    return Pattern.compile("^\\| (\\d+) \\| ([A-Z_]+) \\|", Pattern.MULTILINE)
        .matcher(text.substring(from, to))
        .results()
        .map(m -> m.group(1) + " " + m.group(2))
        .toList();
  }

  @Test
  void examplesOfBytesAreAmongTheVectors() throws IOException {
    Set<String> wires = new HashSet<>();
    for (JsonNode vector : Committed.vectors("messages.json")) {
      wires.add(vector.get("wire").asText());
    }
    List<String> examples =
        Pattern.compile("^ {4}((?:[0-9A-F]{2} ?){9,})$", Pattern.MULTILINE)
            .matcher(Committed.text("SPEC.md"))
            .results()
            .map(m -> Bytes.ofHex(m.group(1).replace(" ", "")).toString())
            .toList();

    assertThat(examples).isNotEmpty();
    assertThat(wires).containsAll(examples);
  }

  @Test
  void wordsOfOneEnumerationHaveDifferentCodesAndNoneIsZero() {
    for (int code = 1; code <= 20; code++) {
      assertThat(Refusal.of(code).map(Refusal::code)).isEqualTo(present(code, 13));
      assertThat(RunEnd.of(code).map(RunEnd::code)).isEqualTo(present(code, 10));
      assertThat(StepRefusal.of(code).map(StepRefusal::code)).isEqualTo(present(code, 14));
      assertThat(ProgramFault.of(code).map(ProgramFault::code)).isEqualTo(present(code, 6));
    }
    assertThat(Refusal.of(0)).isEmpty();
    assertThat(RunEnd.of(0)).isEmpty();
  }

  private static Optional<Integer> present(int code, int last) {
    return code <= last ? Optional.of(code) : Optional.empty();
  }
}

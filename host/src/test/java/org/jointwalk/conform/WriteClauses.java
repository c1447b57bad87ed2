package org.jointwalk.conform;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Makes the table of all clauses with what looks at each. */
public final class WriteClauses {

  static final Path FILE = Path.of("..", "firmware-protocol", "CLAUSES.md");

  private static final Path SPEC = Path.of("..", "firmware-protocol", "SPEC.md");
  private static final Path VECTORS = Path.of("..", "firmware-protocol", "vectors");
  private static final List<String> FILES =
      List.of("crc", "cobs", "frames", "messages", "refused", "rules", "programs", "steps");
  private static final Pattern CLAUSE =
      Pattern.compile("^- \\*\\*(M\\d+)\\*\\* \\((fixture|host|both)\\)", Pattern.MULTILINE);

  private WriteClauses() {}

  /** Writes the table where it belongs; run it in the folder of the host. */
  public static void main(String[] args) throws IOException {
    Files.writeString(FILE, text(), StandardCharsets.UTF_8);
  }

  /**
   * One line of the table.
   *
   * @param clause its number
   * @param binds fixture, host or both
   * @param vectors how many of which file
   * @param conform what the kit looks at, or why it cannot
   * @param variant the broken fixture that it catches, or why there is none
   */
  record Row(String clause, String binds, String vectors, String conform, String variant) {}

  static List<Row> rows() throws IOException {
    Map<String, Outcome> checks =
        Conformance.clauses().stream().collect(Collectors.toMap(Outcome::clause, o -> o));
    Map<String, String> variants =
        Variant.all().stream().collect(Collectors.toMap(Variant::clause, Variant::what));
    variants.put(Variant.OTHER_LINE, "is kept alive by frames on another line");
    Map<String, Map<String, Integer>> vectors = vectors();
    List<Row> rows = new ArrayList<>();
    Matcher clauses = CLAUSE.matcher(Files.readString(SPEC, StandardCharsets.UTF_8));
    while (clauses.find()) {
      String clause = clauses.group(1);
      boolean host = clauses.group(2).equals("host");
      Outcome check =
          checks.getOrDefault(clause, new Outcome(clause, "", Outcome.Result.PASSED, ""));
      String title = host ? "" : check.title();
      boolean hidden = check.result() == Outcome.Result.NOT_TESTABLE;
      rows.add(
          new Row(
              clause,
              clauses.group(2),
              vectors.getOrDefault(clause, Map.of()).entrySet().stream()
                  .map(file -> file.getKey() + " " + file.getValue())
                  .collect(Collectors.joining(", ")),
              host ? "*host*" : hidden ? title + ": *" + check.detail() + "*" : title,
              host ? "*host*" : hidden ? "*none*" : variants.getOrDefault(clause, "")));
    }
    return rows;
  }

  private static Map<String, Map<String, Integer>> vectors() throws IOException {
    Map<String, Map<String, Integer>> counts = new LinkedHashMap<>();
    for (String file : FILES) {
      JsonNode all =
          new ObjectMapper().readTree(VECTORS.resolve(file + ".json").toFile()).get("vectors");
      for (JsonNode vector : all) {
        for (JsonNode clause : vector.get("clauses")) {
          counts
              .computeIfAbsent(clause.asText(), c -> new LinkedHashMap<>())
              .merge(file, 1, Integer::sum);
        }
      }
    }
    return counts;
  }

  static String text() throws IOException {
    StringBuilder text = new StringBuilder();
    text.append("# What looks at which clause\n\n");
    text.append(
        "Made by a program out of [SPEC.md](SPEC.md), the vectors, the conformance kit and\n");
    text.append(
        "its broken fixtures; a test keeps it up to date. `host` clauses bind the host program\n");
    text.append("and are looked at by its own tests. What the kit cannot see says why.\n\n");
    text.append(
        "| clause | binds | vectors | `fixture conform` looks whether | a fixture it catches |\n");
    text.append("|---|---|---|---|---|\n");
    for (Row row : rows()) {
      text.append(
          String.join(
              " | ",
              "| " + row.clause(),
              row.binds(),
              row.vectors().isEmpty() ? "–" : row.vectors(),
              row.conform(),
              row.variant() + " |\n"));
    }
    return text.toString();
  }
}

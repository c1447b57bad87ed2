package org.jointwalk.program;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * A page in Markdown, as far as what it shows can be checked: its fenced blocks.
 *
 * @param blocks in their order
 */
record Document(List<Block> blocks) {

  private static final Pattern FENCE = Pattern.compile("\\s{0,3}(`{3,}|~{3,})\\s*(\\S*).*");
  private static final Pattern COUNT = Pattern.compile("\\s*([0-9]+) {2,}(\\p{L}.*)");
  private static final Pattern PROGRAM =
      Pattern.compile("(?:host/target/jointwalk/bin/)?jointwalk(?:\\s.*)?");

  Document {
    blocks = List.copyOf(blocks);
  }

  /**
   * A fenced block.
   *
   * @param language what stands behind the opening fence; empty when nothing does
   */
  record Block(String language, List<String> lines) {

    Block {
      lines = List.copyOf(lines);
    }
  }

  /**
   * A line of a result that counts positions.
   *
   * @param number how many
   * @param text the line without white space around it
   */
  record Count(int number, String text) {

    static Optional<Count> of(String line) {
      Matcher matcher = COUNT.matcher(line);
      return matcher.matches()
          ? Optional.of(new Count(Integer.parseInt(matcher.group(1)), line.strip()))
          : Optional.empty();
    }

    @Override
    public String toString() {
      return text;
    }
  }

  static Document of(String text) {
    List<Block> blocks = new ArrayList<>();
    List<String> lines = new ArrayList<>();
    String fence = "";
    String language = "";
    for (String line : text.lines().toList()) {
      Matcher matcher = FENCE.matcher(line);
      if (fence.isEmpty() && matcher.matches()) {
        fence = matcher.group(1);
        language = matcher.group(2);
        lines.clear();
      } else if (!fence.isEmpty() && line.strip().equals(fence)) {
        blocks.add(new Block(language, lines));
        fence = "";
      } else {
        lines.add(line);
      }
    }
    return new Document(blocks);
  }

  /** The calls of the program in blocks for a shell, one a line, whatever stands around them. */
  List<String> commands() {
    return blocks.stream()
        .filter(block -> block.language().equals("sh"))
        .flatMap(block -> joined(block.lines()).stream())
        .flatMap(line -> Stream.of(line.split("&&|;", -1)))
        .map(String::strip)
        .filter(line -> PROGRAM.matcher(line).matches())
        .toList();
  }

  /** Lines as a shell reads them: joined at a backslash, without prompt. */
  private static List<String> joined(List<String> lines) {
    List<String> joined = new ArrayList<>();
    String begun = "";
    for (String line : lines) {
      String text = begun + (begun.isEmpty() && line.startsWith("$ ") ? line.substring(2) : line);
      if (text.endsWith("\\")) {
        begun = text.substring(0, text.length() - 1);
      } else {
        joined.add(text);
        begun = "";
      }
    }
    return joined;
  }

  /** The counts of the results that blocks show, those of a block together. */
  List<List<Count>> results() {
    return blocks.stream()
        .filter(block -> !block.language().equals("sh"))
        .map(block -> counts(block.lines()))
        .filter(counts -> counts.size() > 1)
        .toList();
  }

  /** The counts among some lines. */
  static List<Count> counts(List<String> lines) {
    return lines.stream().map(Count::of).flatMap(Optional::stream).toList();
  }
}

package org.jointwalk.program;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.regex.Pattern;

/**
 * A block of {@code bad-input.txt}: how sound files are spoilt, what is run, and what has to be
 * told.
 *
 * @param name of the block
 * @param entries keys and values in their order
 */
record Slip(String name, List<Entry> entries) {

  private static final Pattern WORD = Pattern.compile("\"([^\"]*)\"|(\\S+)");
  private static final Pattern BYTE = Pattern.compile("\\\\x([0-9A-F]{2})");

  /** The rest of a file, which this word in a {@code find} stands for. */
  private static final String REST = "%REST%";

  Slip {
    entries = List.copyOf(entries);
  }

  /** A line of a block. */
  record Entry(String key, String value) {}

  /** All blocks of the table. */
  static List<Slip> table() throws IOException {
    try (InputStream in = Objects.requireNonNull(Slip.class.getResourceAsStream("bad-input.txt"))) {
      List<Slip> slips = new ArrayList<>();
      for (String block : new String(in.readAllBytes(), UTF_8).strip().split("\n\n+", -1)) {
        if (!block.startsWith("#")) {
          slips.add(of(block));
        }
      }
      return slips;
    }
  }

  private static Slip of(String block) {
    List<Entry> entries = new ArrayList<>();
    for (String line : block.split("\n", -1)) {
      int colon = line.indexOf(':');
      assertThat(colon).as("a line with a key: " + line).isPositive();
      entries.add(new Entry(line.substring(0, colon), line.substring(colon + 1).strip()));
    }
    assertThat(entries.get(0).key()).isEqualTo("case");
    return new Slip(entries.get(0).value(), entries);
  }

  /** The values of a key. */
  List<String> all(String key) {
    return entries.stream().filter(e -> e.key().equals(key)).map(Entry::value).toList();
  }

  /** The words of the command, parted as a shell parts them, double quotes only. */
  List<String> command() {
    return WORD.matcher(all("run").get(0))
        .results()
        .map(word -> word.group(1) == null ? word.group(2) : word.group(1))
        .toList();
  }

  /** The exit code that the command has to end with. */
  int code() {
    List<String> given = all("exit");
    return given.isEmpty() ? 2 : Integer.parseInt(given.get(0));
  }

  /** Spoils the sound files of a folder. */
  void spoil(Path folder) throws IOException {
    Path file = folder;
    String find = "";
    for (Entry entry : entries) {
      String value = entry.value();
      switch (entry.key()) {
        case "file" -> file = folder.resolve(value);
        case "find" -> find = value;
        case "with" -> replace(file, find, value);
        case "before" -> prepend(file, HexFormat.ofDelimiter(" ").parseHex(value));
        case "as" -> turn(file, value);
        case "case", "run", "exit", "told", "absent" -> {
          // Not about files.
        }
        default -> throw new IllegalArgumentException(name + ": no key " + entry.key());
      }
    }
  }

  /** Bytes are taken for letters of ISO 8859-1, so that none is lost. */
  private void replace(Path file, String find, String with) throws IOException {
    String text = Files.readString(file, ISO_8859_1);
    boolean rest = find.endsWith(REST);
    String plain = rest ? find.substring(0, find.length() - REST.length()) : find;
    int at = text.indexOf(plain);
    assertThat(at).as(name + ": where to spoil: " + plain).isNotNegative();
    String bytes =
        BYTE.matcher(with).replaceAll(b -> String.valueOf((char) Integer.parseInt(b.group(1), 16)));
    String after = rest ? "" : text.substring(at + plain.length());
    Files.writeString(file, text.substring(0, at) + bytes + after, ISO_8859_1);
  }

  private static void prepend(Path file, byte... bytes) throws IOException {
    String text = Files.readString(file, ISO_8859_1);
    Files.writeString(file, new String(bytes, ISO_8859_1) + text, ISO_8859_1);
  }

  private void turn(Path file, String into) throws IOException {
    String text = Files.readString(file, UTF_8);
    Files.delete(file);
    switch (into) {
      case "nothing" -> assertThat(file).doesNotExist();
      case "empty" -> Files.createFile(file);
      case "folder" -> Files.createDirectory(file);
      case "UTF-16" -> Files.write(file, text.getBytes(java.nio.charset.StandardCharsets.UTF_16LE));
      case "CRLF" -> Files.writeString(file, text.replace("\n", "\r\n"), UTF_8);
      case "LF" -> Files.writeString(file, text.replace("\r\n", "\n"), UTF_8);
      case "semicolons" -> Files.writeString(file, text.replace(',', ';').replace('.', ','), UTF_8);
      case "50 MB" -> {
        try (RandomAccessFile large = new RandomAccessFile(file.toFile(), "rw")) {
          large.write(text.getBytes(UTF_8));
          large.setLength(50_000_001);
        }
      }
      default -> throw new IllegalArgumentException(name + ": cannot turn a file into " + into);
    }
  }

  @Override
  public String toString() {
    return name;
  }
}

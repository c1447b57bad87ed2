package org.jointwalk.protocol;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * Writes the vectors of the fixture protocol anew. After {@code mvn package}, from the root:
 *
 * <pre>{@code
 * java -cp 'host/target/test-classes:host/target/jointwalk/lib/*' \
 *     org.jointwalk.protocol.WriteVectors firmware-protocol/vectors
 * }</pre>
 */
public final class WriteVectors {

  private WriteVectors() {}

  /**
   * Writes every file into a folder that exists.
   *
   * @param args the folder
   */
  public static void main(String[] args) throws IOException {
    if (args.length != 1) {
      throw new IllegalArgumentException("say which folder to write to, and nothing else");
    }
    for (Map.Entry<String, String> file : files().entrySet()) {
      Files.writeString(Path.of(args[0], file.getKey()), file.getValue(), StandardCharsets.UTF_8);
    }
  }

  /** Name and text of every file. */
  static Map<String, String> files() {
    Map<String, String> files = new LinkedHashMap<>();
    files.put("crc.json", crc());
    files.put("cobs.json", cobs());
    files.put("frames.json", frames());
    files.put("messages.json", messages());
    files.put("refused.json", refused());
    files.put("rules.json", VectorText.file("What a fixture computes.", Rules.all()));
    files.put("programs.json", programs());
    files.put("steps.json", steps());
    return files;
  }

  private static String crc() {
    List<Map<String, Object>> vectors = new ArrayList<>();
    for (Framing.Check check : Framing.checks()) {
      Map<String, Object> vector = vector(check.name(), List.of("M6"), check.source());
      vector.put("data", check.data().toString());
      vector.put("crc", check.crc());
      vectors.add(vector);
    }
    return VectorText.file("Data and its CRC-32C, section 4.2.", vectors);
  }

  private static String cobs() {
    List<Map<String, Object>> vectors = new ArrayList<>();
    for (Framing.Encoding encoding : Framing.encodings()) {
      Map<String, Object> vector = vector(encoding.name(), encoding.clauses(), encoding.source());
      vector.put("verdict", "accept");
      vector.put("data", encoding.data().toString());
      vector.put("encoded", encoding.encoded().toString());
      vector.put("also", encoding.also().stream().map(Bytes::toString).toList());
      vectors.add(vector);
    }
    for (Framing.NoEncoding none : Framing.noEncodings()) {
      Map<String, Object> vector = vector(none.name(), List.of("M9"), none.source());
      vector.put("verdict", "reject");
      vector.put("encoded", none.encoded().toString());
      vectors.add(vector);
    }
    return VectorText.file(
        "Data and its COBS encodings without delimiter, section 4.3; at most 508 bytes of data.",
        vectors);
  }

  private static String frames() {
    List<Map<String, Object>> vectors = new ArrayList<>();
    for (Framing.Stream stream : Framing.streams()) {
      Map<String, Object> vector = vector(stream.name(), stream.clauses(), "");
      vector.put("to", stream.end().name().toLowerCase(Locale.ROOT));
      vector.put("wire", stream.wire().toString());
      vector.put("expected", stream.expected().stream().map(WriteVectors::expected).toList());
      vectors.add(vector);
    }
    return VectorText.file(
        "Bytes on the line and what a receiver makes of them in order, sections 4 and 5.", vectors);
  }

  private static Map<String, Object> expected(Framing.Expected expected) {
    Map<String, Object> map = new LinkedHashMap<>();
    if (expected instanceof Framing.Expected.Accept accept) {
      map.put("verdict", "accept");
      map.put("raw", accept.raw().toString());
    } else if (expected instanceof Framing.Expected.Drop drop) {
      map.put("verdict", "drop");
      map.put("cause", drop.cause().name().toLowerCase(Locale.ROOT));
    }
    return map;
  }

  private static String messages() {
    List<Map<String, Object>> vectors = new ArrayList<>();
    for (Samples.Sample sample : Samples.all()) {
      Frame frame = sample.frame();
      Map<String, Object> vector = vector(sample.name(), sample.clauses(), "");
      vector.put("type", frame.message().type());
      vector.put("session", frame.session());
      vector.put("number", frame.number());
      vector.put("fields", VectorText.fields(frame.message()));
      vector.put("raw", frame.raw().toString());
      vector.put("wire", Bytes.of(frame.encode()).toString());
      vectors.add(vector);
    }
    return VectorText.file("Every message: its fields and its bytes, sections 5 to 14.", vectors);
  }

  private static String refused() {
    List<Map<String, Object>> vectors = new ArrayList<>();
    for (Broken.Vector broken : Broken.all()) {
      Map<String, Object> vector = vector(broken.name(), broken.clauses(), "");
      vector.put("type", broken.type());
      vector.put("code", broken.code().code());
      vector.put("raw", broken.raw().toString());
      vector.put("wire", Lines.wire(broken.raw()).toString());
      vectors.add(vector);
    }
    return VectorText.file(
        "Frames with a good check whose content is wrong, and the code of 16.1 for it.", vectors);
  }

  private static String programs() {
    Map<String, Object> shared = new LinkedHashMap<>();
    shared.put("welcome", VectorText.fields(Programs.LIMITS));
    shared.put("run", VectorText.fields(Programs.RUN));
    return VectorText.file(
        "Streamed messages in their order, and the fault of 16.5 that the last of them is, or 0.",
        shared,
        Programs.all());
  }

  private static String steps() {
    Map<String, Object> shared = new LinkedHashMap<>();
    shared.put("channels", Refusals.CHANNELS);
    shared.put("items", Refusals.fixtures());
    shared.put("board", declaration(Refusals.ON_BOARD));
    shared.put("bare", declaration(Refusals.BARE));
    return VectorText.file(
        "Single steps, and the reason of 16.2 for which they are refused, or 0.",
        shared,
        Refusals.all());
  }

  private static List<Map<String, Object>> declaration(Declaration declaration) {
    List<Map<String, Object>> requests = new ArrayList<>();
    for (Request request : declaration.requests()) {
      Map<String, Object> line = new LinkedHashMap<>();
      line.put("type", request.type());
      line.put("payload", request.payload().toString());
      requests.add(line);
    }
    return requests;
  }

  private static Map<String, Object> vector(String name, List<String> clauses, String source) {
    Map<String, Object> vector = new LinkedHashMap<>();
    vector.put("name", name);
    vector.put("clauses", clauses);
    if (!source.isEmpty()) {
      vector.put("source", source);
    }
    return vector;
  }
}

package org.jointwalk.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;

/** The text of a file, read once from front to back. Stateless. */
final class FileText {

  /** Larger files are refused before they fill the memory; a map of 420 positions has 0.1 MB. */
  static final int MOST_BYTES = 50_000_000;

  private static final String ENCODING = "a text in UTF-8 without byte order mark";

  private FileText() {}

  /** The text, empty when there is none; the faults then say why. */
  static Optional<String> read(Path path, Faults faults) {
    if (!Files.exists(path)) {
      return fault(
          faults,
          "there is no such file",
          "an existing file",
          "Check the name and the folder; it was looked for at " + path.toAbsolutePath());
    }
    if (Files.isDirectory(path)) {
      return fault(faults, "this is a folder", "a file", "Name the file inside the folder");
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(path)) {
      bytes = in.readNBytes(MOST_BYTES + 1);
    } catch (IOException e) {
      return fault(
          faults,
          "the file cannot be read (" + e.getClass().getSimpleName() + ")",
          "a file that you may read",
          "Check its permissions and whether the disk or the share is still there");
    }
    if (bytes.length > MOST_BYTES) {
      return fault(
          faults,
          "the file is larger than " + MOST_BYTES / 1_000_000 + " MB",
          "at most " + MOST_BYTES + " bytes",
          "Check that this is the file that you meant");
    }
    return decode(bytes, faults);
  }

  private static Optional<String> decode(byte[] bytes, Faults faults) {
    if (startsWith(bytes, 0xFE, 0xFF) || startsWith(bytes, 0xFF, 0xFE) || hasZero(bytes)) {
      return fault(
          faults,
          "this is not UTF-8: it looks like UTF-16 or no text at all",
          ENCODING,
          "Save it again as UTF-8");
    }
    int offset = offsetOfFault(bytes);
    if (offset >= 0) {
      faults.error(
          new Fault(
              new Place(faults.file(), "", lineOf(bytes, offset), 0),
              "byte " + offset + " of the file, counted from 0, is not UTF-8",
              String.format(Locale.ROOT, "0x%02X", bytes[offset]),
              ENCODING,
              "Save it again as UTF-8; it was probably saved in an older Windows encoding"));
      return Optional.empty();
    }
    return Optional.of(new String(bytes, StandardCharsets.UTF_8));
  }

  /** Where the first byte stands that is not UTF-8, -1 when all are. */
  private static int offsetOfFault(byte[] bytes) {
    CharsetDecoder decoder =
        StandardCharsets.UTF_8
            .newDecoder()
            .onMalformedInput(CodingErrorAction.REPORT)
            .onUnmappableCharacter(CodingErrorAction.REPORT);
    ByteBuffer in = ByteBuffer.wrap(bytes);
    CharBuffer out = CharBuffer.allocate(8192);
    CoderResult result;
    do {
      out.clear();
      result = decoder.decode(in, out, true);
    } while (result.isOverflow());
    return result.isError() ? in.position() : -1;
  }

  private static int lineOf(byte[] bytes, int offset) {
    int line = 1;
    for (int i = 0; i < offset; i++) {
      line += bytes[i] == '\n' ? 1 : 0;
    }
    return line;
  }

  private static boolean startsWith(byte[] bytes, int first, int second) {
    return bytes.length >= 2 && (bytes[0] & 0xFF) == first && (bytes[1] & 0xFF) == second;
  }

  private static boolean hasZero(byte[] bytes) {
    for (int i = 0; i < Math.min(bytes.length, 64); i++) {
      if (bytes[i] == 0) {
        return true;
      }
    }
    return false;
  }

  private static Optional<String> fault(Faults faults, String reason, String allowed, String hint) {
    faults.error(new Fault(Place.whole(faults.file()), reason, "", allowed, hint));
    return Optional.empty();
  }
}

package org.jointwalk.joblog;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/**
 * A text that is kept under the hash of its bytes.
 *
 * @param hash SHA-256 of the text in UTF-8, in lower-case hexadecimal
 * @param kind what the text is
 * @param text all of it
 */
record Content(String hash, String kind, String text) {

  static Content of(String kind, String text) {
    return new Content(sha256(text), kind, text);
  }

  private static String sha256(String text) {
    try {
      byte[] digest =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}

package org.jointwalk.simulator;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;

/** SHA-256 over texts, each ended by a line feed. Stateless. */
final class Fingerprint {

  private Fingerprint() {}

  static String of(List<String> texts) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      for (String text : texts) {
        digest.update(text.getBytes(StandardCharsets.UTF_8));
        digest.update((byte) '\n');
      }
      return HexFormat.of().formatHex(digest.digest());
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}

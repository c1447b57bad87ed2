package org.jointwalk.files;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4) over texts in UTF-8. Not thread-safe. */
public final class Sha256 {

  private final MessageDigest digest;

  /** Of no text yet. */
  public Sha256() {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** The hash of one text: 64 hexadecimal digits in lower case. */
  public static String of(String text) {
    return new Sha256().add(text).hex();
  }

  /** Goes on with a text. */
  public Sha256 add(String text) {
    digest.update(text.getBytes(UTF_8));
    return this;
  }

  /** The hash of all that was added: 64 hexadecimal digits in lower case. Begins anew. */
  public String hex() {
    return HexFormat.of().formatHex(digest.digest());
  }
}

package org.jointwalk.joblog;

import org.jointwalk.files.Sha256;

/**
 * A text that is kept under the hash of its bytes.
 *
 * @param hash SHA-256 of the text in UTF-8, in lower-case hexadecimal
 * @param kind what the text is
 * @param text all of it
 */
record Content(String hash, String kind, String text) {

  static Content of(String kind, String text) {
    return new Content(Sha256.of(text), kind, text);
  }
}

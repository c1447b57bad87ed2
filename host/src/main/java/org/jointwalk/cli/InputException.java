package org.jointwalk.cli;

/** What the user gave cannot be used; the message says why and what to give instead. */
final class InputException extends Exception {

  private static final long serialVersionUID = 1L;

  /**
   * @param message in bench words
   */
  InputException(String message) {
    super(message);
  }
}

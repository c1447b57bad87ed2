package org.jointwalk.program;

/** A program that does nothing: what Java itself needs to start. */
final class Nothing {

  private Nothing() {}

  public static void main(String[] args) {
    // Starting and ending is all.
  }
}

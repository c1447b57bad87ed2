package org.jointwalk.cli;

import org.jointwalk.stack.Side;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options that say which pad is meant. */
final class OnPosition {

  @Mixin private OnSide on = new OnSide();

  @Option(
      names = "--position",
      paramLabel = "PAD",
      required = true,
      description = "Which pad, as the pad map numbers it: N014.")
  private String position = "";

  Side side() {
    return on.side();
  }

  String position() throws InputException {
    return checked(position);
  }

  /** A pad's id as the log keeps it. */
  static String checked(String typed) throws InputException {
    String id = typed.strip();
    if (id.isEmpty() || id.chars().anyMatch(Character::isWhitespace)) {
      throw new InputException(
          "\"" + typed + "\" is no pad. Give one as the pad map numbers it, such as N014.");
    }
    return id;
  }
}

package org.jointwalk.cli;

import picocli.CommandLine.Option;

/** The option that says who did or saw it. */
final class ByWhom {

  @Option(names = "--by", paramLabel = "INITIALS", description = "Who did or saw it.")
  private String initials = "";

  String initials() {
    return initials.strip();
  }
}

package org.jointwalk.cli;

import picocli.CommandLine.Option;

/** The option that says which job is meant. */
final class OnJob {

  @Option(
      names = "--job",
      paramLabel = "ID",
      required = true,
      description = "Which job: J-0001, or 1 for short.")
  private String id = "";

  String id() {
    return id;
  }
}

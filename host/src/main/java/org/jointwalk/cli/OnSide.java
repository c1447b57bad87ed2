package org.jointwalk.cli;

import org.jointwalk.stack.Side;
import picocli.CommandLine.Option;

/** The option that says which side of the stack is meant. */
final class OnSide {

  @Option(
      names = "--side",
      paramLabel = "SIDE",
      required = true,
      converter = Choice.OfSide.class,
      completionCandidates = Choice.OfSide.class,
      description = "Which board, or the row of joints on it: ${COMPLETION-CANDIDATES}.")
  private Side side = Side.UPPER;

  Side side() {
    return side;
  }
}

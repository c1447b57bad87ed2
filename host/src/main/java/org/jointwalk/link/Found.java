package org.jointwalk.link;

import org.jointwalk.fixture.Capabilities;

/** What is at a port. */
public sealed interface Found {

  /** The port as its user calls it. */
  String port();

  /**
   * A fixture that can be used.
   *
   * @param port where
   * @param version of the protocol that it speaks
   * @param capabilities what it says of itself; its texts may hold anything
   * @param channels how many it has
   * @param lid closed, open or none
   */
  record Ready(String port, int version, Capabilities capabilities, int channels, Lid lid)
      implements Found {}

  /**
   * Nothing that can be used.
   *
   * @param port where
   * @param why in a word
   * @param text in sentences, with what to do
   */
  record Unusable(String port, Why why, String text) implements Found {}

  /** A lid, as the fixture sees it. */
  enum Lid {
    CLOSED,
    OPEN,
    NONE
  }

  /** Why a port cannot be used. */
  enum Why {
    MISSING,
    NO_PERMISSION,
    BUSY,
    SILENT,
    GARBAGE,
    OTHER_VERSION,
    LINE_FAILED,
    BROKEN
  }
}

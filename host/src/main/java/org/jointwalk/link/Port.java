package org.jointwalk.link;

/** A place where a fixture may be. */
public interface Port {

  /** As its user calls it. */
  String name();

  /**
   * Opens a line to it, anew each time: after a loss the same name may lead to another device.
   *
   * @throws LinkException when it cannot be opened
   */
  ByteLink open() throws LinkException;
}

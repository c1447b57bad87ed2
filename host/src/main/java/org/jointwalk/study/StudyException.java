package org.jointwalk.study;

/** A study could not be brought to its end for a reason that is not the fixture's. */
public final class StudyException extends Exception {

  private static final long serialVersionUID = 1L;

  /**
   * @param reason what happened and what to do
   */
  public StudyException(String reason) {
    super(reason);
  }
}

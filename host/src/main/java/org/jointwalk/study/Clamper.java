package org.jointwalk.study;

/** Has the parts clamped anew by one person after the other. One thread. */
public interface Clamper {

  /**
   * Asks somebody to take the parts out, put them back and close the lid.
   *
   * @param by initials of who is to do it
   * @param number of the clamping in the study, from 1
   * @param of how many there are
   * @return false when nobody will, so that the study ends
   */
  boolean clamp(String by, int number, int of);
}

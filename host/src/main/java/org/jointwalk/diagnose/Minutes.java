package org.jointwalk.diagnose;

/** About how long each piece of work takes; common practice, no source. */
final class Minutes {

  static final int RESEAT = 1;
  static final int MEASURE = 3;
  static final int TRY = 5;
  static final int TOUCH_UP = 10;
  static final int WASH = 15;
  static final int LIFT = 15;
  static final int SPLIT = 20;
  static final int CLOSE = 25;
  static final int REBUILD_PAD = 30;
  static final int HUNT = 30;
  static final int REBALL = 40;

  private Minutes() {}
}

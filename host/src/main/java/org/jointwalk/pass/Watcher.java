package org.jointwalk.pass;

import java.util.List;
import org.jointwalk.job.WatchEvent;

/**
 * The person who presses the board, as far as a watch needs one. Called on the thread of the watch,
 * but for {@link #stop}.
 */
public interface Watcher {

  /** Looking begins. */
  void looking(WatchEvent.Looking looking);

  /** Something changed. */
  void changed(WatchEvent.Edge edge);

  /** How far the watch is. */
  void progress(double seconds, long looks);

  /** What was noted since the last call; empty as a rule. */
  List<String> notes();

  /**
   * The lid has opened, and the fixture with it all its switches.
   *
   * @return whether it is closed again; false when nobody closes it, so that the watch ends
   */
  boolean lidOpened();

  /** Something worth saying that does not stop the watch. */
  void remark(String text);

  /** Nobody is waited for any more. Any thread, any number of times. */
  void stop();
}

package org.jointwalk.job;

import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Scan;

/**
 * One entry of a job that a watch made: joints were looked at over and over while somebody pressed
 * the board. The looks themselves are not kept, only what changed; all times are seconds of the
 * fixture's clock since the watch began.
 */
public sealed interface WatchEvent extends Event {

  /** Number of the watch in its job, from 1. */
  int watch();

  /**
   * A watch began.
   *
   * @param padMap content hash of the pad map's text
   * @param fixtureMap content hash of the fixture map's text
   */
  record Begun(
      int watch,
      String setUp,
      String variant,
      String padMap,
      String fixtureMap,
      Capabilities capabilities,
      String by)
      implements WatchEvent {}

  /** The parts were clamped, or clamped again. */
  record Seated(int watch, Seating seating) implements WatchEvent {}

  /** A scan that has to show that it is safe to go on was planned. */
  record Planned(int watch, int seating, int scan, Scan plan) implements WatchEvent {}

  /** A batch of readings of such a scan became durable. */
  record Kept(int watch, int scan, Batch batch) implements WatchEvent {}

  /**
   * Looking begins, in a new seating with new levels.
   *
   * @param looks what is looked at, in this order again and again
   * @param aboveOhms a joint has dropped out when it reads so much more than it did
   * @param unseen positions that were asked for and cannot be seen in this set-up
   */
  record Looking(
      int watch, double atSeconds, List<Look> looks, double aboveOhms, List<String> unseen)
      implements WatchEvent {

    public Looking {
      looks = List.copyOf(looks);
      unseen = List.copyOf(unseen);
    }
  }

  /**
   * How one position is looked at.
   *
   * @param against name of the contact at the other end
   */
  record Look(String position, String against) {}

  /**
   * What changed since the last such entry, and how far the watch is.
   *
   * @param looks taken so far
   */
  record Changed(int watch, double atSeconds, long looks, List<Edge> edges) implements WatchEvent {

    public Changed {
      edges = List.copyOf(edges);
    }
  }

  /**
   * A joint dropped out or came back.
   *
   * @param out whether it dropped out
   * @param atSeconds of the first look that saw it out; for one that came back, of the end of the
   *     last look that saw it out
   */
  record Edge(String position, boolean out, double atSeconds) {}

  /** Somebody noted what is being done. */
  record Noted(int watch, double atSeconds, String text) implements WatchEvent {}

  /**
   * The watch ended.
   *
   * @param watched what was seen, as shown
   * @param program version that watched
   */
  record Ended(int watch, Watched watched, String program) implements WatchEvent {}
}

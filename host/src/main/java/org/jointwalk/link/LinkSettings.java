package org.jointwalk.link;

import java.time.Duration;

/**
 * How long the host waits for what, and how often it tries. {@link #DEFAULTS} are the times of
 * section 15 of the specification where it gives them.
 *
 * @param baud of a serial line; USB and pseudo-terminals do not care
 * @param opening of a TCP line: a fixture stands on the same bench
 * @param write until a line counts as stuck: a thousand bytes take 87 ms at 115,200 baud, and the
 *     fixture opens its switches after a second without us
 * @param hello between two HELLOs: a board that resets when its port is opened needs up to 2 s
 * @param hellos how many, the first included
 * @param request between two tries of another request
 * @param requests how many, the first included
 * @param keepAlive longest silence of the host in a run
 * @param progress after which unheard parts of the program are sent again
 * @param progresses how often in a row
 * @param turn longest wait for bytes before other duties are looked at; also how late a stop can be
 * @param reconnect how long a lost line is waited for: long enough to put a cable back
 * @param retry between two tries to open a lost line
 * @param stop how long a stop by the user may take before the fixture is left to stop by itself
 * @param busy how long a run of another program is waited for: one that was killed has stopped by
 *     itself after 1.2 s
 * @param restarts of a run in a row that bring no reading to be kept
 * @param ahead steps that may be taken before the first reading is kept; more than the 64 between
 *     two bus checks, since what no check has covered is not kept
 */
public record LinkSettings(
    int baud,
    Duration opening,
    Duration write,
    Duration hello,
    int hellos,
    Duration request,
    int requests,
    Duration keepAlive,
    Duration progress,
    int progresses,
    Duration turn,
    Duration reconnect,
    Duration retry,
    Duration stop,
    Duration busy,
    int restarts,
    int ahead) {

  /** For a bench. */
  public static final LinkSettings DEFAULTS =
      new LinkSettings(
          115_200,
          Duration.ofSeconds(2),
          Duration.ofMillis(700),
          Duration.ofMillis(300),
          7,
          Duration.ofMillis(500),
          3,
          Duration.ofMillis(250),
          Duration.ofMillis(200),
          3,
          Duration.ofMillis(20),
          Duration.ofSeconds(20),
          Duration.ofMillis(250),
          Duration.ofMillis(800),
          Duration.ofMillis(1500),
          5,
          512);

  /** Two bus checks apart: with less, a run could wait for credit and never get it. */
  private static final int LEAST_AHEAD = 128;

  public LinkSettings {
    if (ahead < LEAST_AHEAD || hellos < 1 || requests < 1 || progresses < 1 || restarts < 1) {
      throw new IllegalArgumentException(
          "at least one try of each kind, and at least " + LEAST_AHEAD + " steps ahead");
    }
  }

  /** The same with another time for a lost line to come back. */
  public LinkSettings withReconnect(Duration within) {
    return with(baud, within, ahead);
  }

  /** The same at another rate. */
  public LinkSettings withBaud(int rate) {
    return with(rate, reconnect, ahead);
  }

  /** The same with another number of steps ahead of the first reading that is kept. */
  public LinkSettings withAhead(int steps) {
    return with(baud, reconnect, steps);
  }

  private LinkSettings with(int rate, Duration within, int steps) {
    return new LinkSettings(
        rate,
        opening,
        write,
        hello,
        hellos,
        request,
        requests,
        keepAlive,
        progress,
        progresses,
        turn,
        within,
        retry,
        stop,
        busy,
        restarts,
        steps);
  }
}

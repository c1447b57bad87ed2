package org.jointwalk.campaign;

import java.util.Locale;

/** How much work a campaign does. */
enum Scale {
  /** A few stacks, for a test that runs with every build. */
  SMALL,
  /** Within a minute on two cores. */
  QUICK,
  /** Within a quarter of an hour on two cores. */
  FULL;

  /** As a command line writes it. */
  String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}

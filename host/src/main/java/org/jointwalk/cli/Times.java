package org.jointwalk.cli;

import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jointwalk.job.Logged;

/** When something happened, by the clock on the wall of the bench where it did. Stateless. */
final class Times {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("uuuu-MM-dd", Locale.ROOT);
  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm", Locale.ROOT);

  private Times() {}

  static String day(Logged entry) {
    return DAY.format(entry.at().atZone(entry.zone()));
  }

  static String minute(Logged entry) {
    return minute(entry.at(), entry.zone());
  }

  static String minute(Instant at, ZoneId zone) {
    return MINUTE.format(at.atZone(zone));
  }
}

package org.jointwalk.joblog;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.Locale;

/** Times as the log has them: UTC, to the millisecond, so that they sort as text. */
final class Moment {

  private static final DateTimeFormatter FORM =
      DateTimeFormatter.ofPattern("uuuu-MM-dd'T'HH:mm:ss.SSS'Z'", Locale.ROOT)
          .withZone(ZoneOffset.UTC);

  private Moment() {}

  static Instant now(InstantSource clock) {
    return clock.instant().truncatedTo(ChronoUnit.MILLIS);
  }

  static String write(Instant instant) {
    return FORM.format(instant);
  }

  static Instant read(String text) {
    return Instant.parse(text);
  }
}

package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.Logged;
import org.junit.jupiter.api.Test;

class RecordHashTest {

  private static final Instant NOON = Instant.parse("2026-03-02T12:00:00Z");

  private static Logged note(long seq, Instant at, ZoneId zone, String text) {
    return new Logged(seq, at, zone, new Event.Noted(text, "KM"));
  }

  private static String hash(Logged... entries) {
    return RecordHash.of(List.of(entries), hash -> Optional.empty());
  }

  @Test
  void nothingHasTheHashOfNoBytes() {
    // FIPS 180-4: SHA-256 of the empty message.
    assertThat(hash())
        .isEqualTo("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  }

  @Test
  void theSameRecordHasTheSameHashAndAnyChangeShows() {
    Logged entry = note(1, NOON, ZoneOffset.UTC, "ball low");
    assertThat(hash(entry)).isEqualTo(hash(note(1, NOON, ZoneOffset.UTC, "ball low")));
    assertThat(hash(entry))
        .isNotEqualTo(hash(note(2, NOON, ZoneOffset.UTC, "ball low")))
        .isNotEqualTo(hash(note(1, NOON.plusMillis(1), ZoneOffset.UTC, "ball low")))
        .isNotEqualTo(hash(note(1, NOON, ZoneId.of("Europe/Berlin"), "ball low")))
        .isNotEqualTo(hash(note(1, NOON, ZoneOffset.UTC, "ball lov")))
        .isNotEqualTo(hash(entry, note(2, NOON, ZoneOffset.UTC, "")))
        .isNotEqualTo(hash());
  }

  @Test
  void entriesCannotBeMovedIntoOneAnother() {
    assertThat(hash(note(1, NOON, ZoneOffset.UTC, "a\n2\tb")))
        .isNotEqualTo(hash(note(1, NOON, ZoneOffset.UTC, "a"), note(2, NOON, ZoneOffset.UTC, "b")));
  }
}

package org.jointwalk.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class HouseTest {

  @ParameterizedTest
  @CsvSource({
    "QUANTITY,   ''",
    "JOB,        QUANTITY STACK FIXTURE",
    "SOLVE,      QUANTITY STACK FIXTURE JOB",
    "DIAGNOSE,   QUANTITY STACK FIXTURE JOB SOLVE LANDING GRADE PLAN",
    "PASS,       QUANTITY STACK FIXTURE JOB SOLVE LANDING GRADE PLAN DIAGNOSE",
    "DRAWING,    QUANTITY STACK FIXTURE JOB",
    "LINK,       QUANTITY STACK FIXTURE JOB PROTOCOL FILES_ROOM DRAWING",
    "SIMULATOR,  QUANTITY STACK FIXTURE JOB PROTOCOL FILES_ROOM DRAWING",
    "BENCH,      QUANTITY STACK FIXTURE JOB SOLVE LANDING GRADE PLAN DIAGNOSE PASS STUDY UPKEEP"
        + " PROTOCOL FILES_ROOM DRAWING",
  })
  void roomUsesExactlyThese(House room, String others) {
    Set<House> expected =
        Arrays.stream(others.split(" ", -1))
            .filter(word -> !word.isEmpty())
            .map(House::valueOf)
            .collect(Collectors.toCollection(() -> EnumSet.of(room)));

    assertThat(House.values())
        .filteredOn(room::mayUse)
        .containsExactlyInAnyOrderElementsOf(expected);
  }

  @ParameterizedTest
  @EnumSource
  void rootJoinsEveryRoom(House room) {
    assertThat(House.CLI.mayUse(room)).isTrue();
  }

  @ParameterizedTest
  @EnumSource
  void noTwoRoomsUseEachOther(House room) {
    assertThat(House.values())
        .filteredOn(other -> other != room && other.mayUse(room) && room.mayUse(other))
        .isEmpty();
  }

  @Test
  void longestPrefixDecidesWhatIsTouched() {
    assertThat(Outside.of("java.nio.file.Path")).contains(Outside.FILES);
    assertThat(Outside.of("java.nio.ByteBuffer")).contains(Outside.PLAIN);
    assertThat(Outside.of("java.lang.RuntimeException")).contains(Outside.PLAIN);
    assertThat(Outside.of("java.lang.Runtime")).contains(Outside.PROCESSES);
    assertThat(Outside.of("java.util.concurrent.Future")).contains(Outside.THREADS);
    assertThat(Outside.of("com.example.Unheard")).isEmpty();
  }
}

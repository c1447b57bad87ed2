package org.jointwalk.architecture;

import static org.jointwalk.architecture.Outside.CSV;
import static org.jointwalk.architecture.Outside.DATABASE;
import static org.jointwalk.architecture.Outside.FILES;
import static org.jointwalk.architecture.Outside.JSON;
import static org.jointwalk.architecture.Outside.LOGGING;
import static org.jointwalk.architecture.Outside.MATHEMATICS;
import static org.jointwalk.architecture.Outside.NETWORK;
import static org.jointwalk.architecture.Outside.PAGES;
import static org.jointwalk.architecture.Outside.PLAIN;
import static org.jointwalk.architecture.Outside.PROCESSES;
import static org.jointwalk.architecture.Outside.SERIAL_PORT;
import static org.jointwalk.architecture.Outside.STREAMS;
import static org.jointwalk.architecture.Outside.THREADS;
import static org.jointwalk.architecture.Outside.XML;

import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/** The packages of the program, called rooms here, in their six rows from left to right. */
enum House {
  QUANTITY(Row.NOUNS),
  STACK(Row.NOUNS),
  FIXTURE(Row.NOUNS),
  JOB(Row.NOUNS),

  SOLVE(Row.THOUGHT, MATHEMATICS),
  LANDING(Row.THOUGHT, MATHEMATICS),
  GRADE(Row.THOUGHT, MATHEMATICS),
  PLAN(Row.THOUGHT, MATHEMATICS),
  DIAGNOSE(Row.THOUGHT, MATHEMATICS),

  PASS(Row.LOOP),
  STUDY(Row.LOOP, MATHEMATICS),
  UPKEEP(Row.LOOP),

  PROTOCOL(Row.FORMATS, STREAMS),
  FILES_ROOM(Row.FORMATS, STREAMS, FILES, JSON, CSV),
  DRAWING(Row.FORMATS, STREAMS, XML),

  LINK(Row.DOORS, STREAMS, FILES, NETWORK, THREADS, LOGGING, SERIAL_PORT),
  CONFORM(Row.DOORS, STREAMS),
  SIMULATOR(Row.DOORS, STREAMS, FILES, THREADS, LOGGING, MATHEMATICS),
  JOBLOG(Row.DOORS, STREAMS, FILES, DATABASE, THREADS, LOGGING, JSON),
  REPORT(Row.DOORS, STREAMS, FILES, LOGGING, JSON, PAGES),
  BENCH(Row.DOORS, STREAMS, FILES, NETWORK, THREADS, LOGGING, PROCESSES, JSON, PAGES),

  CLI(Row.ROOT, Outside.everything().toArray(Outside[]::new));

  /** The rows from top to bottom. */
  enum Row {
    NOUNS,
    THOUGHT,
    LOOP,
    FORMATS,
    DOORS,
    ROOT
  }

  /** Rooms that meet the real clock, the real device and the user's surroundings. */
  private static final Set<House> AT_THE_STREET = EnumSet.of(LINK, BENCH, CLI);

  private final Row row;
  private final Set<Outside> allowed;

  House(Row row, Outside... allowed) {
    this.row = row;
    this.allowed = Set.of(allowed);
  }

  /** The last word of the package name. */
  String word() {
    return this == FILES_ROOM ? "files" : name().toLowerCase(Locale.ROOT);
  }

  Row row() {
    return row;
  }

  boolean mayTouch(Outside kind) {
    return kind == PLAIN || allowed.contains(kind);
  }

  /** Whether this room may read clock, random numbers and locale by itself. */
  boolean isAtTheStreet() {
    return AT_THE_STREET.contains(this);
  }

  /** Whether code in this room may name a type of the other room. */
  boolean mayUse(House other) {
    if (this == other) {
      return true;
    }
    boolean above = other.row.compareTo(row) < 0;
    return switch (row) {
      case NOUNS, THOUGHT -> above || (other.row == row && other.compareTo(this) < 0);
      case LOOP, ROOT -> above;
      case FORMATS -> other.row == Row.NOUNS;
      case DOORS -> above && (this == BENCH || isNounOrFormat(other));
    };
  }

  private static boolean isNounOrFormat(House room) {
    return room.row == Row.NOUNS || room.row == Row.FORMATS;
  }

  static Optional<House> named(String word) {
    return List.of(values()).stream().filter(room -> room.word().equals(word)).findFirst();
  }
}

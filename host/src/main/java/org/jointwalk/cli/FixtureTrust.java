package org.jointwalk.cli;

import java.io.PrintWriter;
import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.stack.Contact;
import org.jointwalk.upkeep.Trust;

/**
 * What a pass is told of the fixture's zero and its last check, and what it does about it.
 *
 * @param trust as the fixture's stream has it
 */
record FixtureTrust(Trust trust) {

  static final FixtureTrust NOTHING =
      new FixtureTrust(new Trust(Optional.empty(), Set.of(), List.of(), List.of()));

  /** The variable that says after how many days a zero or a check is old. */
  static final String VARIABLE = "JOINTWALK_FRESH_DAYS";

  private static final int DAYS = 90;

  /**
   * Looks the fixture up in the log and says what has to be said.
   *
   * @throws FixtureException when a relay is known never to open, so that every answer would be
   *     wrong
   * @throws InputException when the variable is no number of days
   */
  static FixtureTrust of(Jobs jobs, FixtureMap map, Surroundings here, PrintWriter err)
      throws FixtureException, InputException {
    Trust trust =
        Trust.in(
            FixtureRecord.read(jobs.log(), map.capabilities().identity()),
            map.capabilities(),
            here.clock().instant(),
            Duration.ofDays(days(here)));
    trust.remarks().forEach(remark -> err.println("FIXTURE  " + remark));
    if (!trust.wrong().isEmpty()) {
      throw new FixtureException.Broken(
          "This fixture's answers would be wrong. "
              + trust.wrong().stream().map(FixtureCheck::words).collect(Collectors.joining("; "))
              + ". Repair it, then: jointwalk fixture check --plate. Nothing was read.");
    }
    return new FixtureTrust(trust);
  }

  private static int days(Surroundings here) throws InputException {
    String given = here.variable(VARIABLE).strip();
    if (given.isEmpty()) {
      return DAYS;
    }
    if (!given.matches("[0-9]{1,4}")) {
      throw new InputException(
          VARIABLE + " is \"" + given + "\"; it is a number of days from 0 to 9999.");
    }
    return Integer.parseInt(given);
  }

  /** The contacts that can be read. */
  Set<Contact> readable(FixtureMap map) {
    Set<Contact> contacts = new LinkedHashSet<>(map.contacts());
    contacts.removeAll(trust.blind());
    return contacts;
  }
}

package org.jointwalk.upkeep;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Selfcheck.What;
import org.jointwalk.fixture.Zero;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.FixtureRecord;
import org.jointwalk.job.Logged;
import org.jointwalk.stack.Contact;

/**
 * What a pass may rely on of a fixture.
 *
 * @param zero that it may take off; empty when there is none that holds
 * @param blind contacts that cannot be read, since a relay never closes
 * @param wrong faults that make every reading of a board wrong
 * @param remarks what has to be said, in bench words
 */
public record Trust(
    Optional<Zero> zero, Set<Contact> blind, List<Selfcheck.Fault> wrong, List<String> remarks) {

  private static final Set<What> BLIND =
      EnumSet.of(What.HIGH_STUCK_OPEN, What.LOW_STUCK_OPEN, What.SENSE_STUCK_OPEN, What.NO_PATH);
  private static final Set<What> WRONG =
      EnumSet.of(
          What.HIGH_STUCK_CLOSED,
          What.LOW_STUCK_CLOSED,
          What.BOTH_STUCK_CLOSED,
          What.SENSE_STUCK_CLOSED);

  public Trust {
    blind = Set.copyOf(blind);
    wrong = List.copyOf(wrong);
    remarks = List.copyOf(remarks);
  }

  /**
   * Judges a fixture by its record.
   *
   * @param able what it reports now
   * @param now the time
   * @param fresh how old a zero or a check may be
   */
  public static Trust in(FixtureRecord record, Capabilities able, Instant now, Duration fresh) {
    List<String> remarks = new ArrayList<>();
    Optional<Zero> zero =
        able.kelvin().readsPath() ? zero(record, able, now, fresh, remarks) : Optional.empty();
    Set<Contact> blind = new LinkedHashSet<>();
    List<Selfcheck.Fault> wrong = new ArrayList<>();
    Optional<Logged> checked =
        record.timeline().stream()
            .filter(l -> l.event() instanceof FixtureEvent.Checked)
            .reduce((first, last) -> last);
    if (checked.isEmpty()) {
      remarks.add("This fixture was never checked: jointwalk fixture check.");
    } else if (checked.get().event() instanceof FixtureEvent.Checked event) {
      Selfcheck check = event.check();
      long days = Duration.between(checked.get().at(), now).toDays();
      if (!check.isOf(able)) {
        remarks.add(
            "The last check was of another build or calibration of this fixture: check it again.");
      } else if (days > fresh.toDays()) {
        remarks.add("The last check is " + days + " days old: check the fixture again.");
      }
      for (Selfcheck.Fault fault : check.faults()) {
        if (check.isOf(able) && fault.contact().isPresent() && BLIND.contains(fault.what())) {
          blind.add(fault.contact().get());
        } else if (check.isOf(able) && WRONG.contains(fault.what())) {
          wrong.add(fault);
        }
      }
      if (!check.passed()) {
        remarks.add(
            "The last check found "
                + check.faults().size()
                + (check.faults().size() == 1 ? " fault." : " faults.")
                + (blind.isEmpty()
                    ? ""
                    : " Not read because of it: " + blind.size() + " contacts."));
      }
    }
    return new Trust(zero, blind, wrong, remarks);
  }

  private static Optional<Zero> zero(
      FixtureRecord record, Capabilities able, Instant now, Duration fresh, List<String> remarks) {
    String instead = " The typical switch is taken off instead, and readings are less sure.";
    Optional<Zero> last = record.lastZero().map(FixtureEvent.Zeroed::zero);
    if (last.isEmpty()) {
      remarks.add("This fixture was never zeroed: jointwalk fixture zero." + instead);
      return last;
    }
    long days = Duration.between(last.get().at(), now).toDays();
    if (!last.get().isOf(able)) {
      remarks.add("The zero is of another build or calibration: zero again." + instead);
    } else if (days > fresh.toDays()) {
      remarks.add("The zero is " + days + " days old: zero again." + instead);
    } else if (!last.get().consistent()) {
      remarks.add("The zero is in doubt: " + last.get().doubts().get(0) + instead);
    } else {
      return last;
    }
    return Optional.empty();
  }
}

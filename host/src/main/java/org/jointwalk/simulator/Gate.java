package org.jointwalk.simulator;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.files.Names;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/** What a fixture refuses before it closes a switch, as its firmware would. Immutable. */
final class Gate {

  private static final double ROUNDING = 1 + 1e-9;

  private final PadMap map;
  private final Interposer interposer;
  private final FixtureMap fixture;
  private final Set<Contact> wired;

  Gate(PadMap map, Interposer interposer, FixtureMap fixture) {
    this.map = map;
    this.interposer = interposer;
    this.fixture = fixture;
    wired = fixture.contacts();
  }

  /** Returns when every step may be taken. */
  void check(Scan scan) throws FixtureException.Refused {
    SetUp declared =
        SetUp.named(scan.setUp())
            .orElseThrow(
                () -> new FixtureException.Refused("the fixture knows no set-up " + scan.setUp()));
    Assembly assembly = new Assembly(map, interposer, declared);
    Ceilings ceilings = new Ceilings(assembly);
    for (int i = 0; i < scan.steps().size(); i++) {
      Optional<String> fault = fault(scan.steps().get(i), assembly, ceilings);
      if (fault.isPresent()) {
        throw new FixtureException.Refused("step " + (scan.first() + i) + ": " + fault.get());
      }
    }
  }

  private Optional<String> fault(Step step, Assembly assembly, Ceilings ceilings) {
    List<Contact> contacts = new ArrayList<>(step.high());
    contacts.addAll(step.low());
    for (Contact contact : contacts) {
      if (!wired.contains(contact)) {
        return Optional.of("no working channel is wired to " + Names.of(contact));
      }
    }
    if (step.kind() == Kind.ALL_OPEN) {
      return Optional.empty();
    }
    if (!step.isPair() && !fixture.capabilities().switching().groups()) {
      return Optional.of("this fixture joins one contact to each bus, not several");
    }
    if (!assembly.setUp().boards().isEmpty() || step.kind() == Kind.JUNCTION) {
      for (Contact contact : contacts) {
        if (!assembly.contacts().contains(contact)) {
          return Optional.of(Names.of(contact) + " touches nothing of " + assembly.setUp().title());
        }
      }
    }
    return tooMuch(step, contacts, ceilings);
  }

  private static Optional<String> tooMuch(Step step, List<Contact> contacts, Ceilings ceilings) {
    double most = ceilings.current(step.kind(), contacts).value();
    for (Amps amps : step.currents()) {
      if (Math.abs(amps.value()) > most * ROUNDING) {
        return Optional.of(amps.value() + " A is over its ceiling of " + most + " A");
      }
    }
    double volts = ceilings.volts(step.kind(), contacts).value();
    return step.compliance().value() > volts * ROUNDING
        ? Optional.of(step.compliance().value() + " V is over its ceiling of " + volts + " V")
        : Optional.empty();
  }
}

package org.jointwalk.conform;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.CapabilityItems;
import org.jointwalk.protocol.Item;

/**
 * Looks from the other end of its line whether a fixture keeps the clauses of the protocol. Nothing
 * may be clamped meanwhile. What is sourced stays below 1 V and at 1 mA; what would be more is
 * asked for only to be refused. Takes some 20 seconds. One thread.
 */
public final class Conformance {

  private static final long FIRST_ANSWER_MILLIS = 2_000;
  private static final long QUIET_MILLIS = 300;

  /** Twice as long as is allowed, so that a slow fixture is called slow and not silent. */
  private static final int FIRST_HELLOS = 14;

  private final Talk talk;

  /**
   * @param wire just opened, with nothing said on it yet
   * @param second another line to the same fixture, where it has one
   * @param operator is told when to open and close the lid; empty when nobody stands there
   * @param random that no other program shares
   */
  public Conformance(
      Wire wire,
      Optional<Wire> second,
      Optional<Consumer<String>> operator,
      RandomGenerator random) {
    talk = new Talk(wire, second, operator, random);
  }

  /**
   * The clauses that bind a fixture, in their order, before anything was looked at: those that can
   * be are called passed, and the others say why they cannot.
   */
  public static List<Outcome> clauses() {
    return checks()
        .map(
            check ->
                new Outcome(
                    check.clause(),
                    check.title(),
                    check.hidden().isEmpty() ? Outcome.Result.PASSED : Outcome.Result.NOT_TESTABLE,
                    check.hidden()))
        .sorted(Comparator.comparingInt(Outcome::number))
        .toList();
  }

  private static Stream<Check> checks() {
    return Stream.of(
            List.of(new Check("M88", "the first request is answered in 2 s", Conformance::first)),
            FramingChecks.all(),
            SessionChecks.all(),
            RequestChecks.all(),
            DeclareChecks.all(),
            StepChecks.all(),
            CeilingChecks.all(),
            RunChecks.all(),
            ResultChecks.all(),
            SafetyChecks.all())
        .flatMap(List::stream);
  }

  /**
   * Looks at every clause.
   *
   * @return one outcome a clause, in the order of their numbers
   * @throws IOException when the line fails, which says nothing about the fixture
   */
  public List<Outcome> look() throws IOException {
    List<Outcome> outcomes = new ArrayList<>();
    for (Check check : checks().toList()) {
      boolean mute = !outcomes.isEmpty() && talk.able().capabilities().isEmpty();
      outcomes.add(mute ? skipped(check) : look(check));
    }
    Map<String, String> breaches = talk.tap().breaches();
    return outcomes.stream()
        .map(
            outcome ->
                breaches.containsKey(outcome.clause())
                    ? failed(outcome, breaches.get(outcome.clause()))
                    : outcome)
        .sorted(Comparator.comparingInt(Outcome::number))
        .toList();
  }

  private static Outcome skipped(Check check) {
    return new Outcome(
        check.clause(),
        check.title(),
        Outcome.Result.NOT_TESTABLE,
        "the fixture did not say what it can do");
  }

  private static Outcome failed(Outcome outcome, String seen) {
    return new Outcome(outcome.clause(), outcome.title(), Outcome.Result.FAILED, seen);
  }

  private Outcome look(Check check) throws IOException {
    Outcome.Result result;
    String detail;
    try {
      detail = check.body().look(talk);
      result = Outcome.Result.PASSED;
    } catch (Breach e) {
      detail = String.valueOf(e.getMessage());
      result = Outcome.Result.FAILED;
    } catch (Untestable e) {
      detail = String.valueOf(e.getMessage());
      result = Outcome.Result.NOT_TESTABLE;
    }
    return new Outcome(check.clause(), check.title(), result, detail);
  }

  /** The first words on a line: silence, HELLO, capabilities, on which all other checks build. */
  private static String first(Talk talk) throws Breach, IOException {
    int unasked = talk.unasked(QUIET_MILLIS);
    if (unasked > 0) {
      talk.tap().note("M19", unasked + " bytes came before anything was asked");
    }
    long began = talk.nanos();
    talk.open(FIRST_HELLOS);
    long took = (talk.nanos() - began) / 1_000_000;
    List<Item> items = RequestChecks.items(talk);
    try {
      talk.able(Able.of(CapabilityItems.read(items), talk.welcome().channels(), items));
    } catch (BreachException e) {
      throw new Breach("the capabilities cannot be read: " + e.getMessage());
    }
    Check.require(
        took <= FIRST_ANSWER_MILLIS, "the first HELLO was answered after " + took + " ms");
    return "after " + took + " ms; power was not switched";
  }
}

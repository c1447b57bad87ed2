package org.jointwalk.link;

import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.CapabilityItems;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;

/**
 * A fixture that has said who it is.
 *
 * @param session open
 * @param welcome its limits
 * @param capabilities what it can do
 */
record Opened(Session session, Answer.Welcome welcome, Capabilities capabilities) {

  /**
   * How fixtures are reached.
   *
   * @param port where
   * @param random that no other run of this program shares
   * @param leaving whether the user wants no more answers
   */
  record Way(
      Port port,
      RandomGenerator random,
      Ticks ticks,
      LinkSettings settings,
      BooleanSupplier leaving) {

    /** A session on the port, which is opened for it; HELLO is still to be said. */
    Session session(long replaces) throws LinkException {
      long nonce = (random.nextLong() & 0xFFFF_0000L) | random.nextInt(1, 0x1_0000);
      return new Session(
          port.open(),
          ticks,
          settings,
          Session.hello(nonce, replaces),
          random.nextInt(0, 0x1_0000),
          leaving);
    }
  }

  /**
   * Opens a port and asks who is there.
   *
   * @param replaces nonce of this program's own session that was lost, 0 for none
   * @throws LinkException when the line fails
   * @throws FixtureException when what answers will not or cannot speak to this program
   */
  static Opened open(Way way, long replaces) throws LinkException, FixtureException {
    Session session = way.session(replaces);
    String port = way.port().name();
    boolean welcomed = false;
    try {
      Session.Greeting greeting = greet(session, way);
      if (!(greeting.answer().orElse(null) instanceof Answer.Welcome welcome)) {
        throw new FixtureException.Unreachable(Words.greeting(port, greeting, way.settings()));
      }
      Opened opened = new Opened(session, welcome, capabilities(session, welcome));
      welcomed = true;
      return opened;
    } catch (BreachException e) {
      throw new FixtureException.Broken(broken(port, e));
    } finally {
      if (!welcomed) {
        session.close();
      }
    }
  }

  private static Session.Greeting greet(Session session, Way way)
      throws LinkException, BreachException {
    Session.Greeting greeting = session.greet();
    // A program that was killed a moment ago is busy until the fixture has missed it. One that is
    // alive speaks meanwhile, so that its last word is not getting older.
    long first = way.ticks().nanos();
    long until = first + way.settings().busy().toNanos();
    long silence = silence(greeting);
    boolean alive = false;
    while (isBusy(greeting)
        && !alive
        && way.ticks().nanos() - until < 0
        && !way.leaving().getAsBoolean()) {
      way.ticks().pass(way.settings().retry());
      greeting = session.greet();
      long passed = (way.ticks().nanos() - first) / 1_000_000;
      alive = isBusy(greeting) && silence(greeting) < silence + passed / 2;
    }
    return greeting;
  }

  /** Milliseconds since another program spoke. */
  private static long silence(Session.Greeting greeting) {
    return greeting.answer().orElse(null) instanceof Answer.Refused refused ? refused.detail() : 0;
  }

  /** Whether a run of another program is under way. */
  static boolean isBusy(Session.Greeting greeting) {
    return greeting.answer().orElse(null) instanceof Answer.Refused refused
        && refused.code() == Refusal.BUSY.code();
  }

  /** What to say of a fixture that breaks the protocol (M96). */
  static String broken(String port, BreachException breach) {
    return "The fixture at "
        + port
        + " does not keep to the protocol: "
        + Words.shown(String.valueOf(breach.getMessage()))
        + ". Its firmware has to be repaired.";
  }

  /** What a fixture says of itself, compared with the check it gave. */
  static Capabilities capabilities(Session session, Answer.Welcome welcome)
      throws LinkException, BreachException {
    List<Item> items = new ArrayList<>();
    int total;
    do {
      Answer answer = session.ask(new Request.Capabilities(items.size()), Session.Listener.NOBODY);
      if (!(answer instanceof Answer.Page page) || page.first() != items.size()) {
        throw new BreachException("M35", "the fixture does not say its capabilities in order");
      }
      items.addAll(page.items());
      total = page.total();
    } while (items.size() < total);
    if (CapabilityItems.check(items) != welcome.capabilities()) {
      throw new BreachException("M36", "the fixture's capabilities do not have the check it gave");
    }
    return CapabilityItems.read(items);
  }
}

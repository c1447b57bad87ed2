package org.jointwalk.link;

import java.util.Optional;
import java.util.random.RandomGenerator;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Refusal;

/**
 * Says what answers at a port. Sends a few bytes to whatever is there, opens and closes nothing in
 * a fixture, and leaves a run of another program alone. One thread.
 */
public final class Finder {

  private final Ticks ticks;
  private final RandomGenerator random;
  private final LinkSettings settings;

  /**
   * @param random that no other run of this program shares
   */
  public Finder(Ticks ticks, RandomGenerator random, LinkSettings settings) {
    this.ticks = ticks;
    this.random = random;
    this.settings = settings;
  }

  /** What is at a port; takes about two seconds where nothing answers. */
  public Found look(Port port) {
    Opened.Way way = new Opened.Way(port, random, ticks, settings, () -> false);
    try (Session session = way.session(0)) {
      Session.Greeting greeting = session.greet();
      if (greeting.answer().orElse(null) instanceof Answer.Welcome welcome) {
        return new Found.Ready(
            port.name(),
            welcome.version(),
            Opened.capabilities(session, welcome),
            welcome.channels(),
            lid(welcome.lid()));
      }
      return new Found.Unusable(
          port.name(), why(greeting), Words.greeting(port.name(), greeting, settings));
    } catch (LinkException e) {
      return new Found.Unusable(port.name(), why(e.failure()), e.told());
    } catch (BreachException e) {
      return new Found.Unusable(port.name(), Found.Why.BROKEN, Opened.broken(port.name(), e));
    }
  }

  private static Found.Lid lid(int code) {
    return switch (code) {
      case 0 -> Found.Lid.CLOSED;
      case 1 -> Found.Lid.OPEN;
      default -> Found.Lid.NONE;
    };
  }

  private static Found.Why why(Session.Greeting greeting) {
    Optional<Answer> answer = greeting.answer();
    if (answer.isPresent() && answer.get() instanceof Answer.Refused refused) {
      if (Opened.isBusy(greeting)) {
        return Found.Why.BUSY;
      }
      return refused.code() == Refusal.VERSION.code() ? Found.Why.OTHER_VERSION : Found.Why.BROKEN;
    }
    return greeting.bytes() > 0 ? Found.Why.GARBAGE : Found.Why.SILENT;
  }

  private static Found.Why why(LinkException.Cause failure) {
    return switch (failure) {
      case MISSING -> Found.Why.MISSING;
      case DENIED -> Found.Why.NO_PERMISSION;
      case BUSY -> Found.Why.BUSY;
      case SILENT, FORGOTTEN -> Found.Why.SILENT;
      case GONE, STUCK -> Found.Why.LINE_FAILED;
    };
  }
}

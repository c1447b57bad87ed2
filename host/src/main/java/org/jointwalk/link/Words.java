package org.jointwalk.link;

import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.BreachException;
import org.jointwalk.protocol.Message;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;

/** What a fixture and a line say, in words for the technician. Stateless. */
final class Words {

  /** Control characters, and those that turn the direction of what follows (M95). */
  private static final Pattern HIDDEN = Pattern.compile("\\p{C}");

  private static final List<String> FAULTS =
      List.of(
          "something it cannot name",
          "its converter",
          "its switch driver",
          "its supply",
          "it is too hot",
          "its calibration is lost",
          "its memory");

  private static final List<String> CAUSES =
      List.of(
          "it does not say why",
          "its power was switched on",
          "its reset line was pulled",
          "its watchdog found it hanging",
          "its supply was too low",
          "its program failed",
          "it was asked to");

  private Words() {}

  /** Text from a fixture, without what could steer a terminal. */
  static String shown(String text) {
    return HIDDEN.matcher(text).replaceAll("\u00b7");
  }

  static String silent(String line, int tries, Duration within) {
    return line
        + " does not answer: asked "
        + tries
        + " times in "
        + within.toMillis()
        + " ms. Look whether the fixture has power and whether this is its port.";
  }

  static String unheard(int times) {
    return "The fixture takes no more of the program, which was sent again "
        + times
        + " times. Look whether its cable sits.";
  }

  /** Why nobody was welcomed on a line. */
  static String greeting(String line, Session.Greeting greeting, LinkSettings settings) {
    Optional<Answer> answer = greeting.answer();
    if (answer.isPresent() && answer.get() instanceof Answer.Refused refused) {
      return refusedHello(line, refused);
    }
    if (greeting.echoes() > 0) {
      return line
          + " echoes what is sent to it. Nothing that speaks is behind it: look which port the"
          + " fixture has.";
    }
    if (greeting.bytes() > 0) {
      return line
          + " sends "
          + greeting.bytes()
          + " bytes that make no sense. Another device is there, or it runs at another rate than "
          + settings.baud()
          + " baud.";
    }
    return silent(line, settings.hellos(), settings.hello().multipliedBy(settings.hellos()));
  }

  private static String refusedHello(String line, Answer.Refused refused) {
    Optional<Refusal> why = Refusal.of(refused.code());
    if (why.equals(Optional.of(Refusal.BUSY))) {
      return "Another program is measuring with the fixture at "
          + line
          + "; it was heard "
          + refused.detail()
          + " ms ago. Wait until its pass is over, or stop it.";
    }
    if (why.equals(Optional.of(Refusal.VERSION))) {
      return "The fixture at "
          + line
          + " speaks version "
          + refused.detail() % 256
          + " to "
          + refused.detail() / 256
          + " of the protocol, this program version 1. One of the two has to be brought up to"
          + " date.";
    }
    return "The fixture at " + line + " will not begin: " + text(refused) + ".";
  }

  static String text(Answer.Refused refused) {
    return Refusal.of(refused.code())
        .map(Refusal::text)
        .orElse("it gives code " + refused.code() + ", which is not known here");
  }

  /** Whether a fixture has forgotten what it was told about what is clamped. */
  static boolean isForgotten(Answer.Refused refused) {
    return Refusal.of(refused.code())
        .filter(List.of(Refusal.NOT_DECLARED, Refusal.OTHER_DECLARATION)::contains)
        .isPresent();
  }

  /** What is broken in a fixture. */
  static String fault(long code) {
    return code > 0 && code <= FAULTS.size()
        ? FAULTS.get((int) code - 1)
        : "fault " + code + ", which is not known here";
  }

  /** Why a fixture started. */
  static String cause(int code) {
    return CAUSES.get(code < CAUSES.size() ? code : 0);
  }

  static FixtureException.LidOpened lidOpen() {
    return new FixtureException.LidOpened(
        "The lid is open. Close it, then run the same command with --resume.");
  }

  static FixtureException.LidOpened lidOpened() {
    return new FixtureException.LidOpened(
        "The lid was opened: this seating is over. What was read stays good. Close the lid, then"
            + " run the same command with --resume; the pads are found anew.");
  }

  static FixtureException.Restarted restarted(int cause) {
    return new FixtureException.Restarted(
        "The fixture has started anew in mid-pass: "
            + cause(cause)
            + ". What was read stays good. Look at its power and cable, then run the same command"
            + " with --resume; the pads are found anew.");
  }

  /** A request that was refused though this program believes it to be right. */
  static FixtureException refused(Answer.Refused refused, String asked) {
    Optional<Refusal> why = Refusal.of(refused.code());
    if (why.equals(Optional.of(Refusal.LID_OPEN))) {
      return lidOpen();
    }
    if (why.equals(Optional.of(Refusal.FAULT))) {
      return new FixtureException.Broken(
          "The fixture is broken: "
              + fault(refused.detail())
              + ". Switch it off and on; if that does not help it has to be repaired.");
    }
    return new FixtureException.Broken(
        "The fixture will not " + asked + ": " + text(refused) + ".");
  }

  /** How a run ended that cannot go on. */
  static FixtureException ended(Account account, Optional<RunEnd> end, Incoming incoming) {
    if (end.equals(Optional.of(RunEnd.LID_OPENED))) {
      return lidOpened();
    }
    if (end.equals(Optional.of(RunEnd.TAKEN_OVER))) {
      return new FixtureException.Unreachable(
          "Another program has taken the fixture over. What was read stays good.");
    }
    return new FixtureException.Broken(
        broken(account, end, incoming) + " What was read before stays good.");
  }

  private static String broken(Account account, Optional<RunEnd> end, Incoming incoming) {
    if (end.equals(Optional.of(RunEnd.BUS_CHECK))) {
      return "The fixture found a connection between its own buses"
          + incoming
              .bad()
              .map(
                  check ->
                      String.format(
                          Locale.ROOT, " (%.3f V, %.3f mA)", check.volt() / 1e8, check.amp() / 1e7))
              .orElse("")
          + ": a switch has probably stuck. "
          + incoming.uncovered()
          + " readings since its last good check were thrown away. Take the parts out, switch the"
          + " fixture off, and have its switches looked at.";
    }
    if (end.equals(Optional.of(RunEnd.FAULT))) {
      return "The fixture is broken: "
          + fault(account.detail())
          + ". Switch it off and on; if that does not help it has to be repaired.";
    }
    if (end.equals(Optional.of(RunEnd.BROWN_OUT))) {
      return "The fixture's supply was too low. Look at its power adapter and cable.";
    }
    if (end.equals(Optional.of(RunEnd.BAD_PROGRAM))) {
      return "The fixture could not use the program it was sent: "
          + ProgramFault.of(account.detail())
              .map(ProgramFault::text)
              .orElse("fault " + account.detail())
          + ". Please report this with the firmware's build.";
    }
    return "The fixture ended the run with code "
        + account.end()
        + ", which is not known here: its firmware is newer than this program.";
  }

  /**
   * Compares an answer with its question.
   *
   * @throws BreachException when it answers something else
   */
  static void requireAnswers(Message asked, Answer came) throws BreachException {
    boolean fits =
        came instanceof Answer.Refused
            || (asked instanceof Request.Hello && came instanceof Answer.Welcome)
            || (asked instanceof Request.Capabilities && came instanceof Answer.Page)
            || ((asked instanceof Request.Declare || asked instanceof Request.Channels)
                && came instanceof Answer.Declared)
            || ((asked instanceof Request.Run
                    || asked instanceof Request.Stop
                    || asked instanceof Request.Status)
                && came instanceof Answer.State);
    if (!fits) {
      throw new BreachException(
          "M33",
          "the fixture answers "
              + asked.getClass().getSimpleName()
              + " with "
              + came.getClass().getSimpleName());
    }
  }
}

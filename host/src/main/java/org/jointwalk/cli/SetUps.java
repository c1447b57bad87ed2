package org.jointwalk.cli;

import java.util.List;
import java.util.function.Predicate;
import org.jointwalk.stack.SetUp;

/** The set-ups that a command can be asked for, by name. Stateless. */
final class SetUps {

  private SetUps() {}

  /**
   * The set-up of a name.
   *
   * @param possible what the command can do with
   * @param purpose what the others are not for, in words that follow "is no set-up"
   * @throws InputException when there is none, with the names that there are
   */
  static SetUp named(String name, Predicate<SetUp> possible, String purpose) throws InputException {
    List<SetUp> all = SetUp.all().stream().filter(possible).toList();
    return all.stream()
        .filter(s -> s.name().equals(name))
        .findFirst()
        .orElseThrow(
            () ->
                new InputException(
                    "\""
                        + name
                        + "\" is no set-up "
                        + purpose
                        + ". Choose one of: "
                        + String.join(", ", all.stream().map(SetUp::name).toList())
                        + "."));
  }
}

package org.jointwalk.cli;

import java.util.List;
import java.util.function.Supplier;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Adds commands to a command. The classes of those alone that the arguments name are looked into,
 * which takes milliseconds each; the others are a line of the help text. For one start.
 */
final class Menu {

  private final CommandLine line;
  private final List<String> arguments;

  /**
   * @param line that gets the commands
   * @param arguments of the program
   */
  Menu(CommandLine line, List<String> arguments) {
    this.line = line;
    this.arguments = arguments;
  }

  /**
   * Adds a command.
   *
   * @param name as it is typed
   * @param what it does, in a sentence
   * @param command makes the annotated object
   */
  Menu add(String name, String what, Supplier<Object> command) {
    return addLine(name, what, () -> new CommandLine(command.get()));
  }

  /** Adds a command that has been made into a line already, as one with parts of its own is. */
  Menu addLine(String name, String what, Supplier<CommandLine> command) {
    CommandLine child =
        arguments.contains(name) ? command.get() : new CommandLine(CommandSpec.create());
    child.getCommandSpec().usageMessage().description(what);
    line.addSubcommand(name, child);
    return this;
  }

  CommandLine line() {
    return line;
  }
}

package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Side;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** One part of {@code job action} for each action. */
abstract class Actions implements Callable<Integer> {

  private final JobAction parent;

  @Spec private CommandSpec spec = CommandSpec.create();

  private final Class<? extends Action> kind;

  private Actions(JobAction parent, Class<? extends Action> kind) {
    this.parent = parent;
    this.kind = kind;
  }

  /** One part for each action; one entry each. */
  static CommandLine all(CommandLine line, JobAction parent, List<String> arguments) {
    return new Menu(line, arguments)
        .addLine(
            "split",
            "The stack was split: the joints of one side let go.",
            () -> new Split(parent).line())
        .addLine(
            "lift",
            "The interposer was lifted off the board that it was still soldered to.",
            () -> new Lift(parent).line())
        .addLine("wick", "Old solder was wicked off a side.", () -> new Wick(parent).line())
        .addLine("wash", "The parts were washed and dried.", () -> new Wash(parent).line())
        .addLine(
            "reball",
            "The joints of a side were made again. Without --positions all of them: the interposer"
                + " is soldered to that board afterwards.",
            () -> new Reball(parent).line())
        .addLine("pad-rebuilt", "A torn pad was rebuilt.", () -> new PadRebuilt(parent).line())
        .addLine(
            "jumper",
            "A wire was laid from a pad to another point of its net.",
            () -> new Jumper(parent).line())
        .addLine(
            "part-replaced",
            "A part of a board was replaced.",
            () -> new PartReplaced(parent).line())
        .addLine(
            "probes-cleaned",
            "The fixture's probes were cleaned.",
            () -> new ProbesCleaned(parent).line())
        .line();
  }

  /** The command, whose help says what to beware of. */
  CommandLine line() {
    CommandLine line = new CommandLine(this);
    UsageMessageSpec usage = line.getCommandSpec().usageMessage();
    List<String> footer = new ArrayList<>(List.of(usage.footer()));
    List<String> cautions = Cautions.of(kind);
    if (!cautions.isEmpty()) {
      footer.addAll(List.of("", "CAUTION"));
      cautions.forEach(caution -> footer.add("  " + caution));
    }
    usage.footer(footer.toArray(String[]::new));
    return line;
  }

  /** The action that the options tell. */
  abstract Action action() throws InputException;

  @Override
  public final Integer call() throws InputException {
    return parent.keep(action(), spec);
  }

  @Command(footer = {"", "Example:", "  jointwalk job action --job J-0001 split --let-go upper"})
  static final class Split extends Actions {

    @Option(
        names = "--let-go",
        paramLabel = "SIDE",
        required = true,
        converter = Choice.OfSide.class,
        completionCandidates = Choice.OfSide.class,
        description = "Which row of joints was melted: ${COMPLETION-CANDIDATES}.")
    private Side letGo = Side.UPPER;

    Split(JobAction parent) {
      super(parent, Action.Split.class);
    }

    @Override
    Action action() {
      return new Action.Split(letGo);
    }
  }

  @Command(footer = {"", "Example:", "  jointwalk job action --job J-0001 lift"})
  static final class Lift extends Actions {

    Lift(JobAction parent) {
      super(parent, Action.Lift.class);
    }

    @Override
    Action action() {
      return new Action.Lift();
    }
  }

  @Command(footer = {"", "Example:", "  jointwalk job action --job J-0001 wick --side lower"})
  static final class Wick extends Actions {

    @Mixin private OnSide on = new OnSide();

    Wick(JobAction parent) {
      super(parent, Action.Wick.class);
    }

    @Override
    Action action() {
      return new Action.Wick(on.side());
    }
  }

  @Command(footer = {"", "Example:", "  jointwalk job action --job J-0001 wash"})
  static final class Wash extends Actions {

    Wash(JobAction parent) {
      super(parent, Action.Wash.class);
    }

    @Override
    Action action() {
      return new Action.Wash();
    }
  }

  @Command(
      footer = {
        "",
        "Example:",
        "  jointwalk job action --job J-0001 reball --side lower",
        "  jointwalk job action --job J-0001 reball --side lower --positions N001,N002"
      })
  static final class Reball extends Actions {

    @Mixin private OnSide on = new OnSide();

    @Option(
        names = "--positions",
        paramLabel = "PAD",
        split = ",",
        description = "Only these pads, as the pad map numbers them: N001,N002.")
    private List<String> positions = new ArrayList<>();

    Reball(JobAction parent) {
      super(parent, Action.Reball.class);
    }

    @Override
    Action action() throws InputException {
      List<String> checked = new ArrayList<>();
      for (String position : positions) {
        String id = OnPosition.checked(position);
        if (!checked.contains(id)) {
          checked.add(id);
        }
      }
      return new Action.Reball(on.side(), checked);
    }
  }

  @Command(
      footer = {
        "",
        "Example:",
        "  jointwalk job action --job J-0001 pad-rebuilt --side lower --position N014"
      })
  static final class PadRebuilt extends Actions {

    @Mixin private OnPosition at = new OnPosition();

    PadRebuilt(JobAction parent) {
      super(parent, Action.PadRebuilt.class);
    }

    @Override
    Action action() throws InputException {
      return new Action.PadRebuilt(at.side(), at.position());
    }
  }

  @Command(
      footer = {
        "",
        "Example:",
        "  jointwalk job action --job J-0001 jumper --side lower --position N014 --to TP7"
      })
  static final class Jumper extends Actions {

    @Mixin private OnPosition at = new OnPosition();

    @Option(
        names = "--to",
        paramLabel = "POINT",
        required = true,
        description = "Where the wire ends, in your words: a test point, a part's pin.")
    private String to = "";

    Jumper(JobAction parent) {
      super(parent, Action.Jumper.class);
    }

    @Override
    Action action() throws InputException {
      return new Action.Jumper(at.side(), at.position(), given("--to", to));
    }
  }

  @Command(
      footer = {
        "",
        "Example:",
        "  jointwalk job action --job J-0001 part-replaced --side upper --part U3"
      })
  static final class PartReplaced extends Actions {

    @Mixin private OnSide on = new OnSide();

    @Option(
        names = "--part",
        paramLabel = "NAME",
        required = true,
        description = "Which part, as you call it.")
    private String part = "";

    PartReplaced(JobAction parent) {
      super(parent, Action.PartReplaced.class);
    }

    @Override
    Action action() throws InputException {
      return new Action.PartReplaced(on.side(), given("--part", part));
    }
  }

  @Command(footer = {"", "Example:", "  jointwalk job action --job J-0001 probes-cleaned"})
  static final class ProbesCleaned extends Actions {

    ProbesCleaned(JobAction parent) {
      super(parent, Action.ProbesCleaned.class);
    }

    @Override
    Action action() {
      return new Action.ProbesCleaned();
    }
  }

  private static String given(String option, String value) throws InputException {
    if (value.isBlank()) {
      throw new InputException(option + " needs a name.");
    }
    return value.strip();
  }
}

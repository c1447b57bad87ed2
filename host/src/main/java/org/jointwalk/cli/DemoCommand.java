package org.jointwalk.cli;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/**
 * The command {@code demo}: one job from intake to closing, by the very commands that a technician
 * would type, on a stack that exists in numbers only.
 */
@Command(
    name = "demo",
    description =
        "A dropped handset on the virtual fixture, from intake to closing. Nothing to set up.",
    footer = {"", "Example:", "  jointwalk demo --step"})
final class DemoCommand implements Callable<Integer> {

  private static final String JOB = "J-0001";
  private static final int WIDTH = 78;

  private final Main main;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Option(names = "--step", description = "Wait for the Enter key before each step.")
  private boolean step;

  @Option(
      names = "--log",
      paramLabel = "FILE",
      description =
          "Keep the job in this new file; without it, in a new one among the temporary files.")
  private @Nullable Path file;

  /**
   * One step of the story.
   *
   * @param told what happens at the bench, in one or two sentences
   * @param typed the command
   */
  private record Scene(String told, List<String> typed) {

    private static Scene of(String told, String... typed) {
      return new Scene(told, List.of(typed));
    }
  }

  DemoCommand(Main main) {
    this.main = main;
  }

  @Override
  public Integer call() throws InputException {
    Path log = log();
    Path maps = DemoFiles.folder();
    Console console = main.console(spec);
    console.line("A story on simulated parts: no figure below is from a real device.");
    for (Scene scene : story(maps)) {
      console.line("");
      console.line("-".repeat(WIDTH));
      wrapped(scene.told()).forEach(console::line);
      List<String> typed = new ArrayList<>(scene.typed());
      console.line("");
      console.title("$ jointwalk " + shown(typed));
      if (step) {
        await();
      }
      typed.add("--log");
      typed.add(log.toString());
      int code = run(typed);
      if (code != ExitCode.GOOD.number() && code != ExitCode.FAULT_FOUND.number()) {
        return code;
      }
    }
    console.line("");
    console.line("-".repeat(WIDTH));
    console.line("The whole job is in " + log);
    console.next("jointwalk job show --job " + JOB + " --log " + log);
    return ExitCode.GOOD.number();
  }

  private int run(List<String> typed) {
    CommandLine mine = spec.commandLine();
    return main.another(mine.getOut(), mine.getErr(), typed);
  }

  private static List<String> wrapped(String text) {
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : text.split(" ", -1)) {
      if (line.length() + word.length() >= WIDTH) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() == 0 ? "" : " ").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  private static String shown(List<String> typed) {
    List<String> words = new ArrayList<>();
    for (String word : typed) {
      String brief = word.endsWith(".json") ? "fixture-maps/" + Path.of(word).getFileName() : word;
      words.add(brief.contains(" ") ? "\"" + brief + "\"" : brief);
    }
    return String.join(" ", words);
  }

  private Path log() throws InputException {
    if (file != null && Files.exists(file)) {
      throw new InputException(
          file + " is there already. The demo begins a log of its own: name a new file.");
    }
    try {
      return file != null ? file : Files.createTempDirectory("jointwalk-demo").resolve("demo.db");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void await() {
    spec.commandLine().getErr().print("Enter to go on ");
    spec.commandLine().getErr().flush();
    main.surroundings().enter().run();
  }

  private static List<Scene> story(Path maps) {
    List<Scene> story = new ArrayList<>();
    story.add(
        Scene.of(
            "A bird-ringing crew brings in a handset that was dropped. The radio is gone, the rest"
                + " works.",
            "job",
            "open",
            "--device",
            "Saltmarsh S2",
            "--serial",
            "SM-00417",
            "--happened",
            "dropped",
            "--fails",
            "radio",
            "--by",
            "AB"));
    story.add(
        Scene.of(
            "The stack is split on the hot plate. The upper board lets go; the interposer stays on"
                + " the lower board.",
            action("split", "--let-go", "upper")));
    story.add(
        Scene.of(
            "Under the microscope two joints on the lower side look dry.",
            seen(DemoFiles.DRY_ONE)));
    story.add(Scene.of("And the second.", seen(DemoFiles.DRY_TWO)));
    story.add(
        Scene.of(
            "The upper board alone goes into the fixture: is it a board after all?",
            pass(maps, "upper-board")));
    story.add(
        Scene.of(
            "Clamped together by hand the radio comes back, but not every time.",
            "job",
            "clamped",
            "--job",
            JOB,
            "sometimes",
            "--by",
            "AB"));
    story.add(
        Scene.of("Now the interposer on the lower board.", pass(maps, "interposer-on-lower")));
    story.add(Scene.of("As the program says, the interposer is lifted.", action("lift")));
    story.add(Scene.of("The lower board alone.", pass(maps, "lower-board")));
    story.add(Scene.of("The bare interposer.", pass(maps, "interposer")));
    story.add(
        Scene.of(
            "The torn pad is rebuilt.",
            action("pad-rebuilt", "--side", "lower", "--position", DemoFiles.TORN)));
    story.add(Scene.of("The lower side is re-balled.", action("reball", "--side", "lower")));
    story.add(
        Scene.of(
            "Before anything is closed: did the re-ball take on every pad?",
            pass(maps, "interposer-on-lower", "--for", "reball")));
    story.add(
        Scene.of(
            "Three joints are touched up: too much solder on two, none on one.",
            action(
                "reball",
                "--side",
                "lower",
                "--positions",
                String.join(",", DemoFiles.TOUCHED_UP))));
    story.add(Scene.of("The check again.", pass(maps, "interposer-on-lower", "--for", "reball")));
    story.add(
        Scene.of(
            "The upper side is soldered on again: the stack is closed.",
            action("reball", "--side", "upper")));
    story.add(
        Scene.of(
            "The radio works. The job is closed.", "job", "close", "--job", JOB, "--by", "AB"));
    return story;
  }

  private static String[] action(String... words) {
    List<String> typed = new ArrayList<>(List.of("job", "action", words[0], "--job", JOB));
    typed.addAll(List.of(words).subList(1, words.length));
    typed.addAll(List.of("--by", "AB"));
    return typed.toArray(String[]::new);
  }

  private static String[] seen(String position) {
    return new String[] {
      "job",
      "seen",
      "--job",
      JOB,
      "--side",
      "lower",
      "--position",
      position,
      "--look",
      "dry",
      "--by",
      "AB"
    };
  }

  private static String[] pass(Path maps, String setUp, String... more) {
    List<String> typed =
        new ArrayList<>(
            List.of(
                "pass",
                "--job",
                JOB,
                "--set-up",
                setUp,
                "--pads",
                maps.resolve("saltmarsh-s2.pads.json").toString(),
                "--fixture",
                maps.resolve("saltmarsh-photo-relay.fixture.json").toString(),
                "--stack",
                maps.resolve("saltmarsh-dropped.stack.json").toString(),
                "--by",
                "AB"));
    typed.addAll(List.of(more));
    return typed.toArray(String[]::new);
  }
}

package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import org.jointwalk.files.Names;
import org.jointwalk.job.ProbeState;
import org.jointwalk.job.ProbeState.Advice;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code fixture probes}. */
@Command(
    footer = {
      "",
      "Clean the tips with a dry brush, the fixture off and empty, and eyes protected.",
      "Then: jointwalk job action --job ID probes-cleaned",
      "",
      "Example:",
      "  jointwalk fixture probes",
      "  jointwalk fixture probes --all --json"
    })
final class FixtureProbes implements Callable<Integer> {

  private final FixtureCommand parent;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();

  @Option(names = "--all", description = "Every probe, not only those that need something.")
  private boolean all;

  @Option(names = "--json", description = "As JSON, for other programs.")
  private boolean json;

  FixtureProbes(FixtureCommand parent) {
    this.parent = parent;
  }

  @Override
  public Integer call() throws InputException {
    Console console = parent.console(spec);
    try (Jobs jobs = log.jobs(parent.surroundings())) {
      List<ProbeBook> books = ProbeBook.all(jobs);
      if (json) {
        write(console.writer(), books);
      } else if (books.isEmpty()) {
        console.line("No pass yet in " + jobs.file() + ": nothing is known of any probe.");
      } else {
        books.forEach(book -> tell(console, book));
      }
    }
    return ExitCode.GOOD.number();
  }

  private List<ProbeState> shown(ProbeBook book) {
    return book.states().stream().filter(s -> all || s.advice() != Advice.FINE).toList();
  }

  private void tell(Console console, ProbeBook book) {
    console.title("Fixture " + book.fixture());
    console.line(
        "  "
            + book.passes()
            + (book.passes() == 1 ? " pass" : " passes")
            + ", "
            + Sentences.count(book.pressings(), "pressing")
            + " since "
            + book.cleaned().map(c -> "the probes were cleaned on " + c).orElse("the first job")
            + "; "
            + book.closures()
            + " closures of its switches in all");
    List<ProbeState> shown = shown(book);
    Columns columns = new Columns();
    for (ProbeState state : shown) {
      columns.row(
          "  " + Names.of(state.contact()),
          words(state.advice()),
          String.format(Locale.ROOT, "rise %.1f", state.rise()),
          state.missed() + (state.missed() == 1 ? " miss" : " misses"),
          Sentences.count(state.pressings(), "pressing"));
    }
    columns.lines().forEach(console::line);
    boolean clean = book.states().stream().anyMatch(s -> s.advice() == Advice.CLEAN);
    if (clean) {
      console.next(
          "Clean the tips named above with a dry brush. A tip that is named again within ten passes"
              + " is worn: replace the probe. Then: jointwalk job action --job ID probes-cleaned");
    } else if (shown.isEmpty()) {
      console.line("  No probe has got worse.");
    }
  }

  private static String words(Advice advice) {
    return switch (advice) {
      case FINE -> "fine";
      case WATCH -> "watch";
      case CLEAN -> "clean or replace";
    };
  }

  private void write(PrintWriter out, List<ProbeBook> books) {
    JsonText.write(
        out,
        json -> {
          json.writeStartObject();
          json.writeArrayFieldStart("fixtures");
          for (ProbeBook book : books) {
            json.writeStartObject();
            json.writeStringField("fixture", book.fixture());
            json.writeNumberField("passes", book.passes());
            json.writeNumberField("pressings", book.pressings());
            json.writeNumberField("closures", book.closures());
            if (book.cleaned().isPresent()) {
              json.writeStringField("cleaned", book.cleaned().get());
            }
            json.writeArrayFieldStart("probes");
            for (ProbeState state : shown(book)) {
              json.writeStartObject();
              json.writeStringField("contact", Names.of(state.contact()));
              json.writeStringField("advice", state.advice().name().toLowerCase(Locale.ROOT));
              json.writeNumberField("passes", state.passes());
              json.writeNumberField("pressings", state.pressings());
              json.writeNumberField("missed", state.missed());
              json.writeNumberField("rise", state.rise());
              json.writeNumberField("miss_rate", state.missRate());
              json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
          }
          json.writeEndArray();
          json.writeEndObject();
        });
  }
}

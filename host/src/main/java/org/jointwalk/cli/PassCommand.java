package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.jointwalk.diagnose.Diagnose;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Purpose;
import org.jointwalk.job.Verdict;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.Ticks;
import org.jointwalk.pass.Outcome;
import org.jointwalk.pass.Pass;
import org.jointwalk.pass.PassException;
import org.jointwalk.pass.Request;
import org.jointwalk.report.BudgetJson;
import org.jointwalk.report.BudgetText;
import org.jointwalk.report.PassJson;
import org.jointwalk.report.PassText;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** The command {@code pass}. */
@Command(
    name = "pass",
    description = "Runs one set-up through the fixture and says what it shows.",
    footer = {
      "",
      "Before clamping: battery out, board discharged and dry; never force the lid.",
      "",
      "Example:",
      "  jointwalk pass --job J-0001 --set-up interposer-on-lower"
          + " --pads fixture-maps/saltmarsh-s2.pads.json"
          + " --fixture fixture-maps/saltmarsh-photo-relay.fixture.json"
          + " --stack fixture-maps/saltmarsh-dropped.stack.json --by AB"
    })
final class PassCommand implements Callable<Integer> {

  private final Main main;

  @Spec private CommandSpec spec = CommandSpec.create();
  @Mixin private LogOption log = new LogOption();
  @Mixin private OnJob job = new OnJob();
  @Mixin private MapOptions maps = new MapOptions();
  @Mixin private PortOptions port = new PortOptions();
  @Mixin private ByWhom by = new ByWhom();

  @Option(
      names = "--set-up",
      paramLabel = "NAME",
      required = true,
      description =
          "What is in the fixture: joined, upper-board, lower-board, interposer-on-lower,"
              + " interposer-on-upper or interposer.")
  private String setUp = "";

  @Option(
      names = "--for",
      paramLabel = "PURPOSE",
      converter = Choice.OfPurpose.class,
      completionCandidates = Choice.OfPurpose.class,
      description = "What for: ${COMPLETION-CANDIDATES}. Without it, diagnosis.")
  private Purpose purpose = Purpose.DIAGNOSIS;

  @Option(names = "--resume", description = "Go on with a pass that was interrupted.")
  private boolean resume;

  @Option(names = "--json", description = "One JSON object on standard output, for scripts.")
  private boolean json;

  @Option(
      names = "--explain",
      paramLabel = "PAD",
      description = "After the pass: what makes the value of this pad uncertain, as a table.")
  private Optional<String> explain = Optional.empty();

  private FixtureTrust trusted = FixtureTrust.NOTHING;

  PassCommand(Main main) {
    this.main = main;
  }

  @Override
  public Integer call()
      throws InputException, FileFaults, FixtureException, PassException, IOException {
    String version = Version.number();
    SetUp chosen = setUp();
    Optional<Specimen> specimen = port.specimen();
    MapOptions.Maps read = maps.read(specimen.map(Specimen::variant));
    Assembly assembly = new Assembly(read.map(), read.interposer(), chosen);
    if (explain.isPresent() && !read.map().positions().containsKey(explain.get())) {
      throw new InputException(
          "The pad map has no pad "
              + explain.get()
              + ". Give one as it numbers them, such as N014.");
    }
    Surroundings here = main.surroundings();
    try (Jobs jobs = log.jobs(here)) {
      Job before = jobs.findOpen(job.id());
      requireModel(before, read.map().device());
      List<PassRecord> interrupted = resume ? interrupted(before, chosen) : List.of();
      Pass.requirePossible(assembly, before);
      trusted = FixtureTrust.of(jobs, read.fixtureMap(), here, spec.commandLine().getErr());
      jobs.takeTurn(before);
      Request request =
          new Request(
              before.id(),
              assembly,
              trusted.readable(read.fixtureMap()),
              purpose,
              jobs.log().keep("pads", PadMapFile.write(read.map())),
              jobs.log().keep("fixture", FixtureMapFile.write(read.fixtureMap())),
              by.initials(),
              version,
              resume);
      Outcome outcome =
          specimen.isPresent()
              ? virtual(
                  VirtualBench.clamped(
                      read.map(), read.fixtureMap(), specimen.get(), before, chosen, interrupted),
                  jobs,
                  request)
              : real(read.fixtureMap(), jobs, request);
      Job after = jobs.get(before.id());
      Verdict verdict = new Diagnose().verdict(read.map(), read.interposer(), after);
      jobs.add(after, new Event.Judged(verdict, version));
      tell(jobs.get(before.id()), read.map(), outcome, verdict);
      return code(outcome.findings()).number();
    } finally {
      here.stops().accept(Optional.empty());
    }
  }

  private SetUp setUp() throws InputException {
    return SetUps.named(setUp, SetUp::hasParts, "for a pass");
  }

  static void requireModel(Job job, String device) throws InputException {
    if (!job.intake().device().equals(device)) {
      throw new InputException(
          job.id()
              + " is a "
              + job.intake().device()
              + ", the pad map is for the "
              + device
              + ". Give the pad map of the model that is on the bench.");
    }
  }

  private static List<PassRecord> interrupted(Job job, SetUp setUp) {
    return job.passes().stream()
        .filter(p -> p.open() && p.begun().setUp().equals(setUp.name()))
        .reduce((first, last) -> last)
        .map(List::of)
        .orElse(List.of());
  }

  private Outcome virtual(VirtualFixture fixture, Jobs jobs, Request request)
      throws FixtureException, PassException {
    return run(fixture, VirtualBench.lid(fixture, spec.commandLine().getErr()), jobs, request);
  }

  private Outcome real(FixtureMap map, Jobs jobs, Request request)
      throws FixtureException, PassException, InputException {
    PrintWriter err = spec.commandLine().getErr();
    Surroundings here = main.surroundings();
    try (LinkFixture fixture =
        LinkFixture.open(
            port.real(),
            request.assembly(),
            map,
            Ticks.ofThisComputer(),
            new SecureRandom(),
            port.settings())) {
      Lid lid = new LidByHand(fixture, err, here.terminal(), here.enter());
      return run(fixture, lid, jobs, request);
    }
  }

  private Outcome run(Fixture fixture, Lid lid, Jobs jobs, Request request)
      throws FixtureException, PassException {
    PrintWriter err = spec.commandLine().getErr();
    AtFixture operator =
        new AtFixture(err, main.surroundings().terminal(), main.surroundings().clock(), lid);
    Pass pass = new Pass(fixture, jobs.log(), operator, request, trusted.trust().zero());
    main.surroundings().stops().accept(Optional.of(pass::stop));
    return pass.run();
  }

  private void tell(Job job, PadMap map, Outcome outcome, Verdict verdict) {
    PrintWriter out = spec.commandLine().getOut();
    if (json) {
      out.println(PassJson.line(job, outcome.pass(), outcome.commits()));
    } else {
      out.print(new PassText(main.look()).text(map, job, outcome.pass(), verdict));
    }
    if (explain.isPresent()) {
      String pad = explain.get();
      if (json) {
        out.println(BudgetJson.line(job, outcome.pass(), pad));
      } else {
        out.println();
        out.print(new BudgetText(main.look()).text(job, outcome.pass(), pad));
      }
    }
    out.flush();
  }

  static ExitCode code(Findings findings) {
    if (findings.anyFault()) {
      return ExitCode.FAULT_FOUND;
    }
    boolean open =
        findings.positions().stream()
            .anyMatch(f -> f.grade() == Grade.UNDECIDED || f.grade() == Grade.NOT_CONTACTED);
    return open ? ExitCode.UNDECIDED : ExitCode.GOOD;
  }
}

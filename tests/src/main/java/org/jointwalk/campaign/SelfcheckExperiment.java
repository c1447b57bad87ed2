package org.jointwalk.campaign;

import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Selfcheck;
import org.jointwalk.fixture.Zero;
import org.jointwalk.joblog.MemoryJobLog;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Specimen;
import org.jointwalk.stack.Specimen.Pole;
import org.jointwalk.stack.Specimen.Trouble;
import org.jointwalk.upkeep.Order;
import org.jointwalk.upkeep.Stand;
import org.jointwalk.upkeep.StoppedException;
import org.jointwalk.upkeep.Upkeep;

/**
 * Breaks single relays of fixtures and looks whether their self-check names them, looks at sound
 * fixtures for false findings, and compares zeros with the switches that were drawn.
 */
final class SelfcheckExperiment implements Experiment {

  private static final Instant THEN = Instant.parse("2026-03-01T08:00:00Z");

  /** One relay, or none, of one fixture. */
  private record Case(FixtureMap map, Optional<Trouble> trouble, Contact contact, long seed) {}

  /** How a case ended. */
  private record End(Case of, Selfcheck check) {

    private boolean named() {
      return check.faults().size() == 1
          && check.faults().get(0).contact().equals(Optional.of(of.contact()));
    }
  }

  /** A way over two switches as zeroed, and as it is. */
  private record Way(Estimate zeroed, double typical, double real) {

    private boolean covered() {
      double most = TDistribution.of(zeroed.dof()).inverseCumulativeProbability(0.975) * zeroed.u();
      return Math.abs(zeroed.value() - real) <= most;
    }
  }

  @Override
  public String name() {
    return "selfcheck";
  }

  @Override
  public String about() {
    return "breaks single relays of fixtures, and compares zeros with the real switches";
  }

  @Override
  public Result run(long seed, Scale scale) {
    SplittableRandom random = new SplittableRandom(seed);
    PadMap map = SaltmarshS2.map();
    List<FixtureMap> fixtures =
        List.of(
            FixtureMaps.photoRelay(map), FixtureMaps.relayMatrix(map), FixtureMaps.fourBus(map));
    int each = scale == Scale.FULL ? 60 : scale == Scale.QUICK ? 6 : 1;
    List<Case> broken = new ArrayList<>();
    List<Case> hidden = new ArrayList<>();
    List<Case> sound = new ArrayList<>();
    for (FixtureMap fixture : fixtures) {
      List<Contact> contacts = List.copyOf(fixture.contacts());
      Kelvin kelvin = fixture.capabilities().kelvin();
      for (int i = 0; i < each; i++) {
        for (Pole pole : Pole.values()) {
          if (pole.isSense() && kelvin == Kelvin.NONE) {
            continue;
          }
          Contact open = contacts.get(random.nextInt(contacts.size()));
          broken.add(
              new Case(
                  fixture,
                  Optional.of(new Trouble.RelayOpen(open, pole)),
                  open,
                  random.nextLong()));
          Contact shut = contacts.get(random.nextInt(contacts.size()));
          Case closed =
              new Case(
                  fixture,
                  Optional.of(new Trouble.RelayClosed(shut, pole)),
                  shut,
                  random.nextLong());
          // With two tips a pad a sense relay that never opens changes no voltage on the plate.
          (pole.isSense() && kelvin == Kelvin.TIP ? hidden : broken).add(closed);
        }
        Contact dead = contacts.get(random.nextInt(contacts.size()));
        broken.add(
            new Case(fixture, Optional.of(new Trouble.StuckOpen(dead)), dead, random.nextLong()));
        sound.add(
            new Case(named(fixture, random.nextLong()), Optional.empty(), dead, random.nextLong()));
      }
    }
    List<Callable<Way>> zeros = new ArrayList<>();
    for (int i = 0; i < 10 * each; i++) {
      Case one =
          new Case(
              named(fixtures.get(0), random.nextLong()),
              Optional.empty(),
              fixtures.get(0).contacts().iterator().next(),
              random.nextLong());
      SplittableRandom pick = random.split();
      zeros.add(() -> way(map, one, pick));
    }
    return result(
        checks(map, broken), checks(map, hidden), checks(map, sound), Workers.inOrder(zeros));
  }

  private static Result result(
      List<End> broken, List<End> hidden, List<End> sound, List<Way> ways) {
    List<String> notes = new ArrayList<>();
    long named = broken.stream().filter(End::named).count();
    broken.stream()
        .filter(end -> !end.named())
        .forEach(end -> notes.add("not named: " + end.of().trouble() + " " + end.check().faults()));
    long falsely = sound.stream().filter(end -> !end.check().passed()).count();
    sound.stream()
        .filter(end -> !end.check().passed())
        .forEach(end -> notes.add("false finding: " + end.check().faults()));
    long covered = ways.stream().filter(Way::covered).count();
    double zeroed = 0;
    double typical = 0;
    double u = 0;
    for (Way way : ways) {
      zeroed += Math.pow(way.zeroed().value() - way.real(), 2);
      typical += Math.pow(way.typical() - way.real(), 2);
      u += way.zeroed().u();
    }
    int n = ways.size();
    return new Result(
        List.of(
            Figure.none("relayFaultsNotNamed", broken.size() - named, broken.size()),
            Figure.none("falseFindingsOnSoundFixtures", falsely, sound.size()),
            Figure.count(
                "senseRelaysOfTwoTipsStuckClosedNotSeen",
                hidden.stream().filter(end -> end.check().passed()).count(),
                hidden.size()),
            Figure.share("zeroIntervalsThatCover", covered, n)
                .with(Figure.Relation.AT_LEAST, "0.9"),
            Figure.mean("zeroStandardUncertaintyMilliohm", 1e3 * u, n, 1),
            Figure.mean("rmsErrorOfAWayZeroedMilliohm", 1e3 * Math.sqrt(zeroed * n), n, 1),
            Figure.mean("rmsErrorOfAWayTypicalMilliohm", 1e3 * Math.sqrt(typical * n), n, 1)),
        notes);
  }

  private static List<End> checks(PadMap map, List<Case> cases) {
    List<Callable<End>> work = new ArrayList<>();
    cases.forEach(
        one -> work.add(() -> new End(one, upkeep(map, one, fixture(map, one)).check(true))));
    return Workers.inOrder(work);
  }

  private static Way way(PadMap map, Case one, SplittableRandom pick)
      throws FixtureException, StoppedException {
    VirtualFixture fixture = fixture(map, one);
    Zero zero = upkeep(map, one, fixture).zero(THEN, Optional.empty());
    List<Contact> contacts = List.copyOf(one.map().contacts());
    while (true) {
      Contact a = contacts.get(pick.nextInt(contacts.size()));
      Contact b = contacts.get(pick.nextInt(contacts.size()));
      Optional<Estimate> path = zero.path(a, b);
      if (!a.equals(b) && path.isPresent()) {
        Capabilities able = one.map().capabilities();
        return new Way(
            path.get(),
            able.path().highOhms().value() + able.path().lowOhms().value(),
            fixture.pathOhms(a, b));
      }
    }
  }

  private static VirtualFixture fixture(PadMap map, Case one) {
    return new VirtualFixture(
        map,
        new Specimen(
            map.interposers().get(0).variant(),
            one.seed(),
            Defects.NONE,
            List.of(),
            one.trouble().stream().toList()),
        one.map(),
        VirtualFixture.Conditions.CALM);
  }

  private static Upkeep upkeep(PadMap map, Case one, VirtualFixture fixture) {
    return new Upkeep(
        new MemoryJobLog(InstantSource.fixed(THEN), ZoneId.of("UTC")),
        new OnItsOwn(fixture),
        new Order(one.map(), map.device(), "", "campaign"));
  }

  /** Another copy of a fixture: its switches are drawn from its identity. */
  private static FixtureMap named(FixtureMap map, long number) {
    Capabilities able = map.capabilities();
    return new FixtureMap(
        map.name(),
        map.device(),
        new Capabilities(
            able.identity() + " " + number,
            able.build(),
            able.calibration(),
            able.switching(),
            able.kelvin(),
            able.banks(),
            able.readers(),
            able.ranges(),
            able.path(),
            able.probes(),
            able.ratings()),
        map.channels(),
        map.defective());
  }

  /** A fixture into which things are laid by themselves. */
  private record OnItsOwn(VirtualFixture fixture) implements Stand {

    @Override
    public Fixture lay(SetUp setUp) {
      fixture.clamp(setUp, List.of());
      return fixture;
    }

    @Override
    public boolean again() {
      fixture.reseat();
      return true;
    }

    @Override
    public boolean hasLid() {
      return true;
    }

    @Override
    public void progress(String what, int taken, int of) {
      // Nobody looks on.
    }

    @Override
    public void remark(String text) {
      // What matters is in the result.
    }
  }
}

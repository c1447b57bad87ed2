package org.jointwalk.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Specimen;
import org.jointwalk.upkeep.Order;
import org.jointwalk.upkeep.Stand;
import org.jointwalk.upkeep.StoppedException;
import org.jointwalk.upkeep.Upkeep;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** The options of commands that look after a fixture, and how these begin. */
final class UpkeepOptions {

  @Mixin private LogOption log = new LogOption();
  @Mixin private MapOptions maps = new MapOptions();
  @Mixin private PortOptions port = new PortOptions();
  @Mixin private ByWhom by = new ByWhom();

  @Option(names = "--json", description = "One JSON object on standard output, for scripts.")
  private boolean json;

  boolean json() {
    return json;
  }

  /** Work with a fixture. */
  @FunctionalInterface
  interface Work<T> {

    T with(Upkeep upkeep) throws FixtureException, StoppedException;
  }

  <T> T run(Surroundings here, PrintWriter err, Work<T> work)
      throws InputException, FileFaults, FixtureException, StoppedException, IOException {
    Optional<Specimen> specimen = port.specimenOr(UpkeepOptions::sound);
    MapOptions.Maps read = maps.read(specimen.map(Specimen::variant).filter(v -> !v.isEmpty()));
    try (Jobs jobs = log.jobs(here)) {
      Order order =
          new Order(
              read.fixtureMap(),
              jobs.log().keep("fixture", FixtureMapFile.write(read.fixtureMap())),
              by.initials(),
              Version.number());
      if (specimen.isPresent()) {
        Specimen inside = named(specimen.get(), read.interposer().variant());
        VirtualFixture fixture =
            new VirtualFixture(
                read.map(), inside, read.fixtureMap(), VirtualFixture.Conditions.CALM);
        return work(here, jobs, new StandVirtual(fixture, err), order, work);
      }
      try (StandByHand stand = new StandByHand(port.real(), port.settings(), read, err, here)) {
        return work(here, jobs, stand, order, work);
      }
    } finally {
      here.stops().accept(Optional.empty());
    }
  }

  private static <T> T work(Surroundings here, Jobs jobs, Stand stand, Order order, Work<T> work)
      throws FixtureException, StoppedException {
    Upkeep upkeep = new Upkeep(jobs.log(), stand, order);
    here.stops().accept(Optional.of(upkeep::stop));
    return work.with(upkeep);
  }

  /** Nothing but the fixture matters where no stack file is given. */
  private static Specimen sound() {
    return new Specimen("", 1, Defects.NONE, List.of(), List.of());
  }

  private static Specimen named(Specimen specimen, String variant) {
    return new Specimen(
        specimen.variant().isEmpty() ? variant : specimen.variant(),
        specimen.seed(),
        specimen.defects(),
        specimen.outcomes(),
        specimen.troubles());
  }
}

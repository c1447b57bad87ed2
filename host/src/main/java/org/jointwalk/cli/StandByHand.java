package org.jointwalk.cli;

import java.io.PrintWriter;
import java.security.SecureRandom;
import java.util.Optional;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.link.LinkFixture;
import org.jointwalk.link.LinkSettings;
import org.jointwalk.link.Port;
import org.jointwalk.link.Ticks;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.SetUp;
import org.jointwalk.upkeep.Stand;
import org.jointwalk.upkeep.StoppedException;

/**
 * A real fixture and the person before it. Where nobody is at the terminal, what the command needs
 * first is taken to lie in the fixture, and nothing else can be laid into it. One thread.
 */
final class StandByHand implements Stand, AutoCloseable {

  private final Port port;
  private final LinkSettings settings;
  private final MapOptions.Maps maps;
  private final PrintWriter err;
  private final Surroundings here;
  private Optional<LinkFixture> open = Optional.empty();

  StandByHand(
      Port port, LinkSettings settings, MapOptions.Maps maps, PrintWriter err, Surroundings here) {
    this.port = port;
    this.settings = settings;
    this.maps = maps;
    this.err = err;
    this.here = here;
  }

  @Override
  public Fixture lay(SetUp setUp) throws FixtureException, StoppedException {
    if (here.terminal()) {
      err.println(
          (setUp.shorted()
                  ? "Lay the clean shorting plate into the fixture, no board with it, and close the"
                      + " lid without forcing it"
                  : "Take everything out of the fixture and close the lid")
              + ", then press Enter.");
      err.flush();
      here.enter().run();
    } else if (open.isPresent()) {
      throw new StoppedException(
          "Nobody is at the terminal to lay "
              + setUp.title()
              + " into the fixture. Start the command where somebody can answer it.");
    }
    close();
    LinkFixture fixture =
        LinkFixture.open(
            port,
            new Assembly(maps.map(), maps.interposer(), setUp),
            maps.fixtureMap(),
            Ticks.ofThisComputer(),
            new SecureRandom(),
            settings);
    open = Optional.of(fixture);
    return fixture;
  }

  @Override
  public boolean again() throws FixtureException {
    if (!here.terminal() || open.isEmpty()) {
      return false;
    }
    err.println(
        "Open the lid, lift what lies there and lay it back, close the lid, then press Enter.");
    err.flush();
    here.enter().run();
    open.get().seatedByWord();
    return !open.get().lidOpen();
  }

  @Override
  public boolean hasLid() {
    return open.map(LinkFixture::hasLid).orElse(false);
  }

  @Override
  public void progress(String what, int taken, int of) {
    if (here.terminal()) {
      err.print("\r" + what + "  " + taken + " of " + of + (taken == of ? "\n" : "   "));
      err.flush();
    } else if (taken == of) {
      err.println(what + ": " + Sentences.count(of, "reading"));
    }
  }

  @Override
  public void remark(String text) {
    err.println(text);
  }

  @Override
  public void close() {
    open.ifPresent(LinkFixture::close);
    open = Optional.empty();
  }
}

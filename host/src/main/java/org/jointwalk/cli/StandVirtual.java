package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.SetUp;
import org.jointwalk.upkeep.Stand;

/** A virtual fixture into which things are laid by themselves. One thread. */
final class StandVirtual implements Stand {

  private final VirtualFixture fixture;
  private final PrintWriter err;

  StandVirtual(VirtualFixture fixture, PrintWriter err) {
    this.fixture = fixture;
    this.err = err;
  }

  @Override
  public Fixture lay(SetUp setUp) {
    fixture.clamp(setUp, List.of());
    err.println("In the virtual fixture: " + setUp.title() + ".");
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
    if (taken == of) {
      err.println(what + ": " + Sentences.count(of, "reading"));
    }
  }

  @Override
  public void remark(String text) {
    err.println(text);
  }
}

package org.jointwalk.upkeep;

import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.stack.SetUp;

/** The person at the fixture, with the fixture. Called on the thread of the work, but for stop. */
public interface Stand {

  /**
   * Has something put into the fixture and the lid closed.
   *
   * @return the fixture with it
   * @throws StoppedException when nobody will
   */
  Fixture lay(SetUp setUp) throws FixtureException, StoppedException;

  /**
   * Has the lid opened, what lies there lifted and laid back, and the lid closed.
   *
   * @return false when nobody will
   */
  boolean again() throws FixtureException;

  /** Whether the fixture can tell that its lid was opened. */
  boolean hasLid();

  /** Tells how far the work is. */
  void progress(String what, int taken, int of);

  /** Something worth saying that does not stop the work. */
  void remark(String text);
}

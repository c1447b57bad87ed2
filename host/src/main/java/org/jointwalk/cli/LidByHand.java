package org.jointwalk.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.link.LinkFixture;

/**
 * Asks the person at the fixture to seat the parts again, and sees whether it was done. One thread,
 * but for {@link #stop}.
 */
final class LidByHand implements Lid {

  /** Nobody opens a lid that was asked for so often. */
  private static final int ASKED = 3;

  private final LinkFixture fixture;
  private final PrintWriter err;
  private final boolean terminal;
  private final Runnable enter;
  private final CompletableFuture<Void> stopped = new CompletableFuture<>();

  /**
   * @param terminal whether somebody reads what is asked
   * @param enter waits until that person says that it is done
   */
  LidByHand(LinkFixture fixture, PrintWriter err, boolean terminal, Runnable enter) {
    this.fixture = fixture;
    this.err = err;
    this.terminal = terminal;
    this.enter = enter;
  }

  @Override
  public boolean again(List<String> positions) {
    String why =
        positions.isEmpty()
            ? "no ground was found in this seating"
            : "to tell joints from contacts at " + AtFixture.some(positions);
    if (!terminal) {
      err.println("Not seated again (" + why + "): nobody is at the terminal.");
      return false;
    }
    try {
      Clamping before = fixture.clamping();
      err.println("SEAT AGAIN  " + why + ".");
      for (int i = 0; i < ASKED; i++) {
        err.println(
            fixture.hasLid()
                ? "Open the lid, lift the parts and put them back, close the lid without forcing"
                    + " it, then press Enter."
                : "Lift the parts, put them back, clamp them, then press Enter.");
        err.flush();
        if (!isEntered()) {
          return false;
        }
        if (seated(before)) {
          return true;
        }
      }
    } catch (FixtureException e) {
      err.println(e.getMessage());
    }
    return false;
  }

  /** Whether the key was pressed. A wait for a key cannot be ended, so another thread has it. */
  private boolean isEntered() {
    CompletableFuture<Void> pressed = CompletableFuture.runAsync(enter, LidByHand::background);
    CompletableFuture.anyOf(pressed, stopped).join();
    return !stopped.isDone();
  }

  private static void background(Runnable task) {
    Thread thread = new Thread(task, "waits for Enter");
    thread.setDaemon(true);
    thread.start();
  }

  @Override
  public void stop() {
    stopped.complete(null);
  }

  private boolean seated(Clamping before) throws FixtureException {
    fixture.seatedByWord();
    if (fixture.clamping().equals(before)) {
      err.println("The fixture has not seen its lid open, so nothing was seated again.");
      return false;
    }
    if (fixture.lidOpen()) {
      err.println("The lid is still open.");
      return false;
    }
    return true;
  }
}

package org.jointwalk.protocol;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Kind;

/** Which channels a fixture has proved bare since the last DECLARE (M58). Not thread-safe. */
public final class Proofs {

  private static final int MOST_AMP = 100_000;
  private static final int LEAST_VOLT = 90_000_000;
  private static final int METAL_VOLT = 1_000_000;

  private final Set<Integer> proved = new HashSet<>();

  /** The channels that are proved bare now. */
  public Set<Integer> proved() {
    return Set.copyOf(proved);
  }

  /** Forgets everything: another declaration, or an opened lid. */
  public void forget() {
    proved.clear();
  }

  /**
   * Learns from a step that was dealt with.
   *
   * @param step as it was loaded
   * @param declaration in force
   * @param taken what came of it
   */
  public void learn(ProgramReader.Loaded step, Declaration declaration, Taken taken) {
    step.setting()
        .filter(setting -> setting.kind() == Kind.JUNCTION)
        .ifPresent(setting -> learn(setting, step, step.lowChannels(declaration), taken));
  }

  private void learn(
      Streamed.Setting setting, ProgramReader.Loaded step, List<Integer> low, Taken taken) {
    if (taken instanceof Taken.Measured measured
        && measured.points().stream().anyMatch(point -> Math.abs(point.volt()) > METAL_VOLT)) {
      step.forceHigh().forEach(proved::remove);
      low.forEach(proved::remove);
      return;
    }
    boolean counts =
        !(taken instanceof Taken.Refused)
            && setting.voltage() >= LEAST_VOLT
            && setting.currents().stream().allMatch(amp -> Math.abs(amp) <= MOST_AMP);
    for (List<Integer> terminal : List.of(step.forceHigh(), low)) {
      if (counts && terminal.size() == 1) {
        proved.add(terminal.get(0));
      }
    }
  }
}

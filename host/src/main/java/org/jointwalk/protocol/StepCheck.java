package org.jointwalk.protocol;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Range;
import org.jointwalk.fixture.Switching;

/**
 * What a fixture looks at before it takes a step (section 11 of the specification), in the order in
 * which it names the reasons. What only hardware knows, power and voltage that is already there, is
 * left to it. Immutable.
 */
public final class StepCheck {

  private static final int MOST_MICROS = 500_000;
  private static final int MOST_JUNCTION_DWELL = 20_000;
  private static final int MOST_QUIET_DWELL = 10_000_000;

  private final Capabilities able;
  private final int channels;

  /**
   * @param able what the fixture can do; without buses of their own, every channel reaches each
   * @param channels how many it has
   */
  public StepCheck(Capabilities able, int channels) {
    this.able = able;
    this.channels = channels;
  }

  /**
   * Why a step is not taken, empty when nothing speaks against it.
   *
   * @param step as it was loaded
   * @param declaration in force
   * @param proved channels that are proved bare
   */
  public Optional<StepRefusal> refusal(
      ProgramReader.Loaded step, Declaration declaration, Set<Integer> proved) {
    if (step.setting().isEmpty()) {
      return Optional.of(StepRefusal.SETTING);
    }
    if (!step.complete()) {
      return Optional.of(StepRefusal.SET);
    }
    Streamed.Setting setting = step.setting().get();
    Optional<Range> range = able.range(setting.kind());
    if (range.isEmpty()) {
      return Optional.of(StepRefusal.KIND);
    }
    return wiring(step, setting, declaration)
        .or(() -> tooMuch(step, setting, range.get(), declaration, proved))
        .or(() -> tooLong(setting, range.get()));
  }

  /** Why steps joined by "together" are not taken together (M54). */
  public Optional<StepRefusal> refusal(List<ProgramReader.Loaded> group, Declaration declaration) {
    Set<Integer> used = new HashSet<>();
    Set<Integer> banks = new HashSet<>();
    boolean apart = group.size() <= able.readers();
    for (ProgramReader.Loaded step : group) {
      Set<Integer> own = new HashSet<>(all(step, declaration));
      Set<Integer> ownBanks = new HashSet<>();
      own.forEach(channel -> ownBanks.add((int) ((long) channel * able.banks() / channels)));
      apart &= own.stream().allMatch(used::add) && ownBanks.stream().allMatch(banks::add);
    }
    return group.size() == 1 || apart ? Optional.empty() : Optional.of(StepRefusal.SWITCHING);
  }

  private Optional<StepRefusal> wiring(
      ProgramReader.Loaded step, Streamed.Setting setting, Declaration declaration) {
    List<Integer> low = step.lowChannels(declaration);
    List<Integer> all = all(step, declaration);
    boolean allOpen = setting.kind() == Kind.ALL_OPEN;
    if (allOpen ? !all.isEmpty() : step.forceHigh().isEmpty() || low.isEmpty()) {
      return Optional.of(StepRefusal.TERMINAL);
    }
    if (all.stream().anyMatch(channel -> channel >= channels)) {
      return Optional.of(StepRefusal.CHANNEL);
    }
    if (all.stream().anyMatch(channel -> declaration.places().get(channel) == 0)) {
      return Optional.of(StepRefusal.UNDECLARED);
    }
    if (meet(step.forceHigh(), low) || meet(step.senseHigh(), step.senseLow())) {
      return Optional.of(StepRefusal.TWICE);
    }
    return joined(step, low) ? Optional.empty() : Optional.of(StepRefusal.SWITCHING);
  }

  private static boolean meet(List<Integer> a, List<Integer> b) {
    return a.stream().anyMatch(b::contains);
  }

  private boolean joined(ProgramReader.Loaded step, List<Integer> low) {
    boolean rest = step.step().forceLow() instanceof Terminal.Rest;
    boolean groups = able.switching().groups();
    boolean restAllowed = groups || able.switching() == Switching.REST_TO_GUARD;
    boolean single =
        step.forceHigh().size() <= 1
            && (rest || low.size() <= 1)
            && step.senseHigh().size() <= 1
            && step.senseLow().size() <= 1;
    return (groups || single) && (restAllowed || !rest);
  }

  private static List<Integer> all(ProgramReader.Loaded step, Declaration declaration) {
    List<Integer> all = new ArrayList<>(step.forceHigh());
    all.addAll(step.lowChannels(declaration));
    all.addAll(step.senseHigh());
    all.addAll(step.senseLow());
    return all;
  }

  private static Optional<StepRefusal> tooMuch(
      ProgramReader.Loaded step,
      Streamed.Setting setting,
      Range range,
      Declaration declaration,
      Set<Integer> proved) {
    Set<Touch.Kind> kinds = EnumSet.noneOf(Touch.Kind.class);
    boolean delicate = false;
    int nominal = Integer.MAX_VALUE;
    for (int channel : all(step, declaration)) {
      Touch touch = declaration.declare().classes().get(declaration.places().get(channel) - 1);
      kinds.add(touch.kind());
      delicate |= touch.delicate();
      nominal = touch.nominal() > 0 ? Math.min(nominal, touch.nominal()) : nominal;
    }
    WireCeiling ceiling = WireCeiling.of(setting.kind(), kinds, delicate, nominal);
    int compliance = Units.volt(range.compliance().value());
    int most = Units.amp(range.current().value());
    if (ceiling.sources() && setting.voltage() > Math.min(compliance, ceiling.volt())) {
      return Optional.of(StepRefusal.VOLTAGE);
    }
    if ((setting.currents().isEmpty() && most > ceiling.amp())
        || setting.currents().stream().anyMatch(c -> Math.abs(c) > Math.min(most, ceiling.amp()))) {
      return Optional.of(StepRefusal.CURRENT);
    }
    if (setting.kind() == Kind.ISOLATION && setting.voltage() > WireCeiling.UNPROVED_VOLT) {
      boolean bare =
          proved.containsAll(step.forceHigh()) && proved.containsAll(step.lowChannels(declaration));
      return bare ? Optional.empty() : Optional.of(StepRefusal.NOT_BARE);
    }
    return Optional.empty();
  }

  private static Optional<StepRefusal> tooLong(Streamed.Setting setting, Range range) {
    long points =
        setting.kind() == Kind.JUNCTION ? setting.currents().size() + 1 : setting.samples();
    long micros = setting.dwell() + points * Units.fine("time", range.seconds(), 1e6);
    boolean fits =
        switch (setting.kind()) {
          case RESIDUAL, RESIDUAL_LOADED, DISCHARGE -> setting.dwell() <= MOST_QUIET_DWELL;
          case JUNCTION -> micros <= MOST_MICROS && setting.dwell() <= MOST_JUNCTION_DWELL;
          case ALL_OPEN, LOW_LEVEL, NORMAL_LEVEL, ISOLATION, CHARGE -> micros <= MOST_MICROS;
        };
    return fits ? Optional.empty() : Optional.of(StepRefusal.TIME);
  }
}

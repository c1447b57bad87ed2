package org.jointwalk.protocol;

import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;

/**
 * A fixture's side of a program: takes the streamed messages of one run in their order, says what
 * is wrong with them, and holds the steps that have no result yet. Not thread-safe.
 */
public final class ProgramReader {

  private final Answer.Welcome limits;
  private final long end;
  private final Map<Integer, Streamed.Setting> settings = new HashMap<>();
  private final Map<Integer, BitSet> sets = new HashMap<>();
  private final Map<Long, Loaded> steps = new HashMap<>();
  private long loaded;

  /**
   * @param limits that the fixture told
   * @param run that begins
   */
  public ProgramReader(Answer.Welcome limits, Request.Run run) {
    this.limits = limits;
    this.loaded = run.first();
    this.end = run.first() + run.count();
  }

  /**
   * A step with what its slots held when it was loaded.
   *
   * @param step as it came
   * @param setting empty when its slot was never filled
   * @param forceHigh channels, ascending
   * @param forceLow channels, ascending; empty for the rest
   * @param senseHigh channels, ascending
   * @param senseLow channels, ascending
   * @param complete false when a set was never filled
   */
  public record Loaded(
      WireStep step,
      Optional<Streamed.Setting> setting,
      List<Integer> forceHigh,
      List<Integer> forceLow,
      List<Integer> senseHigh,
      List<Integer> senseLow,
      boolean complete) {

    public Loaded {
      forceHigh = List.copyOf(forceHigh);
      forceLow = List.copyOf(forceLow);
      senseHigh = List.copyOf(senseHigh);
      senseLow = List.copyOf(senseLow);
    }

    /** The channels of force-low, the rest written out. */
    public List<Integer> lowChannels(Declaration declaration) {
      if (!(step.forceLow() instanceof Terminal.Rest)) {
        return forceLow;
      }
      Set<Integer> rest = new TreeSet<>(declaration.forcible());
      List.of(forceHigh, senseHigh, senseLow).forEach(rest::removeAll);
      return List.copyOf(rest);
    }

    /**
     * The step in contacts; empty when something was never filled or a channel forces no contact.
     *
     * @param wiring of the fixture
     * @param declaration in force
     */
    public Optional<Step> inContacts(Wiring wiring, Declaration declaration) {
      List<Contact> high = contacts(wiring, forceHigh);
      List<Contact> low = contacts(wiring, lowChannels(declaration));
      boolean whole =
          complete
              && high.size() == forceHigh.size()
              && low.size() == lowChannels(declaration).size();
      return setting
          .filter(s -> whole)
          .map(
              s ->
                  new Step(
                      s.kind(),
                      high,
                      low,
                      s.currents().stream().map(amp -> new Amps(Units.amps(amp))).toList(),
                      new Volts(Units.volts(s.voltage())),
                      s.samples(),
                      extend(s)));
    }

    private static Optional<Extend> extend(Streamed.Setting s) {
      return s.kind().isResistance() && s.most() > s.samples()
          ? Optional.of(new Extend(s.most(), ohms(s.limit()), ohms(s.below()), ohms(s.above())))
          : Optional.empty();
    }

    private static Ohms ohms(long micro) {
      return new Ohms(micro / 1e6);
    }

    private static List<Contact> contacts(Wiring wiring, List<Integer> channels) {
      return channels.stream().flatMap(channel -> wiring.contact(channel).stream()).toList();
    }
  }

  /** Index of the first step not yet loaded. */
  public long loaded() {
    return loaded;
  }

  /** A loaded step, empty when its index is not loaded or its result was reported. */
  public Optional<Loaded> step(long index) {
    return Optional.ofNullable(steps.get(index));
  }

  /**
   * Takes the next streamed message.
   *
   * @param message of this run, next in the stream
   * @param done index of the first step without a result; what lies before is forgotten
   * @return what is wrong, which ends the run; empty when nothing is
   */
  public Optional<ProgramFault> take(Streamed message, long done) {
    steps.keySet().removeIf(index -> index < done);
    if (message instanceof Streamed.Setting setting) {
      return take(setting);
    }
    if (message instanceof Streamed.SetBits bits) {
      return fill(bits);
    }
    if (message instanceof Streamed.SetChange change) {
      return change(change);
    }
    return message instanceof Streamed.Steps more ? load(more, done) : Optional.empty();
  }

  private Optional<ProgramFault> take(Streamed.Setting setting) {
    if (setting.slot() >= limits.settings()) {
      return Optional.of(ProgramFault.SLOT);
    }
    if (setting.most() > limits.points()) {
      return Optional.of(ProgramFault.UNREADABLE);
    }
    if (setting.items().stream().anyMatch(item -> !item.mayBeIgnored())) {
      return Optional.of(ProgramFault.UNKNOWN);
    }
    if (steps.values().stream().anyMatch(step -> step.step().setting() == setting.slot())) {
      return Optional.of(ProgramFault.IN_USE);
    }
    settings.put(setting.slot(), setting);
    return Optional.empty();
  }

  private Optional<ProgramFault> fill(Streamed.SetBits message) {
    if (message.slot() >= limits.sets() || (message.more() && !sets.containsKey(message.slot()))) {
      return Optional.of(ProgramFault.SLOT);
    }
    BitSet content = message.more() ? copy(message.slot()) : new BitSet();
    BitSet added = BitSet.valueOf(message.bits().toArray());
    added.stream().forEach(bit -> content.set(message.first() + bit));
    return put(message.slot(), content);
  }

  private Optional<ProgramFault> change(Streamed.SetChange message) {
    if (message.slot() >= limits.sets() || !sets.containsKey(message.base())) {
      return Optional.of(ProgramFault.SLOT);
    }
    if (message.channels().stream().anyMatch(channel -> channel >= limits.channels())) {
      // Named twice it would be out again, but a fixture that lacks it cannot say so (M49).
      return Optional.of(ProgramFault.UNREADABLE);
    }
    BitSet content = copy(message.base());
    message.channels().forEach(content::flip);
    return put(message.slot(), content);
  }

  private BitSet copy(int slot) {
    BitSet copy = new BitSet();
    copy.or(sets.getOrDefault(slot, new BitSet()));
    return copy;
  }

  private Optional<ProgramFault> put(int slot, BitSet content) {
    if (content.length() > limits.channels()) {
      return Optional.of(ProgramFault.UNREADABLE);
    }
    Terminal needed = new Terminal.Group(slot);
    if (steps.values().stream().anyMatch(loaded -> terminals(loaded.step()).contains(needed))) {
      return Optional.of(ProgramFault.IN_USE);
    }
    sets.put(slot, content);
    return Optional.empty();
  }

  private static List<Terminal> terminals(WireStep step) {
    return List.of(step.forceHigh(), step.forceLow(), step.senseHigh(), step.senseLow());
  }

  private Optional<ProgramFault> load(Streamed.Steps message, long done) {
    long after = loaded + message.steps().size();
    if (message.first() != loaded || after > end) {
      return Optional.of(ProgramFault.INDEX);
    }
    if (after - done > limits.steps()) {
      return Optional.of(ProgramFault.ROOM);
    }
    for (WireStep step : message.steps()) {
      steps.put(loaded++, loaded(step));
    }
    return Optional.empty();
  }

  private Loaded loaded(WireStep step) {
    boolean complete =
        terminals(step).stream()
            .noneMatch(t -> t instanceof Terminal.Group g && !sets.containsKey(g.slot()));
    return new Loaded(
        step,
        Optional.ofNullable(settings.get(step.setting())),
        channels(step.forceHigh()),
        channels(step.forceLow()),
        channels(step.senseHigh()),
        channels(step.senseLow()),
        complete);
  }

  private List<Integer> channels(Terminal terminal) {
    if (terminal instanceof Terminal.Channel channel) {
      return List.of(channel.number());
    }
    if (terminal instanceof Terminal.Group group) {
      return sets.getOrDefault(group.slot(), new BitSet()).stream().boxed().toList();
    }
    return List.of();
  }
}

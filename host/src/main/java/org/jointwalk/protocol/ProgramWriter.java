package org.jointwalk.protocol;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.jointwalk.fixture.Extend;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Contact;

/**
 * Turns a scan into the streamed messages of a run, one after the other, never more than the
 * fixture has room for: a setting or set is sent before the first step that needs it, and its slot
 * is used again only when the last one that needs it has its result. Not thread-safe.
 */
public final class ProgramWriter {

  private final long run;
  private final Scan scan;
  private final Wiring wiring;
  private final Set<Integer> forcible;
  private final Answer.Welcome limits;
  private final Slots<Streamed.Setting> settings;
  private final Slots<Set<Integer>> sets;
  private final Deque<Streamed> waiting = new ArrayDeque<>();
  private int next;

  /**
   * @param run id of the run
   * @param scan to be sent
   * @param wiring that has a channel for each of its contacts
   * @param declaration in force
   * @param limits of the fixture
   */
  public ProgramWriter(
      long run, Scan scan, Wiring wiring, Declaration declaration, Answer.Welcome limits) {
    this.run = run;
    this.scan = scan;
    this.wiring = wiring;
    this.forcible = declaration.forcible();
    this.limits = limits;
    settings = new Slots<>(limits.settings());
    sets = new Slots<>(limits.sets());
    next = scan.first();
  }

  /** The channels of the four terminals of a step, and whether its low side is the rest. */
  private record Sides(
      Set<Integer> forceHigh,
      Set<Integer> forceLow,
      Set<Integer> senseHigh,
      Set<Integer> senseLow,
      boolean rest) {

    List<Set<Integer>> groups() {
      List<Set<Integer>> groups = new ArrayList<>();
      for (Set<Integer> side : List.of(forceHigh, rest ? Set.<Integer>of() : forceLow)) {
        if (side.size() > 1) {
          groups.add(side);
        }
      }
      for (Set<Integer> side : List.of(senseHigh, senseLow)) {
        if (side.size() > 1) {
          groups.add(side);
        }
      }
      return groups;
    }
  }

  /** Whether every step has been handed out. */
  public boolean finished() {
    return waiting.isEmpty() && next == end();
  }

  /**
   * The next message of the stream, empty when there is none or no room for one.
   *
   * @param done index of the first step that is not known to have a result
   * @throws IllegalArgumentException when a step cannot be said in version 1 to this fixture
   */
  public Optional<Streamed> next(long done) {
    if (waiting.isEmpty()) {
      prepare(done);
    }
    return Optional.ofNullable(waiting.poll());
  }

  private int end() {
    return scan.first() + scan.steps().size();
  }

  private void prepare(long done) {
    List<WireStep> ready = new ArrayList<>();
    int first = next;
    int room = Streamed.Steps.MOST_BYTES;
    while (next < end() && next < done + limits.steps()) {
      Step step = scan.step(next);
      Streamed.Setting setting = setting(step);
      Sides sides = sides(step);
      OptionalInt slot = settings.find(setting);
      boolean defined =
          slot.isPresent() && sides.groups().stream().allMatch(g -> sets.find(g).isPresent());
      if (!defined) {
        if (ready.isEmpty()) {
          define(setting, sides, done);
        }
        break;
      }
      WireStep wire = wire(slot.getAsInt(), sides);
      room -= wire.size();
      if (room < 0) {
        break;
      }
      settings.need(slot.getAsInt(), next);
      sides.groups().forEach(g -> sets.need(sets.find(g).getAsInt(), next));
      ready.add(wire);
      next++;
    }
    if (!ready.isEmpty()) {
      waiting.add(new Streamed.Steps(run, first, ready));
    }
  }

  /** Sends what the next step lacks, as far as slots are free. */
  private void define(Streamed.Setting setting, Sides sides, long done) {
    settings.find(setting).ifPresent(slot -> settings.need(slot, next));
    for (Set<Integer> group : sides.groups()) {
      sets.find(group).ifPresent(slot -> sets.need(slot, next));
    }
    if (settings.find(setting).isEmpty()) {
      settings
          .idle(done)
          .ifPresent(
              slot -> {
                waiting.add(setting.at(run, slot));
                settings.fill(slot, setting);
                settings.need(slot, next);
              });
    }
    for (Set<Integer> group : sides.groups()) {
      if (sets.find(group).isEmpty()) {
        sets.idle(done)
            .ifPresent(
                slot -> {
                  waiting.addAll(SetText.fill(run, slot, group, sets));
                  sets.fill(slot, group);
                  sets.need(slot, next);
                });
      }
    }
  }

  private Streamed.Setting setting(Step step) {
    if (step.samples() > limits.points()) {
      throw new IllegalArgumentException(
          "step " + next + " asks for more points than the fixture's " + limits.points());
    }
    return new Streamed.Setting(
        run,
        0,
        step.kind(),
        false,
        step.samples(),
        most(step),
        Units.volt(step.compliance().value()),
        step.currents().stream().map(Amps::value).map(Units::amp).toList(),
        0,
        extended(step, Extend::limit),
        extended(step, Extend::below),
        extended(step, Extend::above),
        List.of());
  }

  private int most(Step step) {
    int most = step.extend().map(Extend::most).orElse(step.samples());
    return Math.min(most, limits.points());
  }

  private static long extended(Step step, Function<Extend, Ohms> which) {
    return step.extend().map(which).map(Extension::micro).orElse(0L);
  }

  private Sides sides(Step step) {
    Set<Integer> high = forced(step.high());
    Set<Integer> low = forced(step.low());
    Set<Integer> others = new TreeSet<>(forcible);
    others.removeAll(high);
    boolean rest = low.size() > 1 && low.equals(others);
    if (limits.sets() == 0 && (high.size() > 1 || (low.size() > 1 && !rest))) {
      throw new IllegalArgumentException(
          "step " + next + " joins channels, which this fixture cannot do");
    }
    return new Sides(high, low, sensed(step.high()), rest ? Set.of() : sensed(step.low()), rest);
  }

  private Set<Integer> forced(List<Contact> contacts) {
    Set<Integer> channels = new TreeSet<>();
    for (Contact contact : contacts) {
      OptionalInt channel = wiring.force(contact);
      if (channel.isEmpty()) {
        throw new IllegalArgumentException(
            "step " + next + ": no working channel is wired to " + contact);
      }
      channels.add(channel.getAsInt());
    }
    return channels;
  }

  /** The sense wires of contacts, none unless all of them have one. */
  private Set<Integer> sensed(List<Contact> contacts) {
    Set<Integer> channels = new TreeSet<>();
    for (Contact contact : contacts) {
      wiring.sense(contact).ifPresent(channels::add);
    }
    return channels.size() == contacts.size() ? channels : Set.of();
  }

  private WireStep wire(int setting, Sides sides) {
    return new WireStep(
        setting,
        false,
        terminal(sides.forceHigh()),
        sides.rest() ? new Terminal.Rest() : terminal(sides.forceLow()),
        terminal(sides.senseHigh()),
        terminal(sides.senseLow()));
  }

  private Terminal terminal(Set<Integer> channels) {
    return switch (channels.size()) {
      case 0 -> new Terminal.Nothing();
      case 1 -> new Terminal.Channel(channels.iterator().next());
      default -> new Terminal.Group(sets.find(channels).getAsInt());
    };
  }
}

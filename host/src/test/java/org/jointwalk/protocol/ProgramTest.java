package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

class ProgramTest {

  /** Sends a scan to a reader that takes steps at its own pace, and gives back what it took. */
  private static List<Step> through(
      Bench bench, Scan scan, Answer.Welcome limits, RandomGenerator pace) {
    Declaration declaration = bench.declaration();
    ProgramWriter writer = new ProgramWriter(9, scan, bench.wiring(), declaration, limits);
    ProgramReader reader =
        new ProgramReader(limits, new Request.Run(9, scan.first(), scan.steps().size(), 0, 0));
    List<Step> taken = new ArrayList<>();
    long done = scan.first();
    int idle = 0;
    while (taken.size() < scan.steps().size()) {
      Optional<Streamed> message = pace.nextInt(3) == 0 ? Optional.empty() : writer.next(done);
      if (message.isPresent()) {
        new Frame(1, 1, message.get()).encode();
        assertThat(reader.take(message.get(), done)).as(message.toString()).isEmpty();
      }
      boolean measured = pace.nextBoolean() && done < reader.loaded();
      if (measured) {
        taken.add(
            reader.step(done).orElseThrow().inContacts(bench.wiring(), declaration).orElseThrow());
        done++;
      }
      idle = message.isPresent() || measured ? 0 : idle + 1;
      assertThat(idle).as("rounds in which nothing went on").isLessThan(200);
    }
    assertThat(writer.finished()).isTrue();
    assertThat(writer.next(done)).isEmpty();
    return taken;
  }

  private static Scan scan(Bench bench, RandomGenerator random, int count) {
    boolean groups = bench.fixture().capabilities().switching().groups();
    boolean rest = bench.fixture().capabilities().switching() == Switching.REST_TO_GUARD;
    List<Step> steps = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      steps.add(bench.step(random, groups, rest));
    }
    return new Scan("lower-board", random.nextInt(3) * 1000, steps);
  }

  @Test
  void everyScanArrivesStepByStepAsItWasPlannedWhateverThePace() {
    Trials.of(
        120,
        random -> {
          Switching switching =
              List.of(Switching.MULTIPLEXER, Switching.REST_TO_GUARD, Switching.MATRIX)
                  .get(random.nextInt(3));
          Bench bench = new Bench("lower-board", switching, random.nextBoolean());
          int sets = switching == Switching.MATRIX ? random.nextInt(4, 9) : 0;
          Answer.Welcome limits = bench.limits(random.nextInt(16, 64), random.nextInt(8, 17), sets);
          Scan scan = scan(bench, random, 150);

          assertThat(through(bench, scan, limits, random)).isEqualTo(scan.steps());
        });
  }

  @Test
  void pairsTakeThirtyEightToAFrameAndKelvinPairsTwentyThree() {
    for (boolean sense : List.of(false, true)) {
      Bench bench = new Bench("lower-board", Switching.MULTIPLEXER, sense);
      List<Step> steps = new ArrayList<>();
      while (steps.size() < 100) {
        Step step = bench.step(Trials.random(steps.size()), false, false);
        Step pair = bench.step(Trials.random(1), false, false);
        steps.add(step.kind() == pair.kind() ? step : pair);
      }
      ProgramWriter writer =
          new ProgramWriter(
              1,
              Scan.of("lower-board", steps),
              bench.wiring(),
              bench.declaration(),
              bench.limits(100, 8, 0));
      List<Integer> sizes = new ArrayList<>();
      Optional<Streamed> next = writer.next(0);
      while (next.isPresent()) {
        if (next.get() instanceof Streamed.Steps some) {
          sizes.add(some.steps().size());
        }
        next = writer.next(0);
      }
      assertThat(sizes.stream().mapToInt(Integer::intValue).max()).hasValue(sense ? 23 : 38);
    }
  }

  @Test
  void setThatDiffersLittleIsSentAsAChange() {
    Bench bench = new Bench("lower-board", Switching.MATRIX, false);
    Slots<Set<Integer>> slots = new Slots<>(4);
    Set<Integer> all = new TreeSet<>();
    for (int i = 0; i < 1200; i++) {
      all.add(i);
    }
    assertThat(SetText.fill(1, 0, all, slots)).hasSize(1);
    slots.fill(0, all);
    Set<Integer> fewer = new TreeSet<>(all);
    fewer.remove(7);
    fewer.add(1500);

    assertThat(SetText.fill(1, 1, fewer, slots))
        .containsExactly(new Streamed.SetChange(1, 1, 0, List.of(7, 1500)));
    assertThat(bench.channels()).isPositive();
  }

  @Test
  void stepThatJoinsChannelsIsNotSaidToAFixtureThatCannot() {
    Bench bench = new Bench("lower-board", Switching.MATRIX, false);
    Scan scan = scan(bench, Trials.random(3), 60);
    ProgramWriter writer =
        new ProgramWriter(1, scan, bench.wiring(), bench.declaration(), bench.limits(100, 16, 0));

    assertThatThrownBy(
            () -> {
              Optional<Streamed> next = writer.next(0);
              while (next.isPresent()) {
                next = writer.next(0);
              }
            })
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("joins channels, which this fixture cannot do");
  }

  private static final Bench SMALL = new Bench("lower-board", Switching.MATRIX, false);

  private static ProgramReader reader() {
    return new ProgramReader(SMALL.limits(16, 8, 4), new Request.Run(1, 0, 40, 0, 0));
  }

  private static Streamed.Setting setting(int slot, List<Item> items) {
    return new Streamed.Setting(
        1, slot, Kind.RESIDUAL, false, 1, 1, 0, List.of(), 0, 0, 0, 0, items);
  }

  private static Streamed.Steps steps(long first, int count, Terminal high) {
    List<WireStep> steps = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      steps.add(
          new WireStep(
              3,
              false,
              high,
              new Terminal.Channel(1),
              new Terminal.Nothing(),
              new Terminal.Nothing()));
    }
    return new Streamed.Steps(1, first, steps);
  }

  @Test
  void everyFaultOfAProgramIsFoundAndNamed() {
    ProgramReader reader = reader();
    Terminal channel = new Terminal.Channel(0);
    Bytes bits = Bytes.ofHex("0f");

    assertThat(reader.take(setting(8, List.of()), 0)).contains(ProgramFault.SLOT);
    assertThat(reader.take(setting(0, List.of(new Item(0x7F, Bytes.NONE))), 0))
        .contains(ProgramFault.UNKNOWN);
    assertThat(reader.take(setting(0, List.of(new Item(0x80, Bytes.NONE))), 0)).isEmpty();
    assertThat(reader.take(setting(3, List.of()), 0)).isEmpty();
    assertThat(reader.take(new Streamed.SetBits(1, 4, false, 0, bits), 0))
        .contains(ProgramFault.SLOT);
    assertThat(reader.take(new Streamed.SetBits(1, 2, true, 0, bits), 0))
        .contains(ProgramFault.SLOT);
    assertThat(reader.take(new Streamed.SetChange(1, 2, 2, List.of()), 0))
        .contains(ProgramFault.SLOT);
    assertThat(reader.take(new Streamed.SetBits(1, 2, false, 65528, bits), 0))
        .contains(ProgramFault.UNREADABLE);
    assertThat(reader.take(new Streamed.SetBits(1, 2, false, 0, bits), 0)).isEmpty();
    assertThat(reader.take(new Streamed.SetChange(1, 2, 2, List.of(60_000, 60_000)), 0))
        .as("a channel that the fixture lacks, named twice")
        .contains(ProgramFault.UNREADABLE);
    assertThat(reader.take(steps(1, 1, channel), 0)).contains(ProgramFault.INDEX);
    assertThat(reader.take(steps(0, 17, channel), 0)).contains(ProgramFault.ROOM);
    assertThat(reader.take(steps(0, 1, new Terminal.Group(2)), 0)).isEmpty();
    assertThat(reader.take(setting(3, List.of()), 0)).contains(ProgramFault.IN_USE);
    assertThat(reader.take(new Streamed.SetChange(1, 2, 2, List.of(1)), 0))
        .contains(ProgramFault.IN_USE);
    assertThat(reader.take(new Streamed.SetChange(1, 2, 2, List.of(1)), 1)).isEmpty();
    assertThat(reader.take(setting(3, List.of()), 1)).isEmpty();
    assertThat(reader.take(steps(1, 16, channel), 1)).isEmpty();
    assertThat(reader.take(steps(17, 16, channel), 17)).isEmpty();
    assertThat(reader.take(steps(33, 8, channel), 33)).contains(ProgramFault.INDEX);
    assertThat(reader.take(steps(33, 7, channel), 33)).isEmpty();
    assertThat(reader.loaded()).isEqualTo(40);
  }

  @Test
  void stepKeepsWhatItsSlotsHeldWhenItWasLoaded() {
    ProgramReader reader = reader();
    assertThat(reader.take(new Streamed.SetBits(1, 0, false, 8, Bytes.ofHex("03")), 0)).isEmpty();
    assertThat(reader.take(new Streamed.SetBits(1, 0, true, 16, Bytes.ofHex("80")), 0)).isEmpty();
    assertThat(reader.take(new Streamed.SetChange(1, 1, 0, List.of(8, 30)), 0)).isEmpty();
    assertThat(reader.take(steps(0, 1, new Terminal.Group(1)), 0)).isEmpty();
    assertThat(reader.take(steps(1, 1, new Terminal.Group(2)), 0)).isEmpty();

    ProgramReader.Loaded first = reader.step(0).orElseThrow();
    assertThat(first.forceHigh()).containsExactly(9, 23, 30);
    assertThat(first.forceLow()).containsExactly(1);
    assertThat(first.setting()).as("slot 3 was never filled").isEmpty();
    assertThat(first.complete()).isTrue();
    assertThat(reader.step(1).orElseThrow().complete()).isFalse();
    assertThat(reader.step(1).orElseThrow().inContacts(SMALL.wiring(), SMALL.declaration()))
        .isEmpty();
    assertThat(reader.step(2)).isEmpty();
  }

  @Test
  void anyStreamAtAllIsTakenOrNamedAFault() {
    Set<String> names = Set.of("SETTING", "SET bits", "SET change", "STEPS", "CREDIT");
    List<Function<RandomGenerator, Message>> drawn =
        RandomMessages.kinds().entrySet().stream()
            .filter(kind -> names.contains(kind.getKey()))
            .map(Map.Entry::getValue)
            .toList();
    Trials.of(
        300,
        random -> {
          ProgramReader reader = reader();
          long done = 0;
          for (int i = 0; i < 60; i++) {
            Message message = drawn.get(random.nextInt(drawn.size())).apply(random);
            Optional<ProgramFault> fault = reader.take((Streamed) message, done);
            assertThat(reader.loaded()).isBetween(0L, 40L);
            done = fault.isEmpty() ? reader.loaded() : done;
          }
        });
  }
}

package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

/** What a fixture sees of a pass: what is sourced into what, and what was read before. */
class PrecautionsTest {

  private static final Set<Kind> SOURCING =
      EnumSet.of(Kind.LOW_LEVEL, Kind.NORMAL_LEVEL, Kind.ISOLATION, Kind.JUNCTION, Kind.CHARGE);

  private static <T> T one(List<T> list, RandomGenerator random) {
    return list.get(random.nextInt(list.size()));
  }

  private static Rig rig(RandomGenerator random) {
    PadMap map = Ring.of(48, 2, 1 + random.nextInt(5));
    String setUp = one(SetUp.all().stream().map(SetUp::name).toList(), random);
    Switching switching = one(List.of(Switching.values()), random);
    Capabilities capabilities =
        random.nextBoolean()
            ? Instruments.ideal(switching)
            : Instruments.round(switching, one(List.of(Kelvin.values()), random));
    Rig rig =
        new Rig(
            map, setUp, capabilities, Damage.draw(map, SetUp.named(setUp).orElseThrow(), random));
    int misses = random.nextInt(4) == 0 ? 12 : random.nextInt(3);
    List<Contact> contacts = new ArrayList<>(rig.assembly().contacts());
    for (int i = 0; i < misses && !contacts.isEmpty(); i++) {
      Contact missed = contacts.remove(random.nextInt(contacts.size()));
      int seating = 1 + random.nextInt(3);
      rig.fixture().miss(seating, missed);
    }
    return rig;
  }

  @Test
  void everyStepStaysBelowItsCeilingsAndWithinItsRange() {
    Trials.of(
        60,
        random -> {
          Rig rig = rig(random);
          rig.run();
          Ceilings ceilings = new Ceilings(rig.assembly());
          Capabilities capabilities = rig.fixture().capabilities();
          for (PlainFixture.Taken taken : rig.fixture().taken()) {
            Step step = taken.step();
            if (step.kind() == Kind.ALL_OPEN) {
              continue;
            }
            List<Contact> all = new ArrayList<>(step.high());
            all.addAll(step.low());
            Amps most =
                Amps.min(
                    ceilings.current(step.kind(), all),
                    capabilities.range(step.kind()).orElseThrow().current());
            assertThat(step.currents()).as("%s", step).allMatch(a -> a.compareTo(most) <= 0);
            assertThat(step.compliance().value())
                .as("%s", step)
                .isLessThanOrEqualTo(ceilings.volts(step.kind(), all).value());
            assertThat(new HashSet<>(all)).as("%s", step).hasSameSizeAs(all);
            assertThat(rig.assembly().contacts()).containsAll(all);
            if (capabilities.switching() != Switching.MATRIX) {
              assertThat(step.isPair()).as("%s", step).isTrue();
            }
          }
        });
  }

  /** In every seating: the instrument, a ground, every rail, and only then anything else. */
  @Test
  void nothingIsSourcedBeforeAGroundIsProvenAndEveryRailIsRead() {
    Trials.of(
        80,
        random -> {
          Rig rig = rig(random);
          rig.run();
          if (!rig.assembly().setUp().bare()) {
            List<PlainFixture.Taken> taken = rig.fixture().taken();
            Set<Integer> seatings = new HashSet<>();
            taken.forEach(t -> seatings.add(t.seating()));
            for (int seating : seatings) {
              inOrder(
                  rig,
                  taken.stream()
                      .filter(t -> t.seating() == seating)
                      .map(PlainFixture.Taken::step)
                      .toList());
            }
          }
        });
  }

  private static void inOrder(Rig rig, List<Step> steps) {
    Assembly assembly = rig.assembly();
    boolean proven = false;
    Set<NetId> read = new HashSet<>();
    assertThat(steps.get(0).kind()).isEqualTo(Kind.ALL_OPEN);
    for (Step step : steps) {
      boolean amongGrounds =
          step.isPair()
              && assembly.isGround(step.a())
              && assembly.home(step.a()).equals(assembly.home(step.b()));
      if (amongGrounds && step.kind() == Kind.LOW_LEVEL) {
        proven |= rig.fixture().conducts(step.a(), step.b());
      } else if (step.kind() == Kind.RESIDUAL) {
        assertThat(proven).as("%s", step).isTrue();
        assembly.net(step.a()).ifPresent(n -> read.add(n.id()));
      } else if (SOURCING.contains(step.kind())) {
        assertThat(proven).as("%s", step).isTrue();
        List<Contact> all = new ArrayList<>(step.high());
        all.addAll(step.low());
        for (Contact contact : all) {
          assembly
              .net(contact)
              .filter(n -> n.role() == Role.RAIL)
              .ifPresent(n -> assertThat(read).as("%s", step).contains(n.id()));
        }
      }
    }
  }

  private static Rig lower(Capabilities capabilities) {
    return new Rig(Ring.of(48, 2, 1), "lower-board", capabilities, Defects.NONE);
  }

  private static Contact rail(Rig rig) {
    return rig.assembly().contacts().stream()
        .filter(c -> rig.assembly().net(c).filter(n -> n.role() == Role.RAIL).isPresent())
        .findFirst()
        .orElseThrow();
  }

  private static final Capabilities ALL = Instruments.ideal(Switching.MULTIPLEXER);

  @Test
  void aChargedRailIsDischargedAndThenRead() throws Exception {
    Rig rig = lower(ALL);
    rig.fixture().charge(rail(rig), new Volts(0.03), 2);
    assertThat(rig.run().findings().anyFault()).isFalse();
    assertThat(rig.fixture().taken()).filteredOn(t -> t.step().kind() == Kind.DISCHARGE).hasSize(2);
  }

  @Test
  void aRailThatChargesItselfStopsThePass() {
    Rig rig = lower(ALL);
    rig.fixture().charge(rail(rig), new Volts(0.03));
    assertThatThrownBy(rig::run)
        .isInstanceOf(PassException.Unsafe.class)
        .hasMessageContaining("30 mV and comes back");
    assertThat(rig.fixture().taken()).noneMatch(t -> t.step().kind() == Kind.JUNCTION);
  }

  @Test
  void aLiveRailStopsThePassAtOnceEvenWhereNothingCanBeLoaded() {
    Rig live = lower(ALL);
    live.fixture().charge(rail(live), new Volts(3.7));
    assertThatThrownBy(live::run).hasMessageContaining("3.70 V");
    Rig unloaded = lower(Instruments.without(ALL, Kind.RESIDUAL_LOADED));
    unloaded.fixture().charge(rail(unloaded), new Volts(3.7));
    assertThatThrownBy(unloaded::run)
        .isInstanceOf(PassException.Unsafe.class)
        .hasMessageContaining("3.70 V");
    assertThat(unloaded.fixture().taken())
        .noneMatch(t -> t.step().kind() == Kind.ISOLATION || t.step().kind() == Kind.JUNCTION);
  }

  @Test
  void lightOnAJunctionIsRemarkedAndThePassGoesOn() throws Exception {
    Rig rig = lower(ALL);
    rig.fixture().light(rail(rig), new Volts(0.3));
    assertThat(rig.run().findings().anyFault()).isFalse();
    assertThat(rig.remarks()).anyMatch(r -> r.contains("0.30 V that a light load takes away"));
  }

  @Test
  void withoutAVoltageRangeNothingIsReadAndThePassSaysSo() throws Exception {
    Rig rig = lower(Instruments.without(ALL, Kind.RESIDUAL));
    Outcome outcome = rig.run();
    assertThat(rig.fixture().taken())
        .allMatch(t -> t.step().kind() == Kind.ALL_OPEN || t.step().kind() == Kind.LOW_LEVEL);
    assertThat(outcome.findings().anyFault()).isFalse();
    assertThat(outcome.findings().graded(Grade.NOT_TESTED))
        .anyMatch(f -> f.reason().contains("nothing was sourced"));
    assertThat(rig.remarks()).anyMatch(r -> r.contains("could not be shown to be safe"));
    assertThat(rig.asked()).isEmpty();
  }
}

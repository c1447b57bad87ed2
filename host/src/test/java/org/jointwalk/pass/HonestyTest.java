package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

/** What a pass must never say, whatever is drawn. */
class HonestyTest {

  private static final List<String> SET_UPS = SetUp.all().stream().map(SetUp::name).toList();

  private static <T> T one(List<T> list, RandomGenerator random) {
    return list.get(random.nextInt(list.size()));
  }

  /** Whether a via of the bare interposer was told apart from the plating beside it. */
  private static boolean isReadPastPlating(Finding finding) {
    return finding.ohms().isPresent() && finding.reason().contains("past the plating alone");
  }

  private static Capabilities fixture(RandomGenerator random) {
    Switching switching = one(List.of(Switching.MULTIPLEXER, Switching.MATRIX), random);
    return random.nextBoolean()
        ? Instruments.ideal(switching)
        : Instruments.round(switching, one(List.of(Kelvin.values()), random));
  }

  private static Rig rig(RandomGenerator random) {
    PadMap map = Ring.of(48, 2, 1 + random.nextInt(5));
    String setUp = one(SET_UPS, random);
    Defects defects = Damage.draw(map, SetUp.named(setUp).orElseThrow(), random);
    return new Rig(map, setUp, fixture(random), defects);
  }

  @Test
  void whatNoWireReachesAndWhatIsMaskedIsNeverGradedGood() {
    Trials.of(
        60,
        random -> {
          Rig rig = rig(random);
          Set<String> cut = new HashSet<>();
          for (Contact contact : rig.assembly().contacts()) {
            if (contact instanceof Contact.Pad pad && random.nextInt(8) == 0) {
              rig.cut(contact);
              cut.add(pad.position());
            }
          }
          Findings findings = rig.run().findings();
          for (Finding finding : findings.positions()) {
            String id = finding.position();
            boolean seen =
                isReadPastPlating(finding)
                    || (rig.assembly().inBranches(id).containsAll(rig.assembly().present(id))
                        && !rig.assembly().inBranches(id).isEmpty());
            if (cut.contains(id) || !seen) {
              assertThat(finding.grade().isConnected()).as("%s", finding).isFalse();
              assertThat(finding.grade()).as("%s", finding).isNotEqualTo(Grade.OPEN);
            }
          }
        });
  }

  @Test
  void countsAddUpToTheRingAndEveryPositionIsThereOnce() {
    Trials.of(
        60,
        random -> {
          Rig rig = rig(random);
          Findings findings = rig.run().findings();
          assertThat(findings.counts().values().stream().mapToInt(n -> n).sum())
              .isEqualTo(rig.assembly().map().positions().size());
          assertThat(findings.positions())
              .extracting(Finding::position)
              .containsExactlyElementsOf(rig.assembly().map().positions().keySet());
        });
  }

  @Test
  void probesThatMissOnceMakeNoConfirmedOpenAndNoFaultOfASoundStack() {
    Trials.of(
        60,
        random -> {
          PadMap map = Ring.of(48, 2, 1 + random.nextInt(5));
          Rig rig = new Rig(map, one(SET_UPS, random), fixture(random), Defects.NONE);
          List<Contact> contacts = new ArrayList<>(rig.assembly().contacts());
          for (int i = 0; i < Math.min(4, contacts.size()); i++) {
            Contact missed = contacts.remove(random.nextInt(contacts.size()));
            rig.fixture().miss(1 + random.nextInt(2), missed);
          }
          Findings findings = rig.run().findings();
          assertThat(findings.positions()).noneMatch(Finding::confirmed);
          assertThat(findings.anyFault()).as("%s", findings.positions()).isFalse();
        });
  }

  @Test
  void everyOpenPathThatCanBeSeenIsFoundAndConfirmed() {
    Trials.of(
        60,
        random -> {
          Rig rig = rig(random);
          Findings findings = rig.run().findings();
          for (Finding finding : findings.positions()) {
            if (finding.grade() == Grade.OPEN) {
              assertThat(finding.confirmed()).as("%s", finding).isTrue();
            }
            if (finding.confirmed()) {
              assertThat(finding.seatings()).isGreaterThan(1);
            }
            if (finding.grade().isFault()) {
              assertThat(finding.among()).as("%s", finding).isNotEmpty();
            } else {
              assertThat(finding.among()).as("%s", finding).isEmpty();
            }
          }
        });
  }

  @Test
  void withoutTheOperatorOpensStayUnconfirmed() {
    Trials.of(
        40,
        random -> {
          Rig rig = rig(random);
          rig.seatAgainAtMost(0);
          Findings findings = rig.run().findings();
          assertThat(findings.positions()).noneMatch(Finding::confirmed);
          assertThat(findings.graded(Grade.OPEN))
              .allMatch(
                  f ->
                      f.reason().contains("no path here: joint or contact") || isReadPastPlating(f))
              .allMatch(f -> f.seatings() == 1);
        });
  }

  /** A bridge may be named at the next pad of its net when its own lies behind a bad path. */
  @Test
  void onlyTheDamageThatWasDoneIsFound() {
    Trials.of(
        60,
        random -> {
          Rig rig = rig(random);
          Findings findings = rig.run().findings();
          for (Finding finding : findings.positions()) {
            Set<Component> damaged = rig.damage().conditions().keySet();
            if (finding.grade() == Grade.BRIDGED) {
              assertThat(damaged).anyMatch(Component.Bridge.class::isInstance);
            } else if (finding.grade().isFault()) {
              assertThat(finding.among())
                  .as("%s of %s", finding, rig.damage())
                  .anyMatch(damaged::contains);
            }
          }
        });
  }
}

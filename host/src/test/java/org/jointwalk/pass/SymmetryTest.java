package org.jointwalk.pass;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.random.RandomGenerator;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Limits;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.Mirror;
import org.jointwalk.trial.Renumbering;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;

/** What must not change a grade. The fixture is ideal, the rings small, the damage drawn. */
class SymmetryTest {

  private static final List<String> SET_UPS =
      List.of(
          "interposer-on-lower", "interposer-on-upper", "lower-board", "upper-board", "interposer");

  private static final Map<Long, PadMap> RINGS = new LinkedHashMap<>();

  /** What is compared of a pass: grades, joined pairs and nets at fault. */
  private static List<String> told(Findings findings, UnaryOperator<String> name) {
    List<String> told = new ArrayList<>();
    findings.positions().forEach(f -> told.add(name.apply(f.position()) + " " + f.grade()));
    for (BridgeFinding bridge : findings.bridges()) {
      told.add("bridge " + new TreeSet<>(List.of(name.apply(bridge.a()), name.apply(bridge.b()))));
    }
    findings.boards().forEach(b -> told.add("board " + b.net().name() + " " + b.fault()));
    return told.stream().sorted().toList();
  }

  private static void assertSame(List<String> before, List<String> after, Case drawn) {
    List<String> gone = new ArrayList<>(before);
    gone.removeAll(after);
    List<String> come = new ArrayList<>(after);
    come.removeAll(before);
    assertThat(come)
        .as("instead of %s, %s with %s", gone, drawn.setUp(), drawn.defects())
        .isEmpty();
    assertThat(gone).isEmpty();
  }

  private static synchronized PadMap ring(long seed) throws Exception {
    if (!RINGS.containsKey(seed)) {
      RINGS.put(seed, Damage.ring(seed));
    }
    return Objects.requireNonNull(RINGS.get(seed));
  }

  private static <T> T one(List<T> list, RandomGenerator random) {
    return list.get(random.nextInt(list.size()));
  }

  private static Capabilities ideal(RandomGenerator random) {
    return Instruments.ideal(random.nextBoolean() ? Switching.MATRIX : Switching.MULTIPLEXER);
  }

  /** A drawn case: a map, a set-up, a fixture and what is wrong. */
  private record Case(PadMap map, String setUp, Capabilities capabilities, Defects defects) {

    static Case draw(RandomGenerator random) throws Exception {
      PadMap map = ring(1 + random.nextInt(3));
      String setUp = one(SET_UPS, random);
      return new Case(
          map, setUp, ideal(random), Damage.draw(map, SetUp.named(setUp).orElseThrow(), random));
    }

    Rig rig() {
      return new Rig(map, setUp, capabilities, defects);
    }
  }

  @Test
  void renumberingPositionsAndShufflingTheMapChangeNoGrade() {
    Trials.of(
        60,
        random -> {
          Case drawn = Case.draw(random);
          Renumbering other = new Renumbering(drawn.map(), random);
          List<String> before = told(drawn.rig().run().findings(), other::of);
          List<String> after =
              told(
                  new Rig(
                          other.map(),
                          drawn.setUp(),
                          drawn.capabilities(),
                          other.of(drawn.defects()))
                      .run()
                      .findings(),
                  id -> id);
          assertSame(before, after, drawn);
        });
  }

  @Test
  void turningTheStackUpsideDownChangesNoGrade() {
    Trials.of(
        60,
        random -> {
          Case drawn = Case.draw(random);
          List<String> before = told(drawn.rig().run().findings(), id -> id);
          List<String> after =
              told(
                  new Rig(
                          Mirror.of(drawn.map()),
                          Mirror.setUp(drawn.setUp()),
                          drawn.capabilities(),
                          Mirror.of(drawn.defects()))
                      .run()
                      .findings(),
                  id -> id);
          assertSame(before, after, drawn);
        });
  }

  private static Interposer scaled(Interposer interposer, double scale) {
    return new Interposer(
        interposer.variant(),
        interposer.thicknessMm(),
        interposer.mirrored(),
        new Ohms(scale * interposer.via().value()),
        interposer.ties().stream()
            .map(tie -> new Tie(tie.where(), tie.positions(), new Ohms(scale * tie.ohms().value())))
            .toList());
  }

  @Test
  void scalingResistancesAndLimitsTogetherChangesNoGrade() {
    Trials.of(
        60,
        random -> {
          Case drawn = Case.draw(random);
          // Bridges and loads are not scaled, nor the voltage that a source runs out of.
          Defects paths = withoutBridges(drawn.defects());
          double scale = Math.exp(random.nextDouble(-2, 0));
          PadMap map = drawn.map();
          Limits limits = map.limits();
          Map<String, Ohms> overrides = new LinkedHashMap<>();
          limits.overrides().forEach((id, o) -> overrides.put(id, new Ohms(scale * o.value())));
          PadMap unlearned =
              new PadMap(
                  map.device(),
                  map.revision(),
                  map.boardNames(),
                  map.interposers().stream().map(x -> scaled(x, scale)).toList(),
                  map.positions(),
                  map.nets(),
                  map.loads(),
                  map.points(),
                  new Limits(
                      new Ohms(scale * limits.signal().value()),
                      new Ohms(scale * limits.power().value()),
                      overrides),
                  List.of());
          PadMap scaled = Damage.learned(unlearned, scale);
          List<String> before =
              told(
                  new Rig(map, drawn.setUp(), drawn.capabilities(), paths).run().findings(),
                  id -> id);
          List<String> after =
              told(
                  new Rig(scaled, drawn.setUp(), drawn.capabilities(), paths, scale)
                      .run()
                      .findings(),
                  id -> id);
          assertSame(before, after, drawn);
        });
  }

  /**
   * Only the pads of a net of two share a reading; a bridge has two ends, and may be named at a
   * neighbour of one that is open. A joined rail changes the load of what hangs on it, so that a
   * drop may no longer tell a value; it must still tell a path.
   */
  @Test
  void aFaultElsewhereChangesNoOtherGrade() {
    Trials.of(
        80,
        random -> {
          Case drawn = Case.draw(random);
          Findings before = drawn.rig().run().findings();
          List<String> ids = List.copyOf(drawn.map().positions().keySet());
          String id = one(ids, random);
          Defects more =
              Damage.one(
                  drawn.map(),
                  SetUp.named(drawn.setUp()).orElseThrow(),
                  id,
                  drawn.defects(),
                  random);
          Rig rig = new Rig(drawn.map(), drawn.setUp(), drawn.capabilities(), more);
          Findings after = rig.run().findings();
          Set<String> concerned = concerned(rig.assembly(), drawn.defects(), more);
          for (String other : ids) {
            if (!concerned.contains(other)) {
              assertThat(connected(Rig.of(after, other).grade()))
                  .as(
                      "%s was %s and is %s with %s",
                      other, Rig.of(before, other).reason(), Rig.of(after, other).reason(), more)
                  .isEqualTo(connected(Rig.of(before, other).grade()));
            }
          }
        });
  }

  private static Defects withoutBridges(Defects defects) {
    Defects others = defects;
    for (Component component : defects.conditions().keySet()) {
      others = component instanceof Component.Bridge ? others.without(component) : others;
    }
    return others;
  }

  private static Grade connected(Grade grade) {
    return grade.isConnected() ? Grade.UNRESOLVED : grade;
  }

  /** Positions that a fault lies at, and those that share a reading with one of them. */
  private static Set<String> concerned(Assembly assembly, Defects before, Defects after) {
    Set<String> at = new HashSet<>();
    after
        .conditions()
        .forEach(
            (component, condition) -> {
              for (String id : assembly.map().positions().keySet()) {
                if (!condition.equals(before.of(component).orElse(null))
                    && component.toString().contains(id)) {
                  at.add(id);
                }
              }
            });
    Set<String> concerned = new HashSet<>(at);
    for (String id : at) {
      assembly.map().positions().values().stream()
          .filter(p -> p.distanceMm(assembly.map().position(id)) < 1.6 * Ring.PITCH_MM)
          .forEach(p -> concerned.add(p.id()));
    }
    for (String id : at) {
      for (Plate plate : Plate.values()) {
        Contact contact = new Contact.Pad(plate, id);
        if (assembly.contacts().contains(contact)) {
          List<Contact> sharing =
              assembly.contacts().stream()
                  .filter(c -> assembly.home(c).equals(assembly.home(contact)))
                  .toList();
          if (sharing.size() == 2) {
            sharing.stream()
                .filter(Contact.Pad.class::isInstance)
                .forEach(c -> concerned.add(((Contact.Pad) c).position()));
          }
        }
      }
    }
    return concerned;
  }
}

package org.jointwalk.oracle;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;
import java.util.stream.Stream;
import org.assertj.core.data.Percentage;
import org.jointwalk.fixture.Ceilings;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.quantity.Volts;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.saltmarsh.Specimens;
import org.jointwalk.simulator.Truth;
import org.jointwalk.simulator.VirtualFixture;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.Load;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.jointwalk.tool.NeedsTool;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The simulator's own solver against ngspice's operating point, on the ring of 420 positions: a
 * relative 1e-9 where all is linear, 1e-6 where junctions conduct.
 */
@NeedsTool("ngspice")
class NgspiceTest {

  private static final Percentage LINEAR = Percentage.withPercentage(1e-7);
  private static final Percentage WITH_JUNCTIONS = Percentage.withPercentage(1e-4);

  /** So little that every junction beside the metal is still linear to nine digits. */
  private static final double LITTLE_AMPS = 1e-6;

  private static final PadMap MAP = SaltmarshS2.unlearned();

  @TempDir private Path folder = Path.of("");

  private final RandomGenerator random = new SplittableRandom(20);

  private static Truth truth(String setUp, Defects defects, Action... actions) {
    return truth(MAP, setUp, defects, actions);
  }

  private static Truth truth(PadMap map, String setUp, Defects defects, Action... actions) {
    VirtualFixture fixture =
        new VirtualFixture(
            map,
            Specimens.stack(map, 5, defects),
            FixtureMaps.fourBus(map),
            VirtualFixture.Conditions.CALM);
    fixture.clamp(SetUp.named(setUp).orElseThrow(), List.of(actions));
    return fixture.truth();
  }

  /** The map with ten megohm from everything on a board to its ground, as after a poor wash. */
  private static PadMap leaky() {
    List<Load> loads = new ArrayList<>(MAP.loads());
    for (Side side : Side.values()) {
      Stream.concat(
              MAP.padsByNet(side).keySet().stream().map(NetId::name),
              MAP.loads().stream()
                  .filter(load -> load.side() == side)
                  .flatMap(load -> Stream.of(load.from(), load.to())))
          .distinct()
          .filter(name -> !name.equals(Ring.GROUND))
          .forEach(name -> loads.add(new Load.Resistor(side, name, Ring.GROUND, new Ohms(1e7))));
    }
    return new PadMap(
        MAP.device(),
        MAP.revision(),
        MAP.boardNames(),
        MAP.interposers(),
        MAP.positions(),
        MAP.nets(),
        loads,
        MAP.points(),
        MAP.limits(),
        List.of());
  }

  private Contact any(List<Contact> contacts) {
    return contacts.get(random.nextInt(contacts.size()));
  }

  @Test
  void bareInterposerReadsAsInNgspice() throws IOException, InterruptedException {
    Defects defects =
        Defects.NONE
            .with(new Component.Via("N010"), new Condition.High(new Ohms(0.8)))
            .with(new Component.Via("N011"), new Condition.Open());
    Truth truth = truth("interposer", defects, new Action.Split(Side.UPPER), new Action.Lift());
    agreeOnResistances(truth, 40);
  }

  @Test
  void interposerOnTheLowerBoardReadsAsInNgspice() throws IOException, InterruptedException {
    Truth truth =
        truth(
            "interposer-on-lower", Specimens.defects(MAP, 8, random), new Action.Split(Side.UPPER));
    agreeOnResistances(truth, 40);
  }

  /**
   * Pairs that are joined by metal. Beside more than an ohm a Schottky junction would show that
   * ngspice's k/q is that of 2014, 3e-7 from today's.
   */
  private void agreeOnResistances(Truth truth, int pairs) throws IOException, InterruptedException {
    List<Contact> contacts = List.copyOf(truth.assembly().contacts());
    Ngspice ngspice = new Ngspice(folder, truth.deck(), contacts.get(0));
    List<Double> ohms = new ArrayList<>();
    while (ohms.size() < pairs) {
      Contact a = any(contacts);
      Contact b = any(contacts);
      double between = truth.ohms(a, b);
      if (!a.equals(b) && between < 0.5) {
        ohms.add(between);
        ngspice.drive(a, b, LITTLE_AMPS);
      }
    }
    List<Double> volts = ngspice.volts();

    for (int i = 0; i < pairs; i++) {
      assertThat(volts.get(i) / LITTLE_AMPS).isCloseTo(ohms.get(i), LINEAR);
    }
  }

  @Test
  void junctionsReadAsInNgspice() throws IOException, InterruptedException {
    agreeOnDrops(
        truth(leaky(), "interposer-on-lower", Defects.NONE, new Action.Split(Side.UPPER)), 16);
  }

  @Test
  void closedStackReadsItsJunctionsSideBySideAsInNgspice()
      throws IOException, InterruptedException {
    agreeOnDrops(truth(leaky(), "joined", Defects.NONE), 16);
  }

  @Test
  void boardWithAChargedRailReadsItsRestAsInNgspice() throws IOException, InterruptedException {
    Defects charged = Specimens.charged(MAP, random);
    Component.NetOf rail = (Component.NetOf) charged.conditions().keySet().iterator().next();
    Side side = rail.net().side();
    Truth truth =
        truth(
            side == Side.LOWER ? "lower-board" : "upper-board",
            charged,
            new Action.Split(Side.UPPER),
            new Action.Lift());
    List<Contact> contacts = List.copyOf(truth.assembly().contacts());
    Contact ground = find(truth.assembly(), contacts, Role.GROUND);
    Ngspice ngspice = new Ngspice(folder, truth.deck(), ground);
    List<Double> expected = new ArrayList<>();
    for (Contact contact : contacts) {
      // A net that only junctions hold would be moved by what ties it down.
      if (role(truth.assembly(), contact).filter(r -> r == Role.RAIL).isEmpty()) {
        continue;
      }
      Step step =
          new Step(Kind.RESIDUAL, List.of(contact), List.of(ground), List.of(), new Volts(0.2), 1);
      double volts = points(truth.reading(step)).get(0).volts();
      if (Math.abs(volts) > 1e-3 && expected.size() < 12) {
        expected.add(volts);
        ngspice.drive(contact, ground, 0);
      }
    }
    assertThat(expected).isNotEmpty();
    List<Double> volts = ngspice.volts();
    for (int i = 0; i < expected.size(); i++) {
      assertThat(volts.get(i)).isCloseTo(expected.get(i), WITH_JUNCTIONS);
    }
  }

  private void agreeOnDrops(Truth truth, int nets) throws IOException, InterruptedException {
    Assembly assembly = truth.assembly();
    List<Contact> contacts = List.copyOf(assembly.contacts());
    Contact ground = find(assembly, contacts, Role.GROUND);
    int read = 0;
    while (read < nets) {
      Contact contact = any(contacts);
      if (role(assembly, contact).filter(r -> r == Role.SIGNAL).isEmpty()) {
        continue;
      }
      // From ground into the net and the other way: the second goes through the rail's load.
      boolean up = random.nextInt(4) > 0;
      Step step = junction(assembly, up ? ground : contact, up ? contact : ground);
      if (truth.reading(step) instanceof Reading.Measured drops) {
        read++;
        Ngspice ngspice = new Ngspice(folder, truth.deck(), ground);
        step.currents().forEach(amps -> ngspice.drive(step.a(), step.b(), amps.value()));
        List<Double> volts = ngspice.volts();
        for (int k = 0; k < volts.size(); k++) {
          assertThat(volts.get(k)).isCloseTo(drops.points().get(k).volts(), WITH_JUNCTIONS);
        }
      }
    }
  }

  private static Step junction(Assembly assembly, Contact a, Contact b) {
    Ceilings ceilings = new Ceilings(assembly);
    return new Step(
        Kind.JUNCTION,
        List.of(a),
        List.of(b),
        ceilings.junctionCurrents(List.of(a, b)),
        new Volts(1),
        1);
  }

  private static List<Reading.Point> points(Reading reading) {
    return ((Reading.Measured) reading).points();
  }

  private static Contact find(Assembly assembly, List<Contact> contacts, Role role) {
    return contacts.stream()
        .filter(c -> role(assembly, c).filter(r -> r == role).isPresent())
        .findFirst()
        .orElseThrow();
  }

  private static Optional<Role> role(Assembly assembly, Contact contact) {
    return assembly.branch(contact).hub() instanceof Node.OnBoard board
        ? Optional.of(assembly.map().net(new NetId(board.side(), board.name()))).map(Net::role)
        : Optional.empty();
  }
}

package org.jointwalk.simulator;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.fixture.Switching;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Condition;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Defects;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

class AnalogTest {

  private static final FixtureMap WIRED =
      Rings.fixture(Clamped.MAP, Kelvin.TAIL, Switching.MULTIPLEXER);

  /** Of two ranges of a ring, far more than their noise and their zero. */
  private static final double VOLTS = 100e-6;

  private final VirtualFixture fixture = Clamped.clamped(Defects.NONE);
  private final Analog analog = new Analog(fixture, WIRED, new SplittableRandom(1));

  private static int channel(Contact contact) {
    return WIRED.channels().stream()
        .filter(c -> c.contact().equals(contact))
        .findFirst()
        .orElseThrow()
        .number();
  }

  private String say(String format, Object... numbers) {
    String line = String.format(Locale.ROOT, format, numbers) + "\n";
    return new String(analog.take(line.getBytes(US_ASCII)), US_ASCII);
  }

  private void close(int kind, Contact a, Contact b) {
    say("O");
    say("M 0 %d 1", channel(a));
    say("M 1 %d 1", channel(b));
    say("M 2 %d 1", channel(a));
    say("M 3 %d 1", channel(b));
    say("R 0 %d", kind);
  }

  /** A reading in volt and ampere. */
  private Reading.Point read(int tag, int window) {
    String[] words = say("S 0 %d %d", tag, window).strip().split(" ", -1);
    assertThat(words).hasSize(5).startsWith("V", "0", Integer.toString(tag));
    return new Reading.Point(Integer.parseInt(words[3]) / 1e8, Integer.parseInt(words[4]) / 1e10);
  }

  /** The mean of the pattern + - - +, as firmware takes it. */
  private Reading.Point pattern(int mode, long level, long limit) {
    double volts = 0;
    double amps = 0;
    for (int sign : new int[] {1, -1, -1, 1}) {
      say("D 0 %d %d %d 0 0", mode, sign * level, limit);
      Reading.Point leg = read(7, 0);
      volts += sign * leg.volts() / 4;
      amps += sign * leg.amps() / 4;
    }
    return new Reading.Point(volts, amps);
  }

  private Reading.Point inProcess(Step step) {
    return Clamped.point(fixture.begin().read(0, step));
  }

  @Test
  void resistanceIsThatOfTheSimulatorInProcess() {
    Contact a = Rings.over(0);
    Contact b = Rings.over(1);
    Reading.Point own = inProcess(Clamped.lowLevel(a, b));
    close(4, a, b);

    Reading.Point read = pattern(1, 100_000_000, 2_000_000);

    assertThat(read.volts()).isCloseTo(own.volts(), within(VOLTS));
    // Another closure of the same switches: 3 milliohm in 3 ohm, five times.
    assertThat(read.amps()).isCloseTo(own.amps(), within(5e-5));
  }

  @Test
  void isolationIsThatOfTheSimulatorInProcess() {
    Contact a = Rings.over(7);
    Contact b = Rings.over(0);
    Reading.Point own = inProcess(Clamped.isolation(a, b));
    close(6, a, b);

    Reading.Point read = pattern(2, 5_000_000, 10_000_000);

    assertThat(read.volts()).isCloseTo(own.volts(), within(VOLTS));
    assertThat(read.amps()).isCloseTo(own.amps(), within(1e-7));
  }

  @Test
  void junctionIsThatOfTheSimulatorInProcess() {
    Contact a = Rings.over(0);
    Contact b = Rings.over(7);
    List<Reading.Point> own =
        Clamped.points(
            fixture.begin().read(0, Clamped.step(Kind.JUNCTION, a, b, 1, Clamped.JUNCTION)));
    close(7, a, b);
    int[] currents = {500_000, 2_240_000, 10_000_000, 500_000};
    for (int i = 0; i < currents.length; i++) {
      say("D 0 1 %d 100000000 0 0", currents[i]);
      Reading.Point read = read(i, 0);

      assertThat(read.volts()).isCloseTo(own.get(i).volts(), within(0.003));
      assertThat(read.amps()).isCloseTo(own.get(i).amps(), within(1e-6));
    }
    assertThat(own.get(2).volts()).as("a junction conducts").isBetween(0.4, 0.95);
  }

  @Test
  void voltageOfAChargedNetIsReadWithNothingDriven() {
    VirtualFixture charged =
        Clamped.clamped(
            Defects.NONE.with(
                new Component.NetOf(new NetId(Side.LOWER, "RAIL0")),
                new Condition.Charged(1.1, new Ohms(120))));
    Analog live = new Analog(charged, WIRED, new SplittableRandom(1));
    Step step = Clamped.step(Kind.RESIDUAL, Rings.over(3), Rings.over(0), 0);
    double own = Clamped.point(charged.begin().read(0, step)).volts();
    String said =
        new String(
            live.take(
                String.format(
                        Locale.ROOT,
                        "M 0 %d 1\nM 1 %d 1\nR 0 1\nD 0 0 0 0 0 0\nS 0 9 0\n",
                        channel(Rings.over(3)),
                        channel(Rings.over(0)))
                    .getBytes(US_ASCII)),
            US_ASCII);

    assertThat(Math.abs(own)).isGreaterThan(0.1);
    assertThat(Integer.parseInt(said.strip().split(" ", -1)[3]) / 1e8)
        .isCloseTo(own, within(VOLTS));
  }

  @Test
  void nothingClosedReadsOverRangeAndTheIdleBusesDoNotConduct() {
    close(4, Rings.over(0), Rings.over(1));
    say("O");
    say("D 0 1 100000000 2000000 0 0");
    assertThat(Math.abs(read(1, 0).amps())).isLessThan(1e-6);

    say("D 0 5 5000000 10000000 0 1");
    Reading.Point idle = read(2, 0);
    assertThat(idle.volts()).isEqualTo(0.05);
    assertThat(idle.amps() / idle.volts()).as("siemens").isLessThan(10e-6);
  }

  @Test
  void weldedRelayIsSeenBetweenTheIdleBuses() {
    VirtualFixture welded =
        Clamped.clamped(Defects.NONE, new Specimen.Trouble.StuckClosed(Rings.over(5)));
    Analog bad = new Analog(welded, WIRED, new SplittableRandom(1));
    String said =
        new String(bad.take("D 0 5 5000000 10000000 0 1\nS 0 1 0\n".getBytes(US_ASCII)), US_ASCII);

    assertThat(said).matches("V 0 1 [0-9]+ 10000000\n");
  }

  @Test
  void numberThatDiffersFromStartToStartIsGiven() {
    String first = say("B");

    assertThat(first).matches("B [0-9]+\n");
    assertThat(say("B")).isNotEqualTo(first);
  }

  @Test
  void whatIsNotUnderstoodIsPassedOver() {
    close(4, Rings.over(0), Rings.over(1));
    say("D 0 1 100000000 2000000 0 0");
    for (String wrong :
        List.of(
            "",
            "X",
            "S",
            "S 0 1",
            "S 0 1 0 0",
            "S  0 1 0",
            "S 0 1 -",
            "S 1 1 0",
            "M 4 0 1",
            "M 0 70000 1",
            "M 0 99999999999 1",
            "D 0 9 0 0 0 0",
            "R 0 9",
            "s 0 1 0",
            "S 0 1 0 ".repeat(20))) {
      assertThat(say("%s", wrong)).as(wrong).isEmpty();
    }
    assertThat(read(3, 0).amps()).isGreaterThan(0.005);
  }

  @Test
  void lineIsTakenWhereverItIsCut() {
    close(4, Rings.over(0), Rings.over(1));
    byte[] all = "D 0 1 100000000 2000000 0 0\nS 0 12 0\n".getBytes(US_ASCII);
    StringBuilder said = new StringBuilder();
    for (byte one : all) {
      said.append(new String(analog.take(new byte[] {one}), US_ASCII));
    }

    assertThat(said.toString()).startsWith("V 0 12 ").endsWith("\n").hasLineCount(1);
  }

  @Test
  void lidThatOpensAndClosesIsToldAndSeatsAnew() {
    long before = fixture.clamping().lid();

    assertThat(new String(analog.greeting(), US_ASCII)).isEqualTo("I 0\n");
    assertThat(new String(analog.openLid(), US_ASCII)).isEqualTo("I 1\n");
    assertThat(new String(analog.closeLid(), US_ASCII)).isEqualTo("I 0\n");
    assertThat(new String(analog.button(true), US_ASCII)).isEqualTo("I 2\n");
    assertThat(new String(analog.button(false), US_ASCII)).isEqualTo("I 0\n");
    assertThat(fixture.clamping().lid()).isEqualTo(before + 1);
  }

  @Test
  void firmwareThatIsGoneLeavesNothingClosed() {
    close(4, Rings.over(0), Rings.over(1));
    analog.hangUp();
    say("D 0 1 100000000 2000000 0 0");

    assertThat(Math.abs(read(1, 0).amps())).isLessThan(1e-6);
  }
}

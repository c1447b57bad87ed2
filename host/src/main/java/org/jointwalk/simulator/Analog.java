package org.jointwalk.simulator;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import java.util.random.RandomGenerator;
import java.util.regex.Pattern;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Step;
import org.jointwalk.protocol.Raw;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;

/**
 * What firmware without hardware would measure: it says in lines of text which switches it moves
 * and what it drives, and is told what it reads there. The words are those of the firmware's guide
 * to ports, "The analog channel".
 *
 * <p>The stack in the fixture is that of a {@link VirtualFixture} in which something is clamped, so
 * that every fixture measures by one physics. It has one reader: a line that closes a switch does
 * not say for whom. An answer takes well under a millisecond; not thread-safe.
 */
public final class Analog {

  private static final int BUSES = 4;
  private static final int MOST_LINE = 80;
  private static final int CHANNELS = 65_536;
  private static final double VOLT = 1e8;
  private static final double AMP = 1e10;
  private static final double MICRO = 1e6;
  private static final int LID_OPEN = 1;
  private static final int BUTTON_DOWN = 2;

  /** By their codes. */
  private static final List<Kind> KINDS =
      List.of(
          Kind.ALL_OPEN,
          Kind.RESIDUAL,
          Kind.RESIDUAL_LOADED,
          Kind.DISCHARGE,
          Kind.LOW_LEVEL,
          Kind.NORMAL_LEVEL,
          Kind.ISOLATION,
          Kind.JUNCTION,
          Kind.CHARGE);

  private static final List<Source.Mode> MODES =
      List.of(
          Source.Mode.OFF,
          Source.Mode.CURRENT,
          Source.Mode.VOLTAGE,
          Source.Mode.LOAD,
          Source.Mode.DRAIN,
          Source.Mode.PROBE);

  private static final Pattern LINE = Pattern.compile("[A-Z]( -?[0-9]{1,10})*");

  private final VirtualFixture fixture;
  private final Wires wires;
  private final RandomGenerator random;
  private final List<NavigableSet<Integer>> closed = new ArrayList<>();
  private final StringBuilder line = new StringBuilder();
  private Legs legs;
  private boolean moved = true;
  private Kind kind = Kind.ALL_OPEN;
  private Source source = Source.OFF;
  private Manner manner;
  private boolean shorted;
  private int inputs;

  /**
   * @param fixture with something clamped in it
   * @param wired its wiring
   * @param random gives a number that differs from start to start
   */
  public Analog(VirtualFixture fixture, FixtureMap wired, RandomGenerator random) {
    this.fixture = fixture;
    this.random = random;
    wires = new Wires(wired);
    for (int bus = 0; bus < BUSES; bus++) {
      closed.add(new TreeSet<>());
    }
    legs = fixture.beginLegs();
    manner = manner(List.of(), List.of());
  }

  /** What firmware is told that begins: the inputs. */
  public byte[] greeting() {
    return told(String.format(Locale.ROOT, "I %d\n", inputs));
  }

  /** Somebody opens the lid. */
  public byte[] openLid() {
    inputs |= LID_OPEN;
    return greeting();
  }

  /** Somebody closes the lid over what lies there, which seats it anew. */
  public byte[] closeLid() {
    if ((inputs & LID_OPEN) != 0) {
      inputs &= ~LID_OPEN;
      legs.open();
      fixture.reseat();
      legs = fixture.beginLegs();
      moved = true;
    }
    return greeting();
  }

  /** Somebody holds the button down, or lets it go. */
  public byte[] button(boolean down) {
    inputs = down ? inputs | BUTTON_DOWN : inputs & ~BUTTON_DOWN;
    return greeting();
  }

  /** Firmware is there no longer: every switch opens. */
  public void hangUp() {
    line.setLength(0);
    allOpen();
  }

  /**
   * Takes bytes of lines, wherever they are cut.
   *
   * @return what is answered
   */
  public byte[] take(byte[] bytes) {
    StringBuilder answer = new StringBuilder();
    for (byte one : bytes) {
      if (one == '\n') {
        if (line.length() <= MOST_LINE) {
          understand(line.toString()).ifPresent(said -> answer.append(said).append('\n'));
        }
        line.setLength(0);
      } else if (line.length() <= MOST_LINE) {
        line.append((char) (one & 0xFF));
      }
    }
    return told(answer.toString());
  }

  private static byte[] told(String text) {
    return text.getBytes(US_ASCII);
  }

  /** What is not understood is passed over. */
  private Optional<String> understand(String text) {
    if (!LINE.matcher(text).matches()) {
      return Optional.empty();
    }
    String[] words = text.split(" ", -1);
    long[] n = new long[words.length];
    for (int i = 1; i < n.length; i++) {
      n[i] = Long.parseLong(words[i]);
    }
    switch (words[0] + (n.length - 1)) {
      case "B0" -> {
        return Optional.of("B " + random.nextInt(Integer.MAX_VALUE));
      }
      case "O0" -> allOpen();
      case "M3" -> move(n[1], n[2], n[3]);
      case "R2" -> range(n[1], n[2]);
      case "D6" -> drive(n);
      case "S3" -> {
        return n[1] == 0 ? Optional.of(read(n[2], n[3])) : Optional.empty();
      }
      default -> {
        return Optional.empty();
      }
    }
    return Optional.empty();
  }

  private void allOpen() {
    closed.forEach(NavigableSet::clear);
    source = Source.OFF;
    moved = true;
  }

  private void move(long bus, long channel, long close) {
    if (bus >= 0 && bus < BUSES && channel >= 0 && channel < CHANNELS) {
      NavigableSet<Integer> own = closed.get((int) bus);
      moved |= close == 1 ? own.add((int) channel) : own.remove((int) channel);
    }
  }

  private void range(long reader, long code) {
    if (reader == 0 && code >= 0 && code < KINDS.size()) {
      Kind next = KINDS.get((int) code);
      moved |= next != kind;
      kind = next;
    }
  }

  private void drive(long[] n) {
    if (n[1] != 0 || n[2] < 0 || n[2] >= MODES.size()) {
      return;
    }
    Source.Mode mode = MODES.get((int) n[2]);
    boolean current = mode == Source.Mode.CURRENT;
    source = new Source(mode, n[3] / (current ? AMP : VOLT), n[4] / (current ? VOLT : AMP));
  }

  private String read(long tag, long window) {
    if (moved) {
      settle();
      moved = false;
    }
    Reading.Point point = shorted ? inAShort() : legs.read(kind, source, window / MICRO, manner);
    Raw raw = Taker.raw(point);
    return String.format(Locale.ROOT, "V 0 %d %d %d", tag, raw.volt(), raw.amp());
  }

  /** Both wires of one contact, one on each side, meet in it: two tips that touch one pad. */
  private Reading.Point inAShort() {
    double amps = source.mode() == Source.Mode.CURRENT ? source.level() : 0;
    boolean driven = source.mode() == Source.Mode.VOLTAGE;
    return new Reading.Point(0, driven ? (source.plus() ? 1 : -1) * source.limit() : amps);
  }

  private List<Integer> on(int bus) {
    return List.copyOf(closed.get(bus));
  }

  private void settle() {
    List<Contact> high = wires.contacts(on(0));
    List<Contact> low = wires.contacts(on(1));
    shorted = high.stream().anyMatch(low::contains);
    manner = manner(high, low);
    boolean whole = !high.isEmpty() && !low.isEmpty() && !shorted;
    if (whole && kind != Kind.ALL_OPEN) {
      legs.close(new Step(kind, high, low, List.of(), new Volts(0), 1));
    } else {
      legs.close(new Step(Kind.ALL_OPEN, List.of(), List.of(), List.of(), new Volts(0), 1));
    }
  }

  private Manner manner(List<Contact> high, List<Contact> low) {
    return new Manner(wires.sense(on(2), high), wires.sense(on(3), low), (points, over) -> true);
  }
}

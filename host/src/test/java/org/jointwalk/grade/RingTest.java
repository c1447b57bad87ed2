package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;
import static org.jointwalk.trial.Readings.point;
import static org.jointwalk.trial.Readings.under;

import java.util.LinkedHashSet;
import java.util.Set;
import org.jointwalk.fixture.Kelvin;
import org.jointwalk.fixture.Switching;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Tie;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class RingTest {

  /** A row of pads 1 mm apart. */
  private static final SmallMap MAP =
      new SmallMap()
          .net("GND", Role.GROUND)
          .net("VCC", Role.RAIL)
          .net("S", Role.SIGNAL)
          .net("T", Role.SIGNAL)
          .net("BLOCKED", Role.SIGNAL, "radio", 0, false)
          .net("SPARE", Role.UNUSED)
          .pad("E1", "GND")
          .pad("E2", "GND")
          .pad("G", "GND")
          .pad("V1", "VCC")
          .pad("V2", "VCC")
          .pad("S", "S")
          .pad("T", "T")
          .pad("B", "BLOCKED")
          .pad("X", "SPARE")
          .tie(Tie.Where.EDGE, "E1", "E2")
          .tie(Tie.Where.TOP, "S", "T")
          .point("PS", Side.LOWER, "S");

  private static Ring ring(String setUp, Contact... unwired) {
    Assembly assembly = MAP.in(setUp);
    Set<Contact> wired = new LinkedHashSet<>(assembly.contacts());
    for (Contact contact : unwired) {
      wired.remove(contact);
    }
    return new Ring(assembly, Instruments.round(Switching.MULTIPLEXER, Kelvin.TAIL), wired);
  }

  @Test
  void contactsAreReadAgainstTheirNetElseAgainstGroundElseNotAtAll() {
    Ring ring = ring("interposer-on-upper");
    assertThat(ring.way(under("V1"))).contains(Ring.Way.NET);
    assertThat(ring.way(under("G"))).contains(Ring.Way.NET);
    assertThat(ring.way(under("E1"))).contains(Ring.Way.REPRESENTS);
    assertThat(ring.way(under("B"))).isEmpty();
    assertThat(ring.way(under("X"))).isEmpty();
    assertThat(ring.isRead(under("V1"))).isTrue();
    assertThat(ring.isRead(under("E1"))).isFalse();
    assertThat(ring.isRead(under("B"))).isFalse();
    Ring lower = ring("lower-board");
    assertThat(lower.way(over("T"))).contains(Ring.Way.GROUND);
    assertThat(lower.way(over("S"))).contains(Ring.Way.NET);
    assertThat(lower.way(point("PS"))).contains(Ring.Way.NET);
  }

  @Test
  void anUnwiredPartnerOrGroundIsNone() {
    assertThat(ring("lower-board", over("V2")).way(over("V1"))).contains(Ring.Way.GROUND);
    assertThat(ring("lower-board", over("V1")).way(over("V1"))).isEmpty();
    Ring noGround = ring("lower-board", over("E1"), over("E2"), over("G"));
    assertThat(noGround.way(over("T"))).isEmpty();
    assertThat(noGround.grounded(over("T"))).isFalse();
  }

  @Test
  void onlyNetsWithAWayForDirectCurrentAreReadFromGround() {
    Ring ring = ring("lower-board");
    assertThat(ring.grounded(over("T"))).isTrue();
    assertThat(ring.grounded(over("V1"))).isTrue();
    assertThat(ring.grounded(over("G"))).isFalse();
    assertThat(ring.grounded(over("B"))).isFalse();
    assertThat(ring.grounded(over("X"))).isFalse();
  }

  @Test
  void neighboursLieWithinOneAndAHalfPitchesAndTheNearWithinThree() {
    Ring ring = ring("lower-board");
    assertThat(ring.beside("V1")).containsExactly("G", "V2");
    assertThat(ring.near("V1")).containsExactly("E1", "E2", "G", "V2", "S", "T");
    assertThat(ring.neighbours()).hasSize(8);
    assertThat(ring.neighbours())
        .contains(
            new Ring.Neighbours(
                new Contact.Pad(Plate.OVER, "G"), new Contact.Pad(Plate.OVER, "V1")));
    assertThat(ring("lower-board", over("V1")).neighbours()).hasSize(6);
    assertThat(ring("interposer").neighbours()).hasSize(16);
    assertThat(ring("joined").neighbours()).isEmpty();
  }

  @Test
  void aDiagonalNeighbourCountsAndTheNextButOneDoesNot() {
    SmallMap grid = new SmallMap().net("N", Role.SIGNAL);
    for (int x = 0; x < 4; x++) {
      for (int y = 0; y < 4; y++) {
        grid.at("P" + x + y, 0.6 * x, 0.6 * y, "N", "N");
      }
    }
    Assembly assembly = grid.in("lower-board");
    Ring ring =
        new Ring(
            assembly, Instruments.round(Switching.MULTIPLEXER, Kelvin.TAIL), assembly.contacts());
    assertThat(ring.beside("P11")).hasSize(8).contains("P00", "P22").doesNotContain("P13");
    assertThat(ring.neighbours()).hasSize(42);
  }

  @Test
  void aPathBehindSharedMetalIsMasked() {
    Ring ring = ring("interposer-on-lower");
    assertThat(ring.masked("E1")).isTrue();
    assertThat(ring.masked("S")).isTrue();
    assertThat(ring.masked("G")).isFalse();
    Ring mirror = ring("interposer-on-upper");
    assertThat(mirror.masked("E1")).isTrue();
    assertThat(mirror.masked("S")).isTrue();
    Ring bare = ring("interposer");
    assertThat(bare.masked("E1")).isTrue();
    assertThat(bare.masked("S")).isFalse();
    assertThat(bare.masked("G")).isFalse();
  }

  @Test
  void aPositionIsSeenThroughTheContactThatItsPathLiesBehind() {
    Ring bare = ring("interposer");
    assertThat(bare.contacts("S")).containsExactly(over("S"), under("S"));
    assertThat(bare.subject("S")).contains(under("S"));
    assertThat(bare.subject("G")).contains(over("G"));
    assertThat(bare.subject("E1")).isEmpty();
    assertThat(ring("interposer", under("S")).subject("S")).isEmpty();
    assertThat(ring("lower-board").subject("T")).contains(over("T"));
    assertThat(ring("joined").contacts("T")).isEmpty();
    assertThat(ring("lower-board", over("T")).contacts("T")).isEmpty();
  }
}

package org.jointwalk.stack;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

class SetUpTest {

  private static SetUp named(String name) {
    return SetUp.named(name).orElseThrow();
  }

  @Test
  void everySetUpIsFoundByItsNameAndNamesDiffer() {
    Set<String> names = new HashSet<>();
    for (SetUp setUp : SetUp.all()) {
      assertThat(SetUp.named(setUp.name())).contains(setUp);
      assertThat(names.add(setUp.name())).isTrue();
    }
    assertThat(SetUp.named("upside-down")).isEmpty();
  }

  @Test
  void aSetUpIsPossibleOnlyWhereItsJointsAndInterposerCanBe() {
    for (SetUp setUp : SetUp.all()) {
      for (Attachment attachment : setUp.possible()) {
        for (Side side : setUp.joints()) {
          assertThat(attachment.holds(side)).as("%s %s", setUp.name(), attachment).isTrue();
        }
        for (Side side : setUp.boards()) {
          boolean free = setUp.joints().isEmpty();
          assertThat(attachment.holds(side)).as("%s %s", setUp.name(), attachment).isEqualTo(!free);
        }
      }
    }
  }

  @Test
  void platesTouchTheFacesThatLookAtThem() {
    assertThat(named("lower-board").touches(Plate.OVER)).contains(Face.LOWER_PAD);
    assertThat(named("lower-board").touches(Plate.UNDER)).isEmpty();
    assertThat(named("upper-board").touches(Plate.UNDER)).contains(Face.UPPER_PAD);
    assertThat(named("upper-board").touches(Plate.OVER)).isEmpty();
    assertThat(named("interposer-on-lower").touches(Plate.OVER)).contains(Face.TOP_LAND);
    assertThat(named("interposer-on-upper").touches(Plate.UNDER)).contains(Face.BOTTOM_LAND);
    assertThat(named("interposer").touches(Plate.OVER)).contains(Face.TOP_LAND);
    assertThat(named("interposer").touches(Plate.UNDER)).contains(Face.BOTTOM_LAND);
  }

  @Test
  void onlyWhatHoldsNoBoardIsBare() {
    assertThat(SetUp.all())
        .filteredOn(SetUp::bare)
        .extracting(SetUp::name)
        .containsExactly("interposer", "shorting-plate", "empty");
  }

  @Test
  void splittingAndSolderingChangeWhatTheInterposerHoldsTo() {
    assertThat(Attachment.BOTH.without(Side.UPPER)).isEqualTo(Attachment.LOWER);
    assertThat(Attachment.BOTH.without(Side.LOWER)).isEqualTo(Attachment.UPPER);
    assertThat(Attachment.LOWER.without(Side.LOWER)).isEqualTo(Attachment.NONE);
    assertThat(Attachment.LOWER.without(Side.UPPER)).isEqualTo(Attachment.LOWER);
    assertThat(Attachment.NONE.with(Side.UPPER)).isEqualTo(Attachment.UPPER);
    assertThat(Attachment.UPPER.with(Side.LOWER)).isEqualTo(Attachment.BOTH);
    assertThat(Attachment.BOTH.with(Side.LOWER)).isEqualTo(Attachment.BOTH);
  }
}

package org.jointwalk.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import org.jointwalk.cli.Main;
import org.junit.jupiter.api.Test;

/** Holds the program as it was built, jar or loose classes, to the house rule. */
class ProgramHouseTest {

  private static final JavaClasses PROGRAM =
      new ClassFileImporter()
          .importUrl(Main.class.getProtectionDomain().getCodeSource().getLocation());

  private final HouseRules rules = new HouseRules("org.jointwalk");

  @Test
  void programIsWhatIsLookedAt() {
    assertThat(PROGRAM.contain(Main.class)).isTrue();
  }

  @Test
  void everyClassLivesInARoom() {
    rules.everyClassLivesInARoom().check(PROGRAM);
  }

  @Test
  void roomsUseOnlyWhatStandsAboveOrToTheLeft() {
    rules.roomsUseOnlyWhatStandsAboveOrToTheLeft().check(PROGRAM);
  }

  @Test
  void roomsTouchOnlyTheirPartOfTheOutside() {
    rules.roomsTouchOnlyTheirPartOfTheOutside().check(PROGRAM);
  }

  @Test
  void timeAndRandomnessComeIn() {
    rules.timeAndRandomnessComeIn().check(PROGRAM);
  }

  @Test
  void nobodySleeps() {
    rules.nobodySleeps().check(PROGRAM);
  }

  @Test
  void thoughtShowsOneClassAPackage() {
    rules.thoughtShowsOneClassAPackage().check(PROGRAM);
  }

  @Test
  void everyPackageIsNullMarked() {
    rules.everyPackageIsNullMarked().check(PROGRAM);
  }

  @Test
  void recordsHoldNoArrays() {
    rules.recordsHoldNoArrays().check(PROGRAM);
  }
}

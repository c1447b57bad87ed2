package org.jointwalk.architecture;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Each rule finds the offender that was planted for it, and nothing else. */
class HouseRulesTest {

  private static final String ROOT = "org.jointwalk.architecture.offender";

  private static final JavaClasses OFFENDERS = new ClassFileImporter().importPackages(ROOT);

  private final HouseRules rules = new HouseRules(ROOT);

  @Test
  void packageOutsideTheHouseIsFound() {
    assertThat(offences(rules.everyClassLivesInARoom()))
        .isNotEmpty()
        .allMatch(line -> line.contains("cupboard"));
  }

  @Test
  void simulatorThatAsksTheSolverIsFound() {
    assertThat(offences(rules.roomsUseOnlyWhatStandsAboveOrToTheLeft()))
        .isNotEmpty()
        .allMatch(line -> line.startsWith("simulator may not use solve"));
  }

  @Test
  void nounThatReadsAFileIsFound() {
    assertThat(offences(rules.roomsTouchOnlyTheirPartOfTheOutside()))
        .anyMatch(line -> line.startsWith("quantity may not touch FILES"))
        .allMatch(line -> line.contains("ReadsAFile") || line.contains("Sleeps"));
  }

  @Test
  void nounThatReadsTheClockIsFound() {
    assertThat(offences(rules.timeAndRandomnessComeIn()))
        .singleElement()
        .asString()
        .contains("ReadsTheClock");
  }

  @Test
  void sleeperIsFound() {
    assertThat(offences(rules.nobodySleeps())).singleElement().asString().contains("Sleeps");
  }

  @Test
  void thoughtThatShowsTwoClassesIsFound() {
    assertThat(offences(rules.thoughtShowsOneClassAPackage()))
        .isNotEmpty()
        .allMatch(line -> line.contains("solve shows 2 public classes"));
  }

  @Test
  void packageWithoutNullMarkIsFound() {
    assertThat(offences(rules.everyPackageIsNullMarked()))
        .isNotEmpty()
        .allMatch(line -> line.contains("simulator has no package-info"));
  }

  @Test
  void recordThatHoldsAnArrayIsFound() {
    assertThat(offences(rules.recordsHoldNoArrays()))
        .singleElement()
        .asString()
        .contains("HoldsAnArray");
  }

  private static List<String> offences(ArchRule rule) {
    return rule.evaluate(OFFENDERS).getFailureReport().getDetails();
  }
}

package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Runs the cases of {@code bad-input.txt}. */
class BadInputTest {

  /**
   * One spoilt file and the fault that it must lead to.
   *
   * @param name of the case
   * @param file the sample
   * @param text the sample, spoilt
   * @param told what must be told, by the keys of the table
   */
  record Case(String name, String file, String text, Map<String, String> told) {

    static Case of(String block) {
      Map<String, String> entries = new HashMap<>();
      String text = "";
      for (String line : block.split("\n", -1)) {
        int colon = line.indexOf(':');
        String key = line.substring(0, colon);
        String value = line.substring(colon + 1).strip();
        if (key.equals("file")) {
          text = Samples.text(value);
        } else if (key.equals("with")) {
          text = spoil(text, entries.getOrDefault("find", ""), value);
        }
        entries.put(key, value);
      }
      return new Case(
          entries.getOrDefault("case", ""), entries.getOrDefault("file", ""), text, entries);
    }

    private static String spoil(String text, String find, String with) {
      int at = text.indexOf(find);
      assertThat(at).as("where to spoil: " + find).isNotNegative();
      return with.endsWith("%END%")
          ? text.substring(0, at) + with.replace("%END%", "")
          : text.substring(0, at) + with + text.substring(at + find.length());
    }

    boolean isWarning() {
      return told.containsKey("warning");
    }

    int count() {
      return Integer.parseInt(told.getOrDefault("faults", "1"));
    }

    String reason() {
      return told.getOrDefault(isWarning() ? "warning" : "fault", "");
    }

    String told(String key) {
      return told.getOrDefault(key, "");
    }

    @Override
    public String toString() {
      return name;
    }
  }

  static Stream<Case> cases() {
    return Stream.of(Samples.text("bad-input.txt").strip().split("\n\n"))
        .filter(block -> !block.startsWith("#"))
        .map(Case::of);
  }

  @ParameterizedTest
  @MethodSource("cases")
  void slipIsToldWithPlaceValueAllowedAndHint(Case slip) {
    List<Fault> faults = new ArrayList<>();
    List<Fault> warnings = new ArrayList<>();
    read(slip, faults, warnings);

    List<Fault> told = slip.isWarning() ? warnings : faults;
    assertThat(told).hasSize(slip.count());
    assertThat(slip.isWarning() ? faults : warnings).isEmpty();
    Fault fault = told.get(0);
    assertThat(fault.reason()).isEqualTo(slip.reason());
    assertThat(fault.place()).hasToString(slip.told("place"));
    assertThat(fault.value().strip()).isEqualTo(slip.told("value"));
    assertThat(fault.allowed()).isEqualTo(slip.told("allowed")).isNotEmpty();
    assertThat(fault.hint()).isEqualTo(slip.told("hint")).isNotEmpty();
  }

  private static void read(Case slip, List<Fault> faults, List<Fault> warnings) {
    try {
      warnings.addAll(read(slip).warnings());
    } catch (FileFaults thrown) {
      faults.addAll(thrown.faults());
      warnings.addAll(thrown.warnings());
    }
  }

  private static Read<?> read(Case slip) throws FileFaults {
    String kind = slip.file().substring(slip.file().indexOf('.') + 1);
    return switch (kind) {
      case "pads.json" -> PadMapFile.read(slip.file(), slip.text());
      case "fixture.json" -> FixtureMapFile.read(slip.file(), slip.text());
      case "stack.json" -> SpecimenFile.read(slip.file(), slip.text());
      case "csv" -> PadMapCsv.read(slip.file(), slip.text(), Optional.empty(), "Saltmarsh S2");
      default -> throw new IllegalArgumentException("no reader for " + slip.file());
    };
  }
}

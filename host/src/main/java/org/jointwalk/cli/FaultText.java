package org.jointwalk.cli;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jointwalk.files.Fault;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.Place;

/**
 * Faults of files for the person who has to put them right: a few lines each, place first, and the
 * count at the end, where a long list leaves it in view. Stateless.
 */
final class FaultText {

  private FaultText() {}

  /** All that is wrong with a file. */
  static String of(FileFaults file) {
    return of(file.faults(), file.warnings());
  }

  /** All that is wrong with some files, then what is doubtful in them, then how many of each. */
  static String of(List<Fault> faults, List<Fault> warnings) {
    List<String> lines = new ArrayList<>(lines(faults));
    if (!warnings.isEmpty()) {
      lines.add("Besides, doubtful:");
      lines.add("");
      lines.addAll(lines(warnings));
    }
    long files = faults.stream().map(fault -> fault.place().file()).distinct().count();
    lines.add(
        Sentences.count(faults.size(), "fault")
            + (files == 1 ? "" : " in " + files + " files")
            + (warnings.isEmpty() ? "" : ", " + Sentences.count(warnings.size(), "warning"))
            + ".");
    return String.join(System.lineSeparator(), lines);
  }

  /** The lines of some faults, file by file from top to bottom; an empty one after each. */
  static List<String> lines(List<Fault> faults) {
    List<String> files = faults.stream().map(fault -> fault.place().file()).distinct().toList();
    List<Fault> ordered = new ArrayList<>(faults);
    ordered.sort(
        Comparator.comparingInt((Fault fault) -> files.indexOf(fault.place().file()))
            .thenComparingInt(fault -> line(fault.place()))
            .thenComparingInt(fault -> fault.place().column()));
    List<String> lines = new ArrayList<>();
    for (Fault fault : ordered) {
      lines.add(Console.clean(of(fault.place())));
      lines.add("  " + Console.clean(fault.reason()));
      part(lines, "found:   ", fault.value());
      part(lines, "allowed: ", fault.allowed());
      part(lines, "do:      ", fault.hint());
      lines.add("");
    }
    return lines;
  }

  /** What concerns a whole file often follows from a slip in a line, so it comes last. */
  private static int line(Place place) {
    return place.line() == 0 ? Integer.MAX_VALUE : place.line();
  }

  private static void part(List<String> lines, String what, String text) {
    if (!text.isEmpty()) {
      lines.add("  " + what + Console.clean(text));
    }
  }

  /** A file without a name is possible on a command line: somebody's variable was empty. */
  private static String of(Place place) {
    return place.file().isEmpty() ? "\"\"" + place : place.toString();
  }
}

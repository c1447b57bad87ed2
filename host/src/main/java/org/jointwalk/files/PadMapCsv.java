package org.jointwalk.files;

import java.nio.file.Path;
import java.util.Optional;
import org.jointwalk.stack.PadMap;

/**
 * Positions and nets of a pad map as CSV, to be filled in a spreadsheet: a row for each position,
 * and a row without id for a net that has none. What CSV cannot carry, such as ties, loads, access
 * points and references, comes from an existing map. The columns are described in {@code
 * fixture-maps/README.md}. In faults, a column counts cells. Stateless.
 */
public final class PadMapCsv {

  private PadMapCsv() {}

  /**
   * Reads positions and nets into an existing map, whose own are replaced.
   *
   * @throws FileFaults with all that is wrong with the file, or does not fit the rest of the map
   */
  public static Read<PadMap> read(Path path, PadMap existing) throws FileFaults {
    Faults faults = Faults.ofCsv(path.toString());
    return read(faults, FileText.read(path, faults), Optional.of(existing), existing.device());
  }

  /**
   * Reads positions and nets into a new map with one interposer, the usual limits and nothing else;
   * a warning says so.
   *
   * @param device what the new map is for
   * @throws FileFaults with all that is wrong with the file
   */
  public static Read<PadMap> read(Path path, String device) throws FileFaults {
    Faults faults = Faults.ofCsv(path.toString());
    return read(faults, FileText.read(path, faults), Optional.empty(), device);
  }

  /**
   * Reads from a text instead of a file.
   *
   * @param file what to call it in messages
   * @param existing the map to read into; when there is none, a new one is made
   * @param device what a new map is for; an existing one keeps its own
   * @throws FileFaults with all that is wrong with the text
   */
  public static Read<PadMap> read(
      String file, String text, Optional<PadMap> existing, String device) throws FileFaults {
    return read(Faults.ofCsv(file), Optional.of(text), existing, device);
  }

  private static Read<PadMap> read(
      Faults faults, Optional<String> text, Optional<PadMap> existing, String device)
      throws FileFaults {
    faults.stopIfAny();
    PadMapRows rows = new PadMapRows(text.orElse(""), existing, faults);
    faults.stopIfAny();
    PadMap map = rows.map(device);
    PadMapAdvice.give(map, faults);
    return faults.read(map, text.orElse(""));
  }

  /**
   * The CSV text: commas, decimal points, an apostrophe before what a spreadsheet would take for a
   * formula. What is said of a net stands in its first row.
   */
  public static String write(PadMap map) {
    return CsvOut.write(map);
  }
}

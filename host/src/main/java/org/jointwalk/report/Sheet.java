package org.jointwalk.report;

import java.util.List;
import java.util.Optional;

/**
 * What stands on a report, ready to be set: texts, and pictures as SVG. The templates in {@code
 * src/main/jte} only place it.
 *
 * @param title of the page
 * @param shop in its head
 * @param facts of the device, a name and a value each
 * @param finding in capitals
 * @param fault whether the finding is a fault that is there now
 * @param blocks paragraphs under headings, in order
 * @param rings pictures of the ring with their captions
 * @param profile resistances along the ring
 * @param tables of the evidence
 * @param cautions of the work
 * @param made when, in the bench's zone
 * @param hash of the job's record
 * @param program that made it
 */
record Sheet(
    String title,
    Shop shop,
    List<Fact> facts,
    String finding,
    boolean fault,
    List<Block> blocks,
    List<Picture> rings,
    Optional<Picture> profile,
    List<Table> tables,
    List<String> cautions,
    String made,
    String hash,
    String program) {

  /** A name and what belongs to it. */
  record Fact(String name, String value) {}

  /** A heading with sentences; a list when there are several. */
  record Block(String heading, List<String> sentences) {}

  /**
   * A picture with what it shows.
   *
   * @param svg trusted: made by {@code drawing}, which escapes
   */
  record Picture(String caption, String svg) {}

  /** Rows under a heading; every row has as many cells as there are columns. */
  record Table(String heading, List<String> columns, List<List<String>> rows) {

    Table {
      for (List<String> row : rows) {
        if (row.size() != columns.size()) {
          throw new IllegalArgumentException(
              "a row of " + heading + " has " + row.size() + " cells");
        }
      }
    }
  }
}

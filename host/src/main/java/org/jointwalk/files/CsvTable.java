package org.jointwalk.files;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A CSV text as rows of named cells. Takes what spreadsheets save: comma, semicolon or tab between
 * cells, a byte order mark, empty rows, and decimal commas where the comma does not part cells.
 *
 * @param columns those that the header names, in its order
 * @param rows with the cells that are not empty, each cell under the name of its column
 */
record CsvTable(List<String> columns, List<Field> rows) {

  /** Positions, nets without one, and the empty rows that spreadsheets leave. */
  private static final int MOST_RECORDS = 50_000;

  private static final Pattern NUMBER =
      Pattern.compile("[+-]?[0-9]+(\\.[0-9]*)?([eE][+-]?[0-9]+)?");
  private static final Pattern BROKEN =
      Pattern.compile("#(NAME\\?|REF!|VALUE!|DIV/0!|N/A|NUM!|NULL!)");

  CsvTable {
    columns = List.copyOf(columns);
    rows = List.copyOf(rows);
  }

  /**
   * Reads a text; what is wrong is told to the faults.
   *
   * @param known all columns that there can be
   * @param needed those that must be there
   * @param numbers those that hold numbers
   */
  static CsvTable read(
      String text, List<String> known, List<String> needed, Set<String> numbers, Faults faults) {
    String plain = text.startsWith("\uFEFF") ? text.substring(1) : text;
    char separator = separator(plain);
    List<CsvRecord> records = records(plain, separator, faults);
    if (records.isEmpty()) {
      if (!faults.any()) {
        faults.error(
            new Fault(
                Place.whole(faults.file()),
                "the file is empty",
                "",
                "a header and a row for each position",
                "The header is " + String.join(",", known)));
      }
      return new CsvTable(List.of(), List.of());
    }
    if (records.get(0).getFields().stream().map(CsvTable::name).noneMatch(known::contains)) {
      faults.error(
          new Fault(
              new Place(faults.file(), "", (int) records.get(0).getStartingLineNumber(), 0),
              "this row names none of the columns",
              String.join(",", records.get(0).getFields()),
              "a header with " + String.join(", ", needed),
              "Put the header above the first position, or check that this is the CSV file"));
      return new CsvTable(List.of(), List.of());
    }
    List<String> columns = header(records.get(0), known, needed, faults);
    List<Field> rows = new ArrayList<>();
    for (CsvRecord record : records.subList(1, records.size())) {
      Json.Members row = row(record, columns, numbers, separator != ',', faults);
      if (!row.values().isEmpty()) {
        rows.add(Field.root(row, faults));
      }
    }
    return new CsvTable(columns, rows);
  }

  /** Whichever is most frequent in the header. */
  private static char separator(String text) {
    String header = text.lines().findFirst().orElse("");
    char best = ',';
    for (char candidate : new char[] {';', '\t'}) {
      if (count(header, candidate) > count(header, best)) {
        best = candidate;
      }
    }
    return best;
  }

  private static long count(String text, char wanted) {
    return text.chars().filter(c -> c == wanted).count();
  }

  private static List<CsvRecord> records(String text, char separator, Faults faults) {
    List<CsvRecord> records = new ArrayList<>();
    try {
      CsvReader.builder()
          .fieldSeparator(separator)
          .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
          .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
          .allowUnclosedQuote(false)
          .ofCsvRecord(text)
          .stream()
          .limit(MOST_RECORDS + 1)
          .forEach(records::add);
    } catch (CsvParseException unreadable) {
      long line = records.isEmpty() ? 1 : records.get(records.size() - 1).getStartingLineNumber();
      faults.error(
          new Fault(
              new Place(faults.file(), "", (int) line, 0),
              "this is not CSV after the row that begins here",
              "",
              "CSV as RFC 4180 has it: quotes closed, and doubled inside quotes",
              "Look for a single quote character in the next row"));
      return List.of();
    }
    if (records.size() > MOST_RECORDS) {
      faults.error(
          new Fault(
              Place.whole(faults.file()),
              "the table is far longer than any ring",
              "",
              "at most " + MOST_RECORDS + " rows",
              "Check that this is the file that you meant"));
      return List.of();
    }
    return records;
  }

  /** The name of a column as people write it. */
  private static String name(String cell) {
    return cell.strip().toLowerCase(Locale.ROOT).replace(' ', '_');
  }

  private static List<String> header(
      CsvRecord record, List<String> known, List<String> needed, Faults faults) {
    List<String> columns = new ArrayList<>();
    for (String cell : record.getFields()) {
      String name = name(cell);
      Place place =
          new Place(faults.file(), name, (int) record.getStartingLineNumber(), columns.size() + 1);
      if (!name.isEmpty() && !known.contains(name)) {
        faults.unknown(place, "this column is not known", cell, known);
      } else if (!name.isEmpty() && columns.contains(name)) {
        faults.error(
            new Fault(
                place,
                "this column is there twice",
                JsonOut.quoted(cell),
                "each column once",
                "Remove one of the two"));
      }
      columns.add(name);
    }
    for (String name : needed) {
      if (!columns.contains(name)) {
        faults.error(
            new Fault(
                new Place(faults.file(), name, (int) record.getStartingLineNumber(), 0),
                "the column \"" + name + "\" is missing",
                "",
                "a header with " + String.join(", ", needed),
                "Add the column; its place does not matter"));
      }
    }
    return columns;
  }

  private static Json.Members row(
      CsvRecord record,
      List<String> columns,
      Set<String> numbers,
      boolean decimalComma,
      Faults faults) {
    int line = (int) record.getStartingLineNumber();
    Map<String, Json> cells = new LinkedHashMap<>();
    for (int i = 0; i < record.getFieldCount(); i++) {
      String cell = record.getField(i).strip();
      if (cell.isEmpty()) {
        continue;
      }
      String column = i < columns.size() ? columns.get(i) : "";
      Place place = new Place(faults.file(), column, line, i + 1);
      if (column.isEmpty()) {
        faults.error(
            new Fault(
                place,
                "this cell has no column",
                JsonOut.quoted(cell),
                columns.size() + " cells in a row, as in the header",
                "Clear it, or look for a separator too many in this row"));
      } else if (BROKEN.matcher(cell).matches()) {
        faults.error(
            new Fault(
                place,
                "the spreadsheet took this cell for a formula and lost it",
                cell,
                "the text that was meant",
                "Format the column as text and type the cell again"));
        cells.put(column, new Json.Text("lost", line, i + 1));
      } else {
        cells.putIfAbsent(column, cell(cell, numbers.contains(column), decimalComma, line, i + 1));
      }
    }
    return new Json.Members(cells, line, 0);
  }

  private static Json cell(
      String cell, boolean number, boolean decimalComma, int line, int column) {
    if (!number) {
      return new Json.Text(FormulaGuard.off(cell), line, column);
    }
    String dotted = decimalComma ? cell.replace(',', '.') : cell;
    return NUMBER.matcher(dotted).matches()
        ? new Json.Figure(dotted, line, column)
        : new Json.Text(cell, line, column);
  }
}

package org.jointwalk.files;

import de.siegmar.fastcsv.writer.CsvWriter;
import de.siegmar.fastcsv.writer.LineDelimiter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Position;
import org.jointwalk.stack.Side;

/** Writes positions and nets as CSV. For one map and one thread. */
final class CsvOut {

  private final PadMap map;
  private final Set<NetId> described = new HashSet<>();

  private CsvOut(PadMap map) {
    this.map = map;
  }

  static String write(PadMap map) {
    return new CsvOut(map).text();
  }

  private String text() {
    StringWriter text = new StringWriter();
    try (CsvWriter csv = CsvWriter.builder().lineDelimiter(LineDelimiter.CRLF).build(text)) {
      csv.writeRecord(PadMapRows.columns());
      Set<NetId> elsewhere = new LinkedHashSet<>(map.nets().keySet());
      for (Position position : map.positions().values()) {
        List<String> row = new ArrayList<>();
        row.add(FormulaGuard.on(position.id()));
        row.add(JsonOut.shortest(position.xMm()));
        row.add(JsonOut.shortest(position.yMm()));
        for (Side side : Side.values()) {
          net(row, position.net(side));
          elsewhere.remove(position.net(side));
        }
        csv.writeRecord(row);
      }
      for (NetId id : elsewhere) {
        List<String> row = new ArrayList<>(List.of("", "", ""));
        for (Side side : Side.values()) {
          if (side == id.side()) {
            net(row, id);
          } else {
            CsvNets.columns(side).forEach(column -> row.add(""));
          }
        }
        csv.writeRecord(row);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory cannot fail to be written", e);
    }
    return text.toString();
  }

  private void net(List<String> row, NetId id) {
    row.add(FormulaGuard.on(id.name()));
    if (!described.add(id)) {
      CsvNets.columns(id.side()).stream().skip(1).forEach(column -> row.add(""));
      return;
    }
    Net net = map.net(id);
    row.add(Words.of(net.role()));
    row.add(FormulaGuard.on(net.function()));
    row.add(net.nominal().map(volts -> JsonOut.shortest(volts.value())).orElse(""));
    row.add(Words.of(net.dcPath() ? CsvNets.Answer.YES : CsvNets.Answer.NO));
    row.add(JsonOut.shortest(net.trace().value()));
  }
}

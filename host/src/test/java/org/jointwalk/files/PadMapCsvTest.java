package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PadMapCsvTest {

  private static final String HEADER = "id,x_mm,y_mm,upper_net,lower_net\n";

  private static PadMap small() throws FileFaults {
    return PadMapFile.read(Samples.PADS, Samples.text(Samples.PADS)).value();
  }

  private static Read<PadMap> fresh(String csv) throws FileFaults {
    return PadMapCsv.read("ring.csv", csv, Optional.empty(), "Saltmarsh S2");
  }

  @Test
  void mapComesBackWholeIntoItself() throws FileFaults {
    for (int seed = 0; seed < 60; seed++) {
      PadMap map = RandomMaps.padMap(new Random(seed));

      PadMap read = PadMapCsv.read("ring.csv", PadMapCsv.write(map), Optional.of(map), "").value();

      assertThat(read).isEqualTo(map);
      assertThat(read.positions().keySet()).containsExactlyElementsOf(map.positions().keySet());
      assertThat(read.nets().keySet()).containsExactlyElementsOf(map.nets().keySet());
    }
  }

  @Test
  void positionsAndNetsComeBackWithoutAnExistingMap() throws FileFaults {
    for (int seed = 0; seed < 60; seed++) {
      PadMap map = RandomMaps.padMap(new Random(seed));

      Read<PadMap> read = fresh(PadMapCsv.write(map));

      assertThat(read.value().positions()).isEqualTo(map.positions());
      assertThat(read.value().nets()).isEqualTo(map.nets());
      assertThat(read.warnings()).anyMatch(w -> w.reason().contains("positions and nets only"));
    }
  }

  @Test
  void noCellBeginsLikeAFormula() {
    for (int seed = 0; seed < 60; seed++) {
      String csv = PadMapCsv.write(RandomMaps.padMap(new Random(seed)));

      assertThat(csv.lines().skip(1).flatMap(line -> List.of(line.split(",", -1)).stream()))
          .allMatch(cell -> !cell.matches("\"?[=+@\t].*") && !cell.matches("\"?-[^0-9].*"));
    }
  }

  @Test
  void netSaysWhatItIsInOneOfItsRows() throws FileFaults {
    PadMap map =
        fresh(
                """
                id,x_mm,y_mm,upper_net,lower_net,lower_role,lower_nominal_volts,lower_dc_path
                N1,0,0,GND,VBAT,,,
                N2,1,0,GND,VBAT,rail,3.7,no
                """)
            .value();

    assertThat(map.net(new NetId(Side.LOWER, "VBAT")).role()).isEqualTo(Role.RAIL);
    assertThat(map.net(new NetId(Side.LOWER, "VBAT")).nominal().orElseThrow().value())
        .isEqualTo(3.7);
    assertThat(map.net(new NetId(Side.LOWER, "VBAT")).dcPath()).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "id,x_mm,y_mm,upper_net,lower_net\nN1,0.5,-1,GND,GND\n",
        "\uFEFFid,x_mm,y_mm,upper_net,lower_net\r\nN1,0.5,-1,GND,GND\r\n",
        "id;x_mm;y_mm;upper_net;lower_net\r\nN1;0,5;-1;GND;GND\r\n;;;;\r\n",
        "ID\tX mm\tY mm\tUpper net\tLower net\nN1\t0.5\t-1\tGND\tGND\n\n",
        "lower_net,\"upper_net\",id,x_mm,y_mm\n GND ,GND,N1,5e-1,-1.0,,\n",
      })
  void takesWhatSpreadsheetsSave(String csv) throws FileFaults {
    PadMap map = fresh(csv).value();

    assertThat(map.position("N1").xMm()).isEqualTo(0.5);
    assertThat(map.position("N1").yMm()).isEqualTo(-1);
    assertThat(map.position("N1").lowerNet()).isEqualTo("GND");
  }

  @Test
  void columnThatIsLeftOutKeepsWhatTheMapSaid() throws FileFaults {
    PadMap map = small();
    StringBuilder csv = new StringBuilder(HEADER);
    map.positions()
        .values()
        .forEach(
            p ->
                csv.append(String.join(",", p.id(), p.xMm() + "", "0", p.upperNet(), p.lowerNet()))
                    .append('\n'));

    PadMap read = PadMapCsv.read("ring.csv", csv.toString(), Optional.of(map), "").value();

    assertThat(read).isEqualTo(map);
  }

  @Test
  void whatTheRestOfTheMapNeedsMustStay() throws FileFaults {
    PadMap map = small();
    String csv = HEADER + "N001,0,0,GND,GND\nN004,2,0,RING_TX,RING_TX\nN005,4,0,RING_RX,GND\n";

    FileFaults thrown =
        catchThrowableOfType(
            FileFaults.class, () -> PadMapCsv.read("ring.csv", csv, Optional.of(map), ""));

    assertThat(thrown.faults())
        .extracting(Fault::value)
        .containsExactlyInAnyOrder("\"N002\"", "\"N003\"", "\"+3V1\"", "\"+3V1\"", "\"+3V1\"");
  }

  @Test
  void endlessTableIsRefusedBeforeItFillsTheMemory() {
    String csv = HEADER + "N1,0,0,GND,GND\n".repeat(60_000);

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> fresh(csv));

    assertThat(thrown.faults()).extracting(Fault::allowed).containsExactly("at most 50000 rows");
  }

  @Test
  void newMapHasTheUsualRest() throws FileFaults {
    PadMap map = fresh(HEADER + "N1,0,0,GND,GND\n").value();

    assertThat(map.device()).isEqualTo("Saltmarsh S2");
    assertThat(map.boardNames())
        .isEqualTo(Map.of(Side.UPPER, "upper board", Side.LOWER, "lower board"));
    assertThat(map.interposers()).hasSize(1);
    assertThat(map.limits().signal().value()).isEqualTo(2);
    assertThat(map.limits().power().value()).isEqualTo(0.5);
  }
}

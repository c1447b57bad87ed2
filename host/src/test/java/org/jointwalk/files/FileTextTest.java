package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.io.IOException;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jointwalk.stack.PadMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What can be wrong with a file before its content is looked at. */
class FileTextTest {

  @TempDir private Path folder = Path.of("");

  private Fault onlyFaultOf(Path path) {
    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read(path));
    assertThat(thrown).isNotNull();
    assertThat(thrown.faults()).hasSize(1);
    assertThat(thrown.getMessage()).contains(path.toString());
    Fault fault = thrown.faults().get(0);
    assertThat(fault.allowed()).isNotEmpty();
    assertThat(fault.hint()).isNotEmpty();
    return fault;
  }

  private Path file(byte... bytes) throws IOException {
    return Files.write(folder.resolve("ring.pads.json"), bytes);
  }

  @Test
  void soundFileIsRead() throws IOException, FileFaults {
    Path path = file(Samples.text(Samples.PADS).getBytes(StandardCharsets.UTF_8));

    Read<PadMap> read = PadMapFile.read(path);

    assertThat(read.file()).isEqualTo(path.toString());
    assertThat(read.text()).isEqualTo(Samples.text(Samples.PADS));
  }

  @Test
  void missingFileIsLookedForWhereItSays() {
    Fault fault = onlyFaultOf(folder.resolve("no.pads.json"));

    assertThat(fault.reason()).isEqualTo("there is no such file");
    assertThat(fault.hint()).contains(folder.toAbsolutePath().toString());
  }

  @Test
  void folderIsNoFile() {
    assertThat(onlyFaultOf(folder).reason()).isEqualTo("this is a folder");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", " ", "\n\n\t\r\n"})
  void emptyFileIsCalledEmpty(String text) throws IOException {
    assertThat(onlyFaultOf(file(text.getBytes(StandardCharsets.UTF_8))).reason())
        .isEqualTo("the file is empty");
  }

  @Test
  void byteOrderMarkIsNamedWithItsRemedy() throws IOException {
    Fault fault =
        onlyFaultOf(file(("\uFEFF" + Samples.text(Samples.PADS)).getBytes(StandardCharsets.UTF_8)));

    assertThat(fault.reason()).contains("byte order mark");
    assertThat(fault.value()).isEqualTo("EF BB BF");
    assertThat(fault.place().line()).isEqualTo(1);
    assertThat(fault.hint()).contains("UTF-8");
  }

  @Test
  void byteThatIsNoUtf8IsFound() throws IOException {
    byte[] bytes = Samples.text(Samples.PADS).getBytes(StandardCharsets.ISO_8859_1);
    int offset = Samples.text(Samples.PADS).indexOf("radio board");
    bytes[offset] = (byte) 0xE4;

    Fault fault = onlyFaultOf(file(bytes));

    assertThat(fault.reason()).contains("byte " + offset + " ");
    assertThat(fault.value()).isEqualTo("0xE4");
    assertThat(fault.place().line()).isEqualTo(5);
    assertThat(fault.hint()).contains("UTF-8");
  }

  @Test
  void characterCutAtTheEndIsFound() throws IOException {
    Fault fault = onlyFaultOf(file((byte) '{', (byte) '"', (byte) 0xC3));

    assertThat(fault.reason()).contains("byte 2 ");
  }

  @Test
  void sixteenBitTextIsRecognised() throws IOException {
    assertThat(onlyFaultOf(file("{\"a\": 1}".getBytes(StandardCharsets.UTF_16))).reason())
        .contains("UTF-16");
    assertThat(onlyFaultOf(file("{\"a\": 1}".getBytes(StandardCharsets.UTF_16LE))).reason())
        .contains("UTF-16");
  }

  @Test
  void hugeFileIsRefusedUnread() throws IOException {
    Path path = folder.resolve("huge.pads.json");
    try (RandomAccessFile file = new RandomAccessFile(path.toFile(), "rw")) {
      file.setLength(FileText.MOST_BYTES + 1L);
    }

    assertThat(onlyFaultOf(path).reason()).isEqualTo("the file is larger than 50 MB");
  }

  @Test
  void deepNestingEndsWithAFault() throws IOException {
    String deep = "{\"format\": " + "[".repeat(20_000);

    assertThat(onlyFaultOf(file(deep.getBytes(StandardCharsets.UTF_8))).reason())
        .contains("longer or deeper");
  }

  @Test
  void faultsWithoutEndAreCutShortAndThatIsTold() {
    String limits =
        IntStream.rangeClosed(0, Faults.MOST_FAULTS)
            .mapToObj(i -> "\"Q" + i + "\": 1, ")
            .collect(Collectors.joining("", "\"overrides_ohms\": {", ""));
    String text = Samples.text(Samples.PADS).replace("\"overrides_ohms\": {", limits);

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("x", text));

    assertThat(thrown.faults()).hasSize(Faults.MOST_FAULTS + 1);
    assertThat(thrown.faults().get(Faults.MOST_FAULTS).reason()).contains("the rest is not told");
  }

  @Test
  void windowsLineEndsAreReadSilently() throws IOException, FileFaults {
    byte[] text = Samples.text(Samples.PADS).replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8);

    assertThat(PadMapFile.read(file(text)).warnings()).isEmpty();
  }

  @Test
  void allFaultsOfAFileAreToldAtOnce() {
    String text =
        Samples.text(Samples.PADS)
            .replace("\"role\": \"rail\"", "\"role\": \"rial\"")
            .replace("\"thickness_mm\": 0.8", "\"thickness_mm\": -0.8")
            .replace("\"positions\": [\"N001\", \"N002\"]", "\"positions\": [\"N001\", \"N00\"]")
            .replace("\"is\": \"drop\"", "\"is\": \"dorp\"");

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("ring", text));

    assertThat(thrown.faults())
        .extracting(fault -> fault.place().path())
        .containsExactlyInAnyOrder(
            "/nets/upper/1/role",
            "/nets/lower/1/role",
            "/interposers/0/thickness_mm",
            "/interposers/0/ties/0/positions/1",
            "/references/0/is");
    assertThat(thrown).hasMessageStartingWith("5 faults in ring\n");
  }

  @Test
  void emptyListsAreToldWhereTheyStand() {
    String text =
        """
        {
          "format": "jointwalk pad map 1", "device": "Saltmarsh S2", "revision": "",
          "boards": {"upper": "radio board", "lower": "main board"},
          "interposers": [],
          "positions": [],
          "nets": {"upper": [], "lower": []}
        }
        """;

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("ring", text));

    assertThat(thrown.faults())
        .extracting(fault -> fault.place().path(), fault -> fault.place().line())
        .containsExactlyInAnyOrder(
            tuple("/interposers", 4),
            tuple("/positions", 5),
            tuple("/nets/upper", 6),
            tuple("/nets/lower", 6));
  }

  @Test
  void emptyObjectLacksAllThatIsNeeded() {
    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("ring", "{}"));

    assertThat(thrown.faults())
        .extracting(fault -> fault.place().path())
        .contains("/format", "/device", "/boards", "/interposers", "/positions", "/nets");
  }

  @Test
  void hugeRingIsRefusedInTime() {
    StringBuilder text =
        new StringBuilder("{\"format\": \"jointwalk pad map 1\", \"positions\": [");
    text.append("{\"id\": \"N1\"},".repeat(200_000)).append("{}]}");

    FileFaults thrown =
        catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("ring", text.toString()));

    assertThat(thrown.faults())
        .filteredOn(fault -> fault.place().path().equals("/positions"))
        .extracting(Fault::allowed)
        .isEqualTo(List.of("1 to 10000 positions"));
  }

  @Test
  void endlessListIsRefusedBeforeItFillsTheMemory() {
    String text = "{\"format\": [" + "0,".repeat(1_100_000) + "0]}";

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> PadMapFile.read("ring", text));

    assertThat(thrown.faults()).extracting(Fault::reason).anyMatch(r -> r.contains("far longer"));
  }

  @Test
  void messagesOfOneFaultStandOnOneLine() {
    Fault fault = new Fault(new Place("a.json", "/x", 3, 4), "bad", "1", "2", "Write 2");

    assertThat(fault).hasToString("a.json:3:4 (/x): bad: 1. Allowed: 2. Write 2.");
    assertThat(new Fault(Place.whole("a.json"), "bad", "", "2", "Did you mean 2?"))
        .hasToString("a.json: bad. Allowed: 2. Did you mean 2?");
    assertThat(new Fault(Place.whole("a"), "bad", "x".repeat(999), "2", "").value())
        .hasSizeLessThan(100);
  }
}

package org.jointwalk.schema;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.jointwalk.files.Fault;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.MapCheck;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.stack.PadMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class SchemaTest {

  /** Reasons that a schema can know, as opposed to what needs the whole file to be known. */
  private static final Pattern SHAPE =
      Pattern.compile(
          ".* is missing|this is of the wrong kind|this key is not known here"
              + "|this number does not fit here|this word is not known here|this name is empty"
              + "|this is no id|this is no component|this is no contact|.* is not a text"
              + "|this .* is not known|.* cannot be in this condition|there is no such set-up");

  @ParameterizedTest
  @EnumSource
  void fileWithEveryEntryIsSound(Format format) {
    String text = Format.text(format.everyEntry());

    assertThat(format.schemaFaults(text)).isEmpty();
    assertThat(format.readerFaults(text)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void committedFilesAreSound(Format format) {
    for (Path path : format.committed()) {
      String text = Format.text(path);

      assertThat(format.schemaFaults(text)).as(path.toString()).isEmpty();
      assertThat(format.readerFaults(text)).as(path.toString()).isEmpty();
    }
  }

  @ParameterizedTest
  @EnumSource
  void examplesOfTheDescriptionAreSound(Format format) {
    List<String> examples = format.described();

    assertThat(examples).hasSize(1);
    assertThat(format.schemaFaults(examples.get(0))).isEmpty();
    assertThat(format.readerFaults(examples.get(0))).isEmpty();
  }

  @Test
  void examplesOfTheDescriptionFitEachOther() throws FileFaults {
    PadMap map = PadMapFile.read("pads", Format.PADS.described().get(0)).value();

    MapCheck.checkStack(map, SpecimenFile.read("stack", Format.STACK.described().get(0)));
    MapCheck.check(map, FixtureMapFile.read("fixture", Format.FIXTURE.described().get(0)));
  }

  @ParameterizedTest
  @EnumSource
  void schemaAndReaderRefuseTheSameSlips(Format format) throws JsonProcessingException {
    List<String> differences = new ArrayList<>();
    List<Slips.Slip> slips = Slips.of(Format.text(format.everyEntry()));
    for (Slips.Slip slip : slips) {
      boolean bySchema = !format.schemaFaults(slip.text()).isEmpty();
      List<Fault> faults = format.readerFaults(slip.text());
      boolean byShape = faults.stream().anyMatch(f -> SHAPE.matcher(f.reason()).matches());
      if (bySchema && faults.isEmpty()) {
        differences.add(slip.what() + ": the schema alone refuses it");
      }
      if (byShape && !bySchema) {
        differences.add(slip.what() + ": the reader alone refuses it: " + faults);
      }
    }

    assertThat(slips).hasSizeGreaterThan(200);
    assertThat(differences).isEmpty();
  }
}

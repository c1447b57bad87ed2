package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.PadMap;
import org.junit.jupiter.api.Test;

class MapCheckTest {

  private static PadMap pads() throws FileFaults {
    return PadMapFile.read(Samples.PADS, Samples.text(Samples.PADS)).value();
  }

  private static Read<FixtureMap> fixture(String find, String with) throws FileFaults {
    return FixtureMapFile.read(Samples.FIXTURE, Samples.text(Samples.FIXTURE).replace(find, with));
  }

  private static Read<SpecimenFile.Stack> stack(String find, String with) throws FileFaults {
    return SpecimenFile.read(Samples.STACK, Samples.text(Samples.STACK).replace(find, with));
  }

  private static List<Fault> faults(Read<FixtureMap> fixture) throws FileFaults {
    PadMap pads = pads();
    return catchThrowableOfType(FileFaults.class, () -> MapCheck.check(pads, fixture)).faults();
  }

  @Test
  void mapsOfOneDeviceFit() throws FileFaults {
    assertThat(MapCheck.check(pads(), fixture("\"defective\": [5]", "\"defective\": []")))
        .isEmpty();
  }

  @Test
  void positionWithoutContactIsAWarning() throws FileFaults {
    List<Fault> warnings = MapCheck.check(pads(), fixture("", ""));

    assertThat(warnings)
        .extracting(Fault::reason, Fault::value)
        .containsExactly(tuple("1 position has no working channel on the over plate", "N006"));
    assertThat(warnings.get(0).hint()).contains("not seen");
  }

  @Test
  void positionThatNoPlateReachesIsToldAsSuch() throws FileFaults {
    List<Fault> warnings =
        MapCheck.check(pads(), fixture("{\"from\": 6, \"contacts\": \"under N001..N006\"},", ""));

    assertThat(warnings)
        .extracting(Fault::reason)
        .containsExactly("1 position has no working channel on any plate");
  }

  @Test
  void channelOnAnUnknownPositionIsFoundInTheFile() throws FileFaults {
    Fault fault = faults(fixture("\"point P01\"}", "\"over N01\"}")).get(0);

    assertThat(fault.place()).isEqualTo(new Place(Samples.FIXTURE, "/channels/2", 24, 5));
    assertThat(fault.reason()).contains("channel 12", "position");
    assertThat(fault.value()).isEqualTo("\"N01\"");
    assertThat(fault.allowed()).contains("N001");
    assertThat(fault.hint()).contains("Did you mean");
  }

  @Test
  void channelOnAnUnknownPointIsFound() throws FileFaults {
    assertThat(faults(fixture("point P01", "point P02")))
        .extracting(Fault::value, Fault::hint)
        .containsOnly(tuple("\"P02\"", "Did you mean \"P01\"?"))
        .hasSize(2);
  }

  @Test
  void fixtureOfAnotherDeviceIsRefused() throws FileFaults {
    assertThat(faults(fixture("\"Saltmarsh S2\"", "\"Saltmarsh S3\"")))
        .extracting(fault -> fault.place().path(), Fault::value, Fault::allowed)
        .containsExactly(tuple("/device", "\"Saltmarsh S3\"", "\"Saltmarsh S2\""));
  }

  @Test
  void mapFromElsewhereIsNamedInsteadOfAFile() throws FileFaults {
    FixtureMap other = fixture("\"Saltmarsh S2\"", "\"Saltmarsh S3\"").value();
    PadMap pads = pads();

    FileFaults thrown = catchThrowableOfType(FileFaults.class, () -> MapCheck.check(pads, other));

    assertThat(thrown.faults().get(0).place()).hasToString("bench 1");
  }

  @Test
  void stackFits() throws FileFaults {
    Read<SpecimenFile.Stack> stack = stack("", "");

    MapCheck.checkStack(pads(), stack);

    assertThat(stack.value().pads()).isEqualTo(Samples.PADS);
  }

  @Test
  void stackThatNamesWhatIsNotThereIsTold() throws FileFaults {
    String text =
        Samples.text(Samples.STACK)
            .replace("\"variant\": \"standard\"", "\"variant\": \"standart\"")
            .replace("lower joint N004", "lower joint N044")
            .replace("lower bridge N004 N005", "lower bridge N004 N055")
            .replace("\"to\": \"GND\"", "\"to\": \"GDN\"")
            .replace("upper hidden radio", "upper hidden radios")
            .replace("over N002", "over N222")
            .replace("[\"via N005\"]", "[\"via N555\"]");
    Read<SpecimenFile.Stack> stack = SpecimenFile.read(Samples.STACK, text);
    PadMap pads = pads();

    FileFaults thrown =
        catchThrowableOfType(FileFaults.class, () -> MapCheck.checkStack(pads, stack));

    assertThat(thrown.faults())
        .extracting(Fault::value, fault -> fault.place().line())
        .containsExactly(
            tuple("\"standart\"", 4),
            tuple("\"N044\"", 7),
            tuple("\"N055\"", 10),
            tuple("\"GDN\"", 11),
            tuple("\"radios\"", 14),
            tuple("\"N555\"", 18),
            tuple("\"N222\"", 21));
  }
}

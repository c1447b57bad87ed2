package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.junit.jupiter.api.Test;

class RoundTripTest {

  @Test
  void sampleFilesAreWrittenAsTheyAre() throws FileFaults {
    Read<PadMap> pads = PadMapFile.read(Samples.PADS, Samples.text(Samples.PADS));
    Read<FixtureMap> fixture = FixtureMapFile.read(Samples.FIXTURE, Samples.text(Samples.FIXTURE));
    Read<SpecimenFile.Stack> stack = SpecimenFile.read(Samples.STACK, Samples.text(Samples.STACK));

    assertThat(PadMapFile.write(pads.value())).isEqualTo(Samples.text(Samples.PADS));
    assertThat(FixtureMapFile.write(fixture.value())).isEqualTo(Samples.text(Samples.FIXTURE));
    assertThat(SpecimenFile.write(stack.value())).isEqualTo(Samples.text(Samples.STACK));
    assertThat(pads.warnings()).isEmpty();
    assertThat(fixture.warnings()).isEmpty();
    assertThat(stack.warnings()).isEmpty();
  }

  @Test
  void readKeepsTheTextThatWasRead() throws FileFaults {
    String text = Samples.text(Samples.PADS).replace("\n", "\r\n");

    Read<PadMap> read = PadMapFile.read(Samples.PADS, text);

    assertThat(read.text()).isEqualTo(text);
    assertThat(read.value().positions()).hasSize(6);
  }

  @Test
  void thingsAreFoundAgainInTheFile() throws FileFaults {
    Read<PadMap> read = PadMapFile.read(Samples.PADS, Samples.text(Samples.PADS));

    assertThat(read.place("position N004"))
        .isEqualTo(new Place(Samples.PADS, "/positions/3", 22, 5));
    assertThat(read.place("lower net NC").line()).isEqualTo(39);
  }

  @Test
  void randomPadMapsComeBackEqualAndInOrder() throws FileFaults {
    for (int seed = 0; seed < 60; seed++) {
      PadMap map = RandomMaps.padMap(new Random(seed));

      PadMap read = PadMapFile.read("random", PadMapFile.write(map)).value();

      assertThat(read).isEqualTo(map);
      assertThat(read.positions().keySet()).containsExactlyElementsOf(map.positions().keySet());
      assertThat(read.nets().keySet()).containsExactlyInAnyOrderElementsOf(map.nets().keySet());
    }
  }

  @Test
  void channelsInAnyOrderComeBackEqual() throws FileFaults {
    FixtureMap base = FixtureMapFile.read(Samples.FIXTURE, Samples.text(Samples.FIXTURE)).value();
    List<Channel> channels = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      int id = i == 20 ? 999 : i;
      channels.add(
          new Channel(
              i * 2 % 41,
              new Contact.Pad(i < 12 ? Plate.OVER : Plate.UNDER, "N" + id),
              i % 9 == 8 ? Channel.Use.SENSE : Channel.Use.FORCE));
    }
    channels.add(new Channel(77, new Contact.Point("K7"), Channel.Use.FORCE));
    channels.add(new Channel(78, new Contact.Point("K8"), Channel.Use.FORCE));
    channels.add(new Channel(79, new Contact.Point("K9"), Channel.Use.FORCE));
    channels.add(new Channel(80, new Contact.Point("K10"), Channel.Use.FORCE));
    FixtureMap map =
        new FixtureMap(base.name(), base.device(), base.capabilities(), channels, Set.of());

    String text = FixtureMapFile.write(map);

    assertThat(FixtureMapFile.read("random", text).value()).isEqualTo(map);
    assertThat(text).contains("\"point K7..K9\"");
  }
}

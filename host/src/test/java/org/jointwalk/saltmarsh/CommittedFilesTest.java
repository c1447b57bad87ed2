package org.jointwalk.saltmarsh;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.MapCheck;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.Read;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Specimen;
import org.junit.jupiter.api.Test;

class CommittedFilesTest {

  @Test
  void committedFilesAreWhatTheGeneratorMakes() throws IOException, FixtureException {
    Map<String, String> files = WriteFixtureMaps.files();

    assertThat(files).hasSize(9);
    for (Map.Entry<String, String> file : files.entrySet()) {
      assertThat(text(file.getKey())).as(file.getKey()).isEqualTo(file.getValue());
    }
  }

  @Test
  void padMapIsTheRingWithAReferenceForEveryNetThatCanBeRead() throws IOException, FileFaults {
    Read<PadMap> read = PadMapFile.read(SaltmarshS2.FILE, text(SaltmarshS2.FILE));
    PadMap map = read.value();
    Set<NetId> drops = new HashSet<>();
    Set<NetId> toGround = new HashSet<>();
    for (Reference reference : map.references()) {
      (reference instanceof Reference.Drop ? drops : toGround).add(reference.net());
      assertThat(reference.boards()).isEqualTo(WriteFixtureMaps.BOARDS);
    }

    assertThat(read.warnings()).isEmpty();
    assertThat(map).isEqualTo(SaltmarshS2.map());
    assertThat(map.positions()).isEqualTo(SaltmarshS2.unlearned().positions());
    assertThat(map.nets().values())
        .allSatisfy(
            net -> {
              boolean signal = net.role() == Role.SIGNAL && net.dcPath();
              assertThat(drops.contains(net.id())).as(net.id().toString()).isEqualTo(signal);
              assertThat(toGround.contains(net.id()) || net.role() != Role.RAIL)
                  .as(net.id().toString())
                  .isTrue();
            });
  }

  @Test
  void fixturesAndStacksReadBackAsTheyWereMadeAndFitThePadMap() throws IOException, FileFaults {
    PadMap map = SaltmarshS2.map();
    for (FixtureMap fixture :
        Set.of(
            FixtureMaps.photoRelay(map), FixtureMaps.relayMatrix(map), FixtureMaps.fourBus(map))) {
      String file = fixture.name() + ".fixture.json";
      Read<FixtureMap> read = FixtureMapFile.read(file, text(file));
      assertThat(read.value()).isEqualTo(fixture);
      assertThat(read.warnings()).isEmpty();
      assertThat(MapCheck.check(map, read)).isEmpty();
    }
    for (Map.Entry<String, Specimen> stack : Stacks.all().entrySet()) {
      String file = stack.getKey() + ".stack.json";
      Read<SpecimenFile.Stack> read = SpecimenFile.read(file, text(file));
      assertThat(read.value())
          .isEqualTo(new SpecimenFile.Stack(SaltmarshS2.FILE, stack.getValue()));
      assertThat(read.warnings()).isEmpty();
      MapCheck.checkStack(map, read);
    }
  }

  private static String text(String file) throws IOException {
    try (InputStream in = CommittedFilesTest.class.getResourceAsStream("/fixture-maps/" + file)) {
      assertThat(in).as(file + " on the class path").isNotNull();
      return in == null ? "" : new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}

package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.fixture.Channel;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Coverage;
import org.jointwalk.job.Coverage.How;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class MapCoverageTest {

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);
  private final PadMap map = SaltmarshS2.map();

  @BeforeEach
  void sitDown() throws IOException {
    desk = new Desk(home);
    Files.writeString(home.resolve("s2.pads.json"), PadMapFile.write(map));
    Files.writeString(
        home.resolve("photo.fixture.json"), FixtureMapFile.write(FixtureMaps.photoRelay(map)));
  }

  private String files() {
    return " --pads "
        + home.resolve("s2.pads.json")
        + " --fixture "
        + home.resolve("photo.fixture.json");
  }

  private Coverage in(FixtureMap fixture, String setUp) throws Exception {
    return new SoundStack(map, map.interposers().get(0), fixture)
        .in(SetUp.named(setUp).orElseThrow());
  }

  @Test
  void everyPadIsCountedOnceInEverySetUp() throws Exception {
    for (SetUp setUp : SetUp.all()) {
      if (setUp.interposer() || !setUp.boards().isEmpty()) {
        Coverage coverage = in(FixtureMaps.photoRelay(map), setUp.name());
        assertThat(coverage.counts().values().stream().mapToInt(i -> i).sum())
            .isEqualTo(map.positions().size());
      }
    }
  }

  @Test
  void tiedLandsAreSeenAsASetAndUnusedPadsHaveNoPath() throws Exception {
    Coverage coverage = in(FixtureMaps.photoRelay(map), "interposer-on-lower");
    Set<String> tied =
        Set.copyOf(
            map.interposers().get(0).ties().stream().flatMap(t -> t.positions().stream()).toList());
    for (Coverage.Pad pad : coverage.pads()) {
      assertThat(pad.how() == How.MASKED)
          .as(pad.position())
          .isEqualTo(tied.contains(pad.position()));
      if (map.netAt(pad.position(), Side.LOWER).role() == Role.UNUSED) {
        assertThat(pad.how()).isEqualTo(How.NO_DC_PATH);
        assertThat(pad.reason()).isNotBlank();
      }
    }
  }

  @Test
  void theBareInterposerShowsEachViaByItselfWithTwoTipsOnAPad() throws Exception {
    Coverage coverage = in(FixtureMaps.fourBus(map), "interposer");
    assertThat(coverage.pads()).allMatch(pad -> pad.how() == How.BY_ITSELF);
  }

  @Test
  void aPadWhoseProbeIsNotWiredIsNotReachedAndNoOtherIsLost() throws Exception {
    FixtureMap whole = FixtureMaps.photoRelay(map);
    List<Channel> left = new ArrayList<>(whole.channels());
    left.removeIf(c -> c.contact() instanceof Contact.Pad pad && pad.position().equals("N122"));
    FixtureMap less =
        new FixtureMap(whole.name(), whole.device(), whole.capabilities(), left, whole.defective());
    Coverage before = in(whole, "lower-board");
    Coverage after = in(less, "lower-board");
    for (int i = 0; i < before.pads().size(); i++) {
      Coverage.Pad was = before.pads().get(i);
      Coverage.Pad is = after.pads().get(i);
      if (is.position().equals("N122")) {
        assertThat(was.how().showsOpen()).isTrue();
        assertThat(is.how()).isEqualTo(How.NOT_REACHED);
      } else {
        assertThat(is.how().showsOpen()).as(is.position()).isEqualTo(was.how().showsOpen());
      }
    }
  }

  @Test
  void whatAJunctionHidesStandsBesideIt() throws Exception {
    Coverage coverage = in(FixtureMaps.photoRelay(map), "lower-board");
    assertThat(coverage.pads().stream().filter(p -> p.how() == How.BY_DROP))
        .isNotEmpty()
        .allMatch(p -> p.smallest().filter(ohms -> ohms.value() > 0).isPresent());
  }

  @Test
  void jsonHasEveryPadOfEverySetUp() throws IOException {
    desk.done("map coverage" + files() + " --json");
    JsonNode root = new ObjectMapper().readTree(desk.out());
    assertThat(root.get("format").asText()).isEqualTo("jointwalk coverage 1");
    assertThat(root.get("setUps")).hasSize(6);
    for (JsonNode setUp : root.get("setUps")) {
      assertThat(setUp.get("pads")).hasSize(420);
    }
  }

  @Test
  void picturesAreDrawnAndKept() throws IOException {
    Path folder = Files.createDirectory(home.resolve("pictures"));
    desk.done("map coverage" + files() + " --set-up lower-board --draw " + folder);
    assertThat(folder.resolve("lower-board.svg")).content().startsWith("<svg");
    desk.refused(
        "map coverage" + files() + " --set-up lower-board --draw " + folder, "is there already");
    desk.refused("map coverage" + files() + " --draw " + home.resolve("none"), "no folder");
  }

  @Test
  void aSetUpThatIsNoneIsToldWithTheOthers() {
    desk.refused("map coverage" + files() + " --set-up lid", "lid", "lower-board");
  }

  @Test
  void theMapIsDrawnWithTheNetsOfOneBoard() {
    Path svg = home.resolve("ring.svg");
    desk.done("map draw --pads " + home.resolve("s2.pads.json") + " --side upper " + svg);
    assertThat(svg).content().contains("radio board", "data-role=\"GROUND\"", "N420");
    desk.refused(
        "map draw --pads " + home.resolve("s2.pads.json") + " " + home.resolve("s2.pads.json"),
        "is what the command reads");
  }
}

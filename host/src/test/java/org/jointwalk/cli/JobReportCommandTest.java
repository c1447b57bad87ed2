package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class JobReportCommandTest {

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  @BeforeEach
  void sitDown() {
    desk = new Desk(home);
    desk.done("job open --device Saltmarsh --by AB");
  }

  private void shop(String json) throws IOException {
    Files.createDirectories(home.resolve(".jointwalk"));
    Files.writeString(home.resolve(".jointwalk/shop.json"), json);
  }

  @Test
  void aPageNeedsAPlace() {
    desk.refused("job report --job 1", "--html FILE", "--pdf FILE");
  }

  @Test
  void aJobWithoutAPassHasNoReportAndSaysWhatToDo() {
    desk.refused(
        "job report --job 1 --html " + home.resolve("a.html"), "no pass yet", "jointwalk pass");
    assertThat(home.resolve("a.html")).doesNotExist();
  }

  @Test
  void aFileThatIsThereIsKept() throws IOException {
    Path there = Files.writeString(home.resolve("a.html"), "mine");
    desk.refused("job report --job 1 --html " + there, "is there already", "--force");
    assertThat(there).hasContent("mine");
  }

  @Test
  void twoPagesDoNotShareOneFile() {
    Path one = home.resolve("a");
    desk.refused("job report --job 1 --html " + one + " --pdf " + one, "the same file");
  }

  @Test
  void aShopFileThatIsWrongIsToldWithPlaceAndRemedy() throws IOException {
    shop("{\"format\": \"jointwalk shop 1\", \"nam\": \"Reed\"}");
    desk.refused("job report --job 1 --html " + home.resolve("a.html"), "shop.json", "nam", "name");
  }

  @Test
  void aLogoThatIsNoPictureIsRefused() throws IOException {
    Files.createDirectories(home.resolve(".jointwalk"));
    Files.writeString(home.resolve(".jointwalk/logo.png"), "<svg onload='x'/>");
    shop("{\"format\": \"jointwalk shop 1\", \"name\": \"Reed\", \"logo\": \"logo.png\"}");
    desk.refused("job report --job 1 --html " + home.resolve("a.html"), "logo.png", "PNG or JPEG");
  }

  @Test
  void aLogoThatIsTooLargeIsRefusedBeforeItIsUnpacked() throws IOException {
    Files.createDirectories(home.resolve(".jointwalk"));
    ImageIO.write(
        new BufferedImage(3000, 10, BufferedImage.TYPE_BYTE_BINARY),
        "png",
        home.resolve(".jointwalk/logo.png").toFile());
    shop("{\"format\": \"jointwalk shop 1\", \"name\": \"Reed\", \"logo\": \"logo.png\"}");
    desk.refused("job report --job 1 --html " + home.resolve("a.html"), "3000 by 10", "2000");
  }
}

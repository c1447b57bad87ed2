package org.jointwalk.cli;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.imageio.ImageReader;
import javax.imageio.stream.ImageInputStream;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.ShopFile;
import org.jointwalk.report.Shop;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** The option that says who works here. */
final class ShopOption {

  private static final long MOST_BYTES = 2_000_000;
  private static final int MOST_PIXELS = 2_000;

  @Option(
      names = "--shop",
      paramLabel = "FILE",
      description =
          "Name, lines and logo of the shop for the head of the page; without it, shop.json beside"
              + " the job log if it is there.")
  private @Nullable Path file;

  /**
   * The shop that is meant.
   *
   * @param log where the job log is
   * @throws InputException when its file or its logo cannot be used
   */
  Shop shop(Path log) throws InputException {
    Path beside = log.toAbsolutePath().resolveSibling("shop.json");
    Path chosen = file != null ? file : beside;
    if (file == null && !Files.exists(beside)) {
      return Shop.UNNAMED;
    }
    try {
      ShopFile.Entry entry = ShopFile.read(chosen);
      Optional<String> logo = Optional.empty();
      if (entry.logo().isPresent()) {
        logo = Optional.of(picture(chosen.toAbsolutePath().resolveSibling(entry.logo().get())));
      }
      return new Shop(entry.name(), entry.lines(), logo);
    } catch (FileFaults e) {
      throw new InputException(FaultText.of(e));
    }
  }

  /** The picture drawn anew, so that nothing but its pixels gets into a page. */
  private static String picture(Path path) throws InputException {
    List<String> wrong = new ArrayList<>();
    try {
      if (Files.size(path) > MOST_BYTES) {
        wrong.add("it has more than " + MOST_BYTES / 1_000_000 + " megabytes");
      } else {
        Optional<BufferedImage> image = read(path, wrong);
        if (image.isPresent()) {
          ByteArrayOutputStream bytes = new ByteArrayOutputStream();
          ImageIO.write(image.get(), "png", bytes);
          return "data:image/png;base64," + Base64.getEncoder().encodeToString(bytes.toByteArray());
        }
      }
    } catch (IOException e) {
      wrong.add("it cannot be read (" + e.getClass().getSimpleName() + ")");
    }
    throw new InputException(
        "The logo "
            + path
            + " cannot be used: "
            + String.join(", ", wrong)
            + ". Give a PNG or JPEG picture of at most "
            + MOST_PIXELS
            + " by "
            + MOST_PIXELS
            + " pixels.");
  }

  private static Optional<BufferedImage> read(Path path, List<String> wrong) throws IOException {
    try (ImageInputStream in = ImageIO.createImageInputStream(path.toFile())) {
      var readers = ImageIO.getImageReaders(in);
      if (!readers.hasNext()) {
        wrong.add("it is no picture that is known here");
        return Optional.empty();
      }
      ImageReader reader = readers.next();
      try {
        reader.setInput(in);
        // Asked before the pixels are unpacked: a small file may claim a huge picture.
        if (reader.getWidth(0) > MOST_PIXELS || reader.getHeight(0) > MOST_PIXELS) {
          wrong.add("it is " + reader.getWidth(0) + " by " + reader.getHeight(0) + " pixels");
          return Optional.empty();
        }
        return Optional.of(reader.read(0));
      } finally {
        reader.dispose();
      }
    }
  }
}

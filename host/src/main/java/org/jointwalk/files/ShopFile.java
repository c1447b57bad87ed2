package org.jointwalk.files;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;

/**
 * Who works here, for the head of reports. Format {@code jointwalk shop 1}: {@code name}, {@code
 * lines} (a list of texts, optional) and {@code logo} (a PNG or JPEG file beside it, optional).
 * Stateless.
 */
public final class ShopFile {

  /** What the file calls its format. */
  public static final String FORMAT = "jointwalk shop 1";

  private static final JsonFile<Entry> FILE = new JsonFile<>(FORMAT, ShopFile::read);

  private ShopFile() {}

  /**
   * What the file says.
   *
   * @param name of the shop
   * @param lines below the name
   * @param logo path of a picture, relative to the folder of the file
   */
  public record Entry(String name, List<String> lines, Optional<String> logo) {

    public Entry {
      lines = List.copyOf(lines);
    }
  }

  /**
   * Reads the file.
   *
   * @throws FileFaults with all that is wrong with it
   */
  public static Entry read(Path path) throws FileFaults {
    return FILE.read(path).value();
  }

  private static Supplier<Entry> read(Field root) {
    root.only(List.of("format", "name", "lines", "logo", "$schema"));
    String name = root.at("name").words();
    List<String> lines = root.at("lines").eachIfGiven(Field::words);
    Optional<String> logo = root.at("logo").maybe(Field::words);
    return () -> new Entry(name, lines, logo);
  }
}

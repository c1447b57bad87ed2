package org.jointwalk.files;

import java.nio.file.Path;
import org.jointwalk.fixture.FixtureMap;

/**
 * Fixture maps as files, {@code *.fixture.json}. The format is described in {@code
 * fixture-maps/README.md}. Whether a fixture map fits a pad map is told by {@link MapCheck}.
 * Stateless.
 */
public final class FixtureMapFile {

  /** What the file calls its format. */
  public static final String FORMAT = "jointwalk fixture map 1";

  private static final JsonFile<FixtureMap> FILE = new JsonFile<>(FORMAT, FixtureMapText::read);

  private FixtureMapFile() {}

  /**
   * Reads a fixture map.
   *
   * @throws FileFaults with all that is wrong with the file
   */
  public static Read<FixtureMap> read(Path path) throws FileFaults {
    return FILE.read(path);
  }

  /**
   * Reads a fixture map from its text.
   *
   * @param file what to call it in messages
   * @throws FileFaults with all that is wrong with the text
   */
  public static Read<FixtureMap> read(String file, String text) throws FileFaults {
    return FILE.read(file, text);
  }

  /** The text of a fixture map; neighbouring channels of one kind take one line. */
  public static String write(FixtureMap map) {
    return FixtureMapText.write(map);
  }
}

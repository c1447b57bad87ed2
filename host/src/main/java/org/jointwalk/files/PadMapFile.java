package org.jointwalk.files;

import java.nio.file.Path;
import org.jointwalk.stack.PadMap;

/**
 * Pad maps as files, {@code *.pads.json}. The format is described in {@code
 * fixture-maps/README.md}. Reading costs a few milliseconds for a ring of 420 positions. Stateless.
 */
public final class PadMapFile {

  /** What the file calls its format. */
  public static final String FORMAT = "jointwalk pad map 1";

  private static final JsonFile<PadMap> FILE = new JsonFile<>(FORMAT, PadMapText::read);

  private PadMapFile() {}

  /**
   * Reads a pad map.
   *
   * @throws FileFaults with all that is wrong with the file
   */
  public static Read<PadMap> read(Path path) throws FileFaults {
    return FILE.read(path);
  }

  /**
   * Reads a pad map from its text.
   *
   * @param file what to call it in messages
   * @throws FileFaults with all that is wrong with the text
   */
  public static Read<PadMap> read(String file, String text) throws FileFaults {
    return FILE.read(file, text);
  }

  /** The text of a pad map, with a position, net, load, point or reference a line. */
  public static String write(PadMap map) {
    return PadMapText.write(map);
  }
}

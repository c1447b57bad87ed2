package org.jointwalk.files;

import java.nio.file.Path;
import org.jointwalk.stack.Specimen;

/**
 * Simulated stacks as files, {@code *.stack.json}. The format is described in {@code
 * fixture-maps/README.md}. Whether a stack fits its pad map is told by {@link MapCheck}. Stateless.
 */
public final class SpecimenFile {

  /** What the file calls its format. */
  public static final String FORMAT = "jointwalk stack 1";

  private static final JsonFile<Stack> FILE = new JsonFile<>(FORMAT, SpecimenText::read);

  private SpecimenFile() {}

  /**
   * A stack and the model that it is one of.
   *
   * @param pads path of its pad map, relative to the folder of the stack file
   * @param specimen what is in it
   */
  public record Stack(String pads, Specimen specimen) {}

  /**
   * Reads a stack.
   *
   * @throws FileFaults with all that is wrong with the file
   */
  public static Read<Stack> read(Path path) throws FileFaults {
    return FILE.read(path);
  }

  /**
   * Reads a stack from its text.
   *
   * @param file what to call it in messages
   * @throws FileFaults with all that is wrong with the text
   */
  public static Read<Stack> read(String file, String text) throws FileFaults {
    return FILE.read(file, text);
  }

  /** The text of a stack, with a defect, outcome or trouble a line. */
  public static String write(Stack stack) {
    return SpecimenText.write(stack);
  }
}

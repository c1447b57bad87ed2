package org.jointwalk.saltmarsh;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.stack.PadMap;

/** The device of the demo: a handheld data terminal for bird-ringing crews, invented. */
public final class SaltmarshS2 {

  /** Name of its pad map's file. */
  static final String FILE = "saltmarsh-s2.pads.json";

  private static final PadMap UNLEARNED = Ring.named("Saltmarsh S2", 420, 3, 1);

  private SaltmarshS2() {}

  /** Read when it is first asked for, since the file is made from the map without it. */
  private static final class Committed {
    private static final PadMap MAP = committed();
  }

  /** Its pad map as it is committed, with known-good readings. */
  public static PadMap map() {
    return Committed.MAP;
  }

  /** Its pad map without known-good readings. */
  public static PadMap unlearned() {
    return UNLEARNED;
  }

  private static PadMap committed() {
    try (InputStream in = SaltmarshS2.class.getResourceAsStream("/fixture-maps/" + FILE)) {
      if (in == null) {
        throw new IllegalStateException(FILE + " is not on the class path");
      }
      return PadMapFile.read(FILE, new String(in.readAllBytes(), StandardCharsets.UTF_8)).value();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (FileFaults e) {
      throw new IllegalStateException(e);
    }
  }
}

package org.jointwalk.saltmarsh;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.fixture.FixtureException;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.PadMap;

/**
 * Writes the maps and stacks of the Saltmarsh S2 anew. After {@code mvn package}, from the root:
 *
 * <pre>{@code
 * java -cp 'host/target/test-classes:host/target/jointwalk/lib/*' \
 *     org.jointwalk.saltmarsh.WriteFixtureMaps fixture-maps
 * }</pre>
 */
public final class WriteFixtureMaps {

  /** Good stacks that the known-good readings are learned from. */
  static final int BOARDS = 20;

  private WriteFixtureMaps() {}

  /**
   * Writes every file into a folder that exists.
   *
   * @param args the folder
   */
  public static void main(String[] args) throws IOException, FixtureException {
    if (args.length != 1) {
      throw new IllegalArgumentException("say which folder to write to, and nothing else");
    }
    for (Map.Entry<String, String> file : files().entrySet()) {
      Files.writeString(Path.of(args[0], file.getKey()), file.getValue(), StandardCharsets.UTF_8);
    }
  }

  /** Name and text of every file, learned and made anew; takes some seconds. */
  static Map<String, String> files() throws FixtureException {
    PadMap unlearned = SaltmarshS2.unlearned();
    PadMap map = Learn.learned(unlearned, BOARDS, Learn.virtual(unlearned));
    Map<String, String> files = new LinkedHashMap<>();
    files.put(SaltmarshS2.FILE, PadMapFile.write(map));
    for (FixtureMap fixture :
        List.of(
            FixtureMaps.photoRelay(map), FixtureMaps.relayMatrix(map), FixtureMaps.fourBus(map))) {
      files.put(fixture.name() + ".fixture.json", FixtureMapFile.write(fixture));
    }
    Stacks.all()
        .forEach(
            (name, stack) ->
                files.put(
                    name + ".stack.json",
                    SpecimenFile.write(new SpecimenFile.Stack(SaltmarshS2.FILE, stack))));
    return files;
  }
}

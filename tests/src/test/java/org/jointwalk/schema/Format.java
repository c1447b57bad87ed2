package org.jointwalk.schema;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.jointwalk.files.Fault;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.files.SpecimenFile;

/** One file format with its schema, its reader and its files. */
enum Format {
  PADS("jointwalk pad map 1", "pad-map.schema.json", "pads.json"),
  FIXTURE("jointwalk fixture map 1", "fixture-map.schema.json", "fixture.json"),
  STACK("jointwalk stack 1", "stack.schema.json", "stack.json");

  private static final Path OWN = Path.of("src", "test", "resources", "org", "jointwalk", "schema");

  private final String name;
  private final String ending;
  private final Schema schema;

  Format(String name, String schemaFile, String ending) {
    this.name = name;
    this.ending = ending;
    this.schema =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(text(maps().resolve(schemaFile)), InputFormat.JSON);
  }

  private static Path maps() {
    return Path.of("..", "fixture-maps");
  }

  static String text(Path path) {
    try {
      return Files.readString(path);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** A file that has every entry that the format knows. */
  Path everyEntry() {
    return OWN.resolve("every-entry." + ending);
  }

  /** All files of this format that are committed for users. */
  List<Path> committed() {
    try (Stream<Path> files = Files.list(maps())) {
      return files.filter(path -> path.toString().endsWith("." + ending)).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The examples of this format in the description of the formats. */
  List<String> described() {
    return Stream.of(text(maps().resolve("README.md")).split("```", -1))
        .filter(block -> block.startsWith("json"))
        .map(block -> block.substring("json".length()))
        .filter(block -> block.contains("\"" + name + "\""))
        .toList();
  }

  /** What the schema has against a text; nothing when it is valid. */
  List<String> schemaFaults(String text) {
    return schema.validate(text, InputFormat.JSON).stream().map(Object::toString).toList();
  }

  /** What the program has against a text; nothing when it is read. */
  List<Fault> readerFaults(String text) {
    try {
      switch (this) {
        case PADS -> PadMapFile.read(ending, text);
        case FIXTURE -> FixtureMapFile.read(ending, text);
        case STACK -> SpecimenFile.read(ending, text);
      }
      return List.of();
    } catch (FileFaults faults) {
      return faults.faults();
    }
  }
}

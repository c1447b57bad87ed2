package org.jointwalk.cli;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import org.jointwalk.files.Fault;
import org.jointwalk.files.Read;
import org.jointwalk.files.SpecimenFile;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.Side;
import org.jointwalk.stack.Specimen;

/**
 * What sound map files hold, as JSON: names in snake case with their unit, choices as the files
 * write them. Names are added, never changed.
 */
final class MapJson {

  private final JsonGenerator json;

  private MapJson(JsonGenerator json) {
    this.json = json;
  }

  /**
   * Files that can be used together.
   *
   * @param pads the model
   * @param fixtures that fit it
   * @param stacks that fit it
   * @param warnings about all of them
   */
  record Sound(
      Read<PadMap> pads,
      List<Read<FixtureMap>> fixtures,
      List<Read<SpecimenFile.Stack>> stacks,
      List<Fault> warnings) {

    Sound {
      fixtures = List.copyOf(fixtures);
      stacks = List.copyOf(stacks);
      warnings = List.copyOf(warnings);
    }
  }

  static void write(PrintWriter out, Sound sound) {
    JsonText.write(out, generator -> new MapJson(generator).all(sound));
  }

  private void all(Sound sound) throws IOException {
    json.writeStartObject();
    json.writeObjectFieldStart("pads");
    pads(sound.pads());
    json.writeEndObject();
    json.writeArrayFieldStart("fixtures");
    for (Read<FixtureMap> fixture : sound.fixtures()) {
      fixture(fixture);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("stacks");
    for (Read<SpecimenFile.Stack> stack : sound.stacks()) {
      stack(stack);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("warnings");
    for (Fault warning : sound.warnings()) {
      warning(warning);
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private void pads(Read<PadMap> read) throws IOException {
    PadMap map = read.value();
    json.writeStringField("file", read.file());
    json.writeStringField("device", map.device());
    json.writeStringField("revision", map.revision());
    json.writeNumberField("positions", map.positions().size());
    json.writeObjectFieldStart("nets");
    for (Side side : Side.values()) {
      json.writeObjectFieldStart(Choice.word(side));
      for (Map.Entry<Role, Integer> entry : MapFigures.nets(map, side).entrySet()) {
        json.writeNumberField(Choice.word(entry.getKey()), entry.getValue());
      }
      json.writeEndObject();
    }
    json.writeEndObject();
    json.writeArrayFieldStart("functions");
    for (Map.Entry<String, Integer> entry : MapFigures.functions(map).entrySet()) {
      json.writeStartObject();
      json.writeStringField("function", entry.getKey());
      json.writeNumberField("positions", entry.getValue());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeArrayFieldStart("interposers");
    for (Interposer interposer : map.interposers()) {
      json.writeStartObject();
      json.writeStringField("variant", interposer.variant());
      json.writeNumberField("thickness_mm", interposer.thicknessMm());
      json.writeBooleanField("mirrored", interposer.mirrored());
      json.writeNumberField("ties", interposer.ties().size());
      json.writeNumberField("tied_positions", MapFigures.tied(interposer));
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeNumberField("access_points", map.points().size());
    json.writeNumberField("loads", map.loads().size());
    int drops = MapFigures.references(map, Reference.Drop.class);
    json.writeObjectFieldStart("references");
    json.writeNumberField("drop", drops);
    json.writeNumberField("to_ground", map.references().size() - drops);
    json.writeEndObject();
  }

  private void fixture(Read<FixtureMap> read) throws IOException {
    FixtureMap fixture = read.value();
    json.writeStartObject();
    json.writeStringField("file", read.file());
    json.writeStringField("name", fixture.name());
    json.writeStringField("switching", Choice.word(fixture.capabilities().switching()));
    json.writeStringField("kelvin", Choice.word(fixture.capabilities().kelvin()));
    json.writeNumberField("channels", fixture.channels().size());
    json.writeNumberField("defective_channels", fixture.defective().size());
    json.writeObjectFieldStart("wired");
    for (Plate plate : Plate.values()) {
      json.writeNumberField(Choice.word(plate), MapFigures.wired(fixture, plate));
    }
    json.writeNumberField("points", MapFigures.points(fixture));
    json.writeEndObject();
    json.writeEndObject();
  }

  private void stack(Read<SpecimenFile.Stack> read) throws IOException {
    Specimen inside = read.value().specimen();
    json.writeStartObject();
    json.writeStringField("file", read.file());
    json.writeStringField("variant", inside.variant());
    json.writeNumberField("defects", inside.defects().conditions().size());
    json.writeNumberField("outcomes", inside.outcomes().size());
    json.writeNumberField("troubles", inside.troubles().size());
    json.writeEndObject();
  }

  private void warning(Fault warning) throws IOException {
    json.writeStartObject();
    json.writeStringField("file", warning.place().file());
    if (warning.place().line() > 0) {
      json.writeNumberField("line", warning.place().line());
    }
    if (warning.place().column() > 0) {
      json.writeNumberField("column", warning.place().column());
    }
    text("path", warning.place().path());
    json.writeStringField("reason", warning.reason());
    text("value", warning.value());
    json.writeStringField("allowed", warning.allowed());
    text("hint", warning.hint());
    json.writeEndObject();
  }

  private void text(String name, String value) throws IOException {
    if (!value.isEmpty()) {
      json.writeStringField(name, value);
    }
  }
}

package org.jointwalk.files;

import java.util.List;
import org.jointwalk.job.Action;
import org.jointwalk.stack.Side;

/** Actions to text and back; the word under {@code action} says which. Stateless. */
final class ActionText {

  private static final List<String> KNOWN =
      List.of(
          "split",
          "lift",
          "wick",
          "wash",
          "reball",
          "pad-rebuilt",
          "jumper",
          "part-replaced",
          "probes-cleaned");

  private ActionText() {}

  static void write(JsonOut out, Action action) {
    if (action instanceof Action.Split split) {
      out.with("action", "split").with("let_go", split.letGo());
    } else if (action instanceof Action.Lift) {
      out.with("action", "lift");
    } else if (action instanceof Action.Wick wick) {
      out.with("action", "wick").with("side", wick.side());
    } else if (action instanceof Action.Wash) {
      out.with("action", "wash");
    } else if (action instanceof Action.Reball reball) {
      out.with("action", "reball")
          .with("side", reball.side())
          .with("positions", reball.positions());
    } else if (action instanceof Action.PadRebuilt rebuilt) {
      out.with("action", "pad-rebuilt")
          .with("side", rebuilt.side())
          .with("position", rebuilt.position());
    } else if (action instanceof Action.Jumper jumper) {
      out.with("action", "jumper")
          .with("side", jumper.side())
          .with("position", jumper.position())
          .with("to", jumper.to());
    } else if (action instanceof Action.PartReplaced replaced) {
      out.with("action", "part-replaced")
          .with("side", replaced.side())
          .with("part", replaced.part());
    } else if (action instanceof Action.ProbesCleaned) {
      out.with("action", "probes-cleaned");
    } else {
      throw new IllegalArgumentException("no text for " + action);
    }
  }

  static Action read(Field body) {
    String word = body.at("action").text();
    return switch (word) {
      case "split" -> new Action.Split(body.at("let_go").word(Side.class));
      case "lift" -> new Action.Lift();
      case "wick" -> new Action.Wick(side(body));
      case "wash" -> new Action.Wash();
      case "reball" -> new Action.Reball(side(body), body.at("positions").each(Field::text));
      case "pad-rebuilt" -> new Action.PadRebuilt(side(body), body.at("position").text());
      case "jumper" ->
          new Action.Jumper(side(body), body.at("position").text(), body.at("to").text());
      case "part-replaced" -> new Action.PartReplaced(side(body), body.at("part").text());
      case "probes-cleaned" -> new Action.ProbesCleaned();
      default -> {
        body.at("action").unknown("this action is not known", word, KNOWN);
        yield new Action.Wash();
      }
    };
  }

  private static Side side(Field body) {
    return body.at("side").word(Side.class);
  }
}

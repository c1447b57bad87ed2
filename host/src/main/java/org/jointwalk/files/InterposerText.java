package org.jointwalk.files;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Tie;

/** The interposer variants of a pad map. Stateless. */
final class InterposerText {

  private InterposerText() {}

  static List<Interposer> read(Field field, Known known) {
    List<Interposer> variants = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (Field item : field.items()) {
      item.only(List.of("variant", "thickness_mm", "mirrored", "via_ohms", "ties"));
      String name = item.at("variant").words();
      if (!name.equals(Field.STAND_IN) && !names.add(name)) {
        item.at("variant")
            .error("the map has this variant already", "each variant once", "Rename one");
      }
      variants.add(
          new Interposer(
              name,
              item.at("thickness_mm").positive(),
              item.at("mirrored").maybe(Field::flag).orElse(false),
              item.at("via_ohms").maybe(f -> new Ohms(f.notNegative())).orElse(Defaults.VIA),
              ties(item.at("ties"), known)));
    }
    if (field.isList() && variants.isEmpty()) {
      field.error(
          "the map has no interposer",
          "at least one variant, the usual one first",
          "Add {\"variant\": \"standard\", \"thickness_mm\": 1}");
    }
    return variants;
  }

  private static List<Tie> ties(Field field, Known known) {
    List<Tie> ties = new ArrayList<>();
    Set<Node.Land> tied = new HashSet<>();
    for (Field item : field.given() ? field.items() : List.<Field>of()) {
      item.only(List.of("where", "ohms", "positions"));
      Tie.Where where = item.at("where").word(Tie.Where.class);
      Ohms ohms = item.at("ohms").maybe(f -> new Ohms(f.notNegative())).orElse(Defaults.TIE);
      Field list = item.at("positions");
      List<String> positions = known.positions(list);
      if (positions.size() < 2) {
        if (list.isList()) {
          list.error(
              "a tie joins at least two positions", "two or more ids", "Add one or drop the tie");
        }
        continue;
      }
      Tie tie = new Tie(where, positions, ohms);
      for (int i = 0; i < positions.size(); i++) {
        if (!free(tie, positions.get(i), tied)) {
          list.items()
              .get(i)
              .error(
                  "another tie joins this position on the same face",
                  "each land in one tie",
                  "Make one tie of the two");
        }
      }
      ties.add(tie);
    }
    return ties;
  }

  private static boolean free(Tie tie, String position, Set<Node.Land> tied) {
    boolean free = true;
    for (Face face : Face.values()) {
      if (tie.reaches(face) && !position.equals(Field.STAND_IN)) {
        free &= tied.add(new Node.Land(position, face));
      }
    }
    return free;
  }

  static void write(JsonOut out, List<Interposer> variants) {
    out.arrayInLines();
    for (Interposer variant : variants) {
      out.objectInLines()
          .with("variant", variant.variant())
          .with("thickness_mm", variant.thicknessMm())
          .with("mirrored", variant.mirrored())
          .with("via_ohms", variant.via().value())
          .key("ties")
          .arrayInLines();
      for (Tie tie : variant.ties()) {
        out.object()
            .with("where", tie.where())
            .with("ohms", tie.ohms().value())
            .with("positions", tie.positions())
            .end();
      }
      out.end().end();
    }
    out.end();
  }
}

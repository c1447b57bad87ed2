package org.jointwalk.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;

/** Draws a console text as the picture that the README shows. */
final class PassPicture {

  private static final double CHARACTER = 7.8;
  private static final double LINE = 17;
  private static final double MARGIN = 18;
  private static final int COLUMNS = 82;

  private PassPicture() {}

  /** Writes the picture anew: the demo's pass with the interposer on the lower board. */
  public static void main(String[] args) throws IOException {
    Path home = Files.createTempDirectory("picture");
    Files.writeString(
        Path.of(args[0]), draw(DemoTest.interposerOnLower(new Desk(home))), StandardCharsets.UTF_8);
  }

  /**
   * Draws lines of text.
   *
   * @param lines at most 80 columns wide; the third is the finding
   */
  static String draw(List<String> lines) {
    StringBuilder svg = new StringBuilder();
    svg.append(
        String.format(
            Locale.ROOT,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %.0f %.0f\""
                + " font-family=\"DejaVu Sans Mono, Menlo, Consolas, monospace\" font-size=\"13\">%n",
            2 * MARGIN + COLUMNS * CHARACTER,
            2 * MARGIN + lines.size() * LINE));
    svg.append("<rect width=\"100%\" height=\"100%\" rx=\"8\" fill=\"#f7f5ef\"/>\n");
    boolean finding = false;
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      finding = i == 2 || (finding && !line.isBlank());
      boolean strong = finding || line.startsWith("NEXT") || line.startsWith("NOT SEEN");
      svg.append(
          String.format(
              Locale.ROOT,
              "<text x=\"%.0f\" y=\"%.0f\" xml:space=\"preserve\" fill=\"%s\"%s>%s</text>%n",
              MARGIN,
              MARGIN + (i + 0.75) * LINE,
              finding ? "#8c1d18" : "#24292e",
              strong ? " font-weight=\"bold\"" : "",
              line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")));
    }
    return svg.append("</svg>\n").toString().replace("\r\n", "\n");
  }
}

package org.jointwalk.report;

import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;

/**
 * Prints a page to PDF, as text that can be selected. Letters beyond Western European ones need a
 * font of the computer; without one they print as {@code #}. Stateless.
 */
public final class PdfPrinter {

  /** Fonts with many letters, where the common systems keep them. */
  private static final List<String> FONTS =
      List.of(
          "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
          "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
          "/usr/share/fonts/truetype/noto/NotoSans-Regular.ttf",
          "/Library/Fonts/Arial Unicode.ttf",
          "C:\\Windows\\Fonts\\arial.ttf");

  private PdfPrinter() {}

  /**
   * Prints.
   *
   * @param html a page of {@link JobReport}
   * @return the file's bytes
   */
  public static byte[] print(String html) {
    XRLog.setLoggingEnabled(false);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useSVGDrawer(new BatikSVGDrawer());
    font().ifPresent(file -> builder.useFont(file, "Report"));
    // Nothing of a page may lead to a file or to the network.
    builder.useUriResolver((base, uri) -> uri.startsWith("data:") ? uri : null);
    builder.withHtmlContent(html, null);
    builder.toStream(bytes);
    try {
      builder.run();
    } catch (IOException e) {
      throw new UncheckedIOException("a page in memory cannot fail to be printed", e);
    }
    return bytes.toByteArray();
  }

  private static Optional<File> font() {
    return FONTS.stream().map(File::new).filter(File::canRead).findFirst();
  }
}

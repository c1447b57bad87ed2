package org.jointwalk.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.text.PDFTextStripper;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.report.JobReport.Reader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.xml.sax.InputSource;

class JobReportTest {

  private static final String HASH = "ab".repeat(32);

  private static JobReport report(Shop shop) {
    return new JobReport(
        new JobReport.Frame(shop, List.of("Eyes: shield on."), "2026-03-02 12:00", HASH, "0.1"));
  }

  private static String page(Reader reader, Event... more) {
    List<Event> events = Sample.events("KM");
    events.addAll(List.of(more));
    Job job = Sample.job(events);
    return report(Shop.UNNAMED).html(reader, Sample.map(), job, Sample.verdict());
  }

  private static Document parse(String html) {
    try {
      return DocumentBuilderFactory.newDefaultInstance()
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(html)));
    } catch (Exception e) {
      throw new AssertionError("not well-formed: " + html, e);
    }
  }

  @Test
  void theTechniciansPageHasFindingEvidenceRuleCautionsAndRecord() {
    String words = parse(page(Reader.TECHNICIAN)).getDocumentElement().getTextContent();
    assertThat(words)
        .contains(Sample.verdict().headline())
        .contains("Not seen, and why")
        .contains("Evidence of pass 1")
        .contains("N17-N18")
        .contains("4.5")
        .contains("Fixture and decision rule")
        .contains("Eyes: shield on.")
        .contains(HASH);
  }

  @Test
  void everyPadWithAFaultIsInTheEvidence() {
    String words = parse(page(Reader.TECHNICIAN)).getDocumentElement().getTextContent();
    for (String pad : Sample.open()) {
      assertThat(words).contains(pad);
    }
  }

  @Test
  void theOwnersPageIsShortAndPromisesNothing() {
    Document page = parse(page(Reader.OWNER));
    String words = page.getElementsByTagName("body").item(0).getTextContent();
    String said = words.replaceAll("(?s)<svg.*?</svg>", "");
    assertThat(said)
        .contains("What we found", "What was not measured")
        .doesNotContain("%", "guarantee", "promise", "Evidence", "probability");
  }

  @Test
  void whatPeopleTypedStaysText() {
    String typed = "<script>alert(1)</script> & \"quoted\" 'so' ${1} @if(true)";
    for (Reader reader : Reader.values()) {
      String html = page(reader, new Event.Noted(typed, "<b>KM</b>"));
      assertThat(html).doesNotContain("<script", "<b>KM");
      parse(html);
    }
    assertThat(
            parse(page(Reader.TECHNICIAN, new Event.Noted(typed, "KM")))
                .getDocumentElement()
                .getTextContent())
        .contains(typed);
  }

  @Test
  void thePageNeedsNothingFromOutside() {
    for (Reader reader : Reader.values()) {
      assertThat(
              page(reader)
                  .replace("http://www.w3.org/2000/svg", "")
                  .replace("http://www.w3.org/1999/xhtml", ""))
          .doesNotContain("http", "<script", "<link", "@import", "file:");
    }
  }

  @Test
  void theShopStandsInTheHead() {
    Shop shop =
        new Shop("Reed & Sedge", List.of("Quay 4"), Optional.of("data:image/png;base64,AA"));
    String html = report(shop).html(Reader.OWNER, Sample.map(), Sample.job(), Sample.verdict());
    assertThat(html).contains("Reed &amp; Sedge", "Quay 4", "data:image/png;base64,AA");
    assertThatThrownBy(() -> new Shop("x", List.of(), Optional.of("http://x/y.png")))
        .isInstanceOf(IllegalArgumentException.class);
  }

  @Test
  void theTextOfThePrintedPageCanBeSelected() throws IOException {
    byte[] pdf = PdfPrinter.print(page(Reader.TECHNICIAN));
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(new PDFTextStripper().getText(document))
          .contains(Sample.verdict().headline().substring(0, 12))
          .contains("N17-N18")
          .contains("page 1 of " + document.getNumberOfPages());
    }
  }

  @Test
  void thePrinterReadsNoFileThatAPageNames(@TempDir Path folder) throws IOException {
    Path picture = folder.resolve("picture.png");
    ImageIO.write(new BufferedImage(9, 9, BufferedImage.TYPE_INT_RGB), "png", picture.toFile());
    String inside =
        "data:image/png;base64," + Base64.getEncoder().encodeToString(Files.readAllBytes(picture));
    assertThat(hasPicture(picture.toUri().toString())).isFalse();
    assertThat(hasPicture(inside)).isTrue();
  }

  private static boolean hasPicture(String address) throws IOException {
    String html =
        page(Reader.OWNER).replace("<h1>", "<img src=\"" + address + "\" alt=\"\" /><h1>");
    try (PDDocument document = Loader.loadPDF(PdfPrinter.print(html))) {
      PDResources things = document.getPage(0).getResources();
      for (COSName name : things.getXObjectNames()) {
        if (things.isImageXObject(name)) {
          return true;
        }
      }
      return false;
    }
  }
}

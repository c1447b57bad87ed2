package org.jointwalk.report;

import gg.jte.ContentType;
import gg.jte.TemplateEngine;
import gg.jte.output.StringOutput;
import java.util.List;
import org.jointwalk.job.Job;
import org.jointwalk.job.Verdict;
import org.jointwalk.stack.PadMap;

/**
 * A job as a page to keep, to print or to hand out: one HTML document that needs nothing from
 * outside. Every text is escaped where it is placed. Immutable.
 */
public final class JobReport {

  /** For whom a page is. */
  public enum Reader {
    /** Who works on the device: everything, with its evidence. */
    TECHNICIAN("report.jte"),
    /** Whose device it is: half a page in plain words. */
    OWNER("owner.jte");

    private final String template;

    Reader(String template) {
      this.template = template;
    }
  }

  /**
   * What stands around the job on a page.
   *
   * @param shop in the head
   * @param cautions of the work; shown to the technician
   * @param made when the page was made, in words
   * @param hash SHA-256 of the job's record
   * @param program version
   */
  public record Frame(Shop shop, List<String> cautions, String made, String hash, String program) {

    public Frame {
      cautions = List.copyOf(cautions);
    }
  }

  private final Frame frame;

  /**
   * @param frame of every page
   */
  public JobReport(Frame frame) {
    this.frame = frame;
  }

  /**
   * Makes a page.
   *
   * @param map the model
   * @param job to tell of
   * @param verdict on it
   * @return a well-formed XHTML document in UTF-8
   */
  public String html(Reader reader, PadMap map, Job job, Verdict verdict) {
    Sheet sheet =
        reader == Reader.TECHNICIAN
            ? new TechnicianSheet(map).of(job, verdict, frame)
            : new OwnerSheet(map).of(job, verdict, frame);
    StringOutput page = new StringOutput();
    TemplateEngine.createPrecompiled(
            null, ContentType.Html, JobReport.class.getClassLoader(), "org.jointwalk.report")
        .render(reader.template, sheet, page);
    return page.toString();
  }
}

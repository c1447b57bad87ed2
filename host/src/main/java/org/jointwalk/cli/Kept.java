package org.jointwalk.cli;

import java.util.Optional;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.FixtureMapFile;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.PassRecord;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Interposer;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;

/** The maps of a job's passes, as the log kept them when they were used. */
final class Kept {

  private final JobLog log;

  Kept(JobLog log) {
    this.log = log;
  }

  /**
   * The pad map of the job's last pass.
   *
   * @throws InputException when nothing was measured yet
   */
  PadMap map(Job job) throws InputException {
    return pads(last(job).begun());
  }

  /** The variant of the job's last pass. */
  Interposer interposer(Job job) throws InputException {
    return interposer(last(job).begun());
  }

  private static PassRecord last(Job job) throws InputException {
    return job.passes().stream()
        .reduce((first, second) -> second)
        .orElseThrow(
            () ->
                new InputException(
                    job.id()
                        + " has no pass yet. Measure first: jointwalk pass --job "
                        + job.id()));
  }

  /** What was in the fixture in a pass. */
  Assembly assembly(PassRecord pass) {
    SetUp setUp =
        SetUp.named(pass.begun().setUp())
            .orElseThrow(() -> new JobLogException("no set-up " + pass.begun().setUp()));
    return new Assembly(pads(pass.begun()), interposer(pass.begun()), setUp);
  }

  private Interposer interposer(Event.PassBegun begun) {
    return pads(begun).interposers().stream()
        .filter(i -> i.variant().equals(begun.variant()))
        .findFirst()
        .orElseThrow(
            () -> new JobLogException("the kept pad map has no variant " + begun.variant()));
  }

  private PadMap pads(Event.PassBegun begun) {
    try {
      return PadMapFile.read("pad map of pass " + begun.pass(), text(begun.padMap())).value();
    } catch (FileFaults e) {
      throw new JobLogException("the kept pad map cannot be read: " + e.getMessage(), e);
    }
  }

  /** The fixture map of a pass. */
  FixtureMap fixtureMap(Event.PassBegun begun) {
    try {
      return FixtureMapFile.read("fixture map of pass " + begun.pass(), text(begun.fixtureMap()))
          .value();
    } catch (FileFaults e) {
      throw new JobLogException("the kept fixture map cannot be read: " + e.getMessage(), e);
    }
  }

  private String text(String hash) {
    Optional<String> text = log.text(hash);
    return text.orElseThrow(
        () ->
            new JobLogException(
                "the log lacks a text that a pass refers to (" + hash + "). Bring back a backup."));
  }
}

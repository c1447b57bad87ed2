package org.jointwalk.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jointwalk.files.FileFaults;
import org.jointwalk.files.PadMapFile;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;
import org.jointwalk.stack.PadMap;

/** The jobs of one log, as commands ask for them. Not safe for use by several threads. */
final class Jobs implements AutoCloseable {

  private static final Pattern ID = Pattern.compile("(?:[Jj]-?)?0*([0-9]{1,9})");

  private final JobLog log;
  private final Path file;
  private Optional<Turn> turn = Optional.empty();

  /**
   * @param log that holds them; closed with this object
   * @param file where it is, for messages
   */
  Jobs(JobLog log, Path file) {
    this.log = log;
    this.file = file;
  }

  JobLog log() {
    return log;
  }

  Path file() {
    return file;
  }

  /** Ids of all jobs, oldest first. */
  List<String> ids() {
    return log.streams().stream()
        .filter(id -> number(id).map(Jobs::id).filter(id::equals).isPresent())
        .toList();
  }

  /**
   * The job that is meant by what was typed: {@code J-0012}, {@code j-12} or {@code 12}.
   *
   * @throws InputException when there is none
   */
  Job find(String typed) throws InputException {
    String id = id(typed);
    List<Logged> events = log.read(id);
    if (events.isEmpty()) {
      throw new InputException(
          "There is no job "
              + id
              + " in "
              + file
              + ". 'jointwalk job list' shows the jobs that are there.");
    }
    return fold(id, events);
  }

  /**
   * The job that is meant, which must not be closed.
   *
   * @throws InputException when there is none, or it is closed
   */
  Job findOpen(String typed) throws InputException {
    Job job = find(typed);
    if (job.closed()) {
      throw new InputException(
          job.id()
              + " is closed; only notes are added to it. When the device has come back, open a new"
              + " job for it.");
    }
    return job;
  }

  /** A job that is known to be there. */
  Job get(String id) {
    return fold(id, log.read(id));
  }

  private Job fold(String id, List<Logged> events) {
    try {
      return Job.fold(id, events);
    } catch (IllegalArgumentException | IndexOutOfBoundsException e) {
      throw new JobLogException(
          "The entries of "
              + id
              + " in "
              + file
              + " make no job: "
              + e.getMessage()
              + ". Bring back a backup of the file.",
          e);
    }
  }

  /**
   * Sees to it that pads are those of the device. Before the first pass the log does not know them,
   * and takes them as they are typed.
   *
   * @throws InputException when the map of the last pass has no such pad
   */
  void requirePads(Job job, List<String> ids) throws InputException {
    Optional<PadMap> map = ids.isEmpty() ? Optional.empty() : map(job);
    if (map.isEmpty()) {
      return;
    }
    List<String> known = List.copyOf(map.get().positions().keySet());
    for (String id : ids) {
      if (!known.contains(id)) {
        throw new InputException(
            "There is no pad "
                + id
                + " on the "
                + map.get().device()
                + ": its pad map has "
                + known.get(0)
                + " to "
                + known.get(known.size() - 1)
                + ". Nothing was kept.");
      }
    }
  }

  /** The pad map of the last pass; empty before that, and when it can no longer be read. */
  private Optional<PadMap> map(Job job) {
    if (job.passes().isEmpty()) {
      return Optional.empty();
    }
    String hash = job.passes().get(job.passes().size() - 1).begun().padMap();
    Optional<String> text = log.text(hash);
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(PadMapFile.read(hash, text.get()).value());
    } catch (FileFaults e) {
      // A pass would complain; what the technician has to enter is not to be lost over it.
      return Optional.empty();
    }
  }

  /** Opens a job under the next free id and returns that. */
  String open(Event.Opened opened) {
    while (true) {
      String id = nextId();
      try {
        log.append(id, 0, List.of(opened));
        return id;
      } catch (JobLogException e) {
        // Somebody else may have opened a job at the same moment; then the next number is free.
        if (!log.streams().contains(id)) {
          throw e;
        }
      }
    }
  }

  private String nextId() {
    int last = 0;
    for (String id : ids()) {
      last = Math.max(last, number(id).orElse(0));
    }
    return id(last + 1);
  }

  /** Adds what happened to a job as it was found. */
  void add(Job job, Event event) {
    log.append(job.id(), job.lastSeq(), List.of(event));
  }

  /** Adds what somebody saw or noted, whatever else is kept meanwhile, as while a pass runs. */
  void addSeen(Job job, Event event) {
    Job now = job;
    while (true) {
      try {
        add(now, event);
        return;
      } catch (JobLogException.Overtaken e) {
        Job later = get(job.id());
        if (later.lastSeq() == now.lastSeq()) {
          throw e;
        }
        now = later;
      }
    }
  }

  /**
   * Sees to it that no other program runs a pass of a job until this object is closed.
   *
   * @throws JobLogException when another program does
   */
  void takeTurn(Job job) throws IOException {
    turn = Optional.of(Turn.of(file, job));
  }

  @Override
  public void close() {
    turn.ifPresent(Turn::close);
    log.close();
  }

  private static String id(String typed) throws InputException {
    return number(typed.strip())
        .map(Jobs::id)
        .orElseThrow(
            () ->
                new InputException(
                    "\"" + typed + "\" is no job number. A job is written like J-0001."));
  }

  private static Optional<Integer> number(String id) {
    Matcher matcher = ID.matcher(id);
    return matcher.matches() ? Optional.of(Integer.valueOf(matcher.group(1))) : Optional.empty();
  }

  private static String id(int number) {
    return String.format(Locale.ROOT, "J-%04d", number);
  }
}

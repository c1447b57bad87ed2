package org.jointwalk.joblog;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import org.jointwalk.job.JobLogException;

/**
 * Another program that uses a job log, started as a child. It writes a line for all that the log
 * acknowledged, and the message of the first refusal.
 */
final class ChildProgram {

  private ChildProgram() {}

  /** Starts {@code main} with these arguments in a JVM of its own; its errors join its output. */
  static Process start(List<String> prefix, String... arguments) throws IOException {
    List<String> command = new ArrayList<>(prefix);
    command.add(Path.of(System.getProperty("java.home", ""), "bin", "java").toString());
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-Xshare:auto"));
    command.addAll(List.of("-cp", System.getProperty("java.class.path", "")));
    command.add(ChildProgram.class.getName());
    command.addAll(List.of(arguments));
    return new ProcessBuilder(command).redirectErrorStream(true).start();
  }

  static BufferedReader lines(Process child) {
    return child.inputReader(UTF_8);
  }

  /**
   * Either {@code append FILE SEEN}, without end, or {@code append-when-told FILE SEEN}, once for
   * each line that it reads, or {@code read-then-append FILE [TEMPORARY]}.
   */
  public static void main(String[] arguments) throws IOException {
    if (arguments[0].equals("read-then-append") && arguments.length > 2) {
      System.setProperty("java.io.tmpdir", arguments[2]);
    }
    try (SqliteJobLog log =
        new SqliteJobLog(Path.of(arguments[1]), InstantSource.system(), JobLogContract.ZONE)) {
      switch (arguments[0]) {
        case "append" -> append(log, Long.parseLong(arguments[2]), false);
        case "append-when-told" -> append(log, Long.parseLong(arguments[2]), true);
        default -> {
          System.out.println("read " + log.read("J-0001").size());
          System.out.println("appended " + log.append("J-0002", 0, List.of(Events.OPENED)));
        }
      }
    } catch (JobLogException e) {
      System.out.println("refused " + e.getMessage());
    }
  }

  private static void append(SqliteJobLog log, long seen, boolean whenTold) throws IOException {
    BufferedReader orders = new BufferedReader(new InputStreamReader(System.in, UTF_8));
    long seq = seen == 0 ? log.append("J-0001", 0, List.of(Events.OPENED)) : seen;
    while (!whenTold || orders.readLine() != null) {
      int index = Math.toIntExact(seq);
      seq = log.append("J-0001", seq, List.of(Events.batch(1, 8 * index, 8)));
      System.out.println(seq);
    }
  }
}

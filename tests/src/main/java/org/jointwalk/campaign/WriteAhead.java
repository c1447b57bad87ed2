package org.jointwalk.campaign;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLog;
import org.jointwalk.job.JobLogException;
import org.jointwalk.job.Logged;
import org.jointwalk.joblog.SqliteJobLog;

/**
 * What a crash can leave of a write-ahead log: any prefix of it. Its header has 32 bytes and each
 * frame 24 before its page (sqlite.org, Database File Format, 4). Stateless.
 */
final class WriteAhead {

  private static final int HEADER = 32;
  private static final int FRAME_HEADER = 24;
  private static final int PAGE_SIZE_AT = 8;
  private static final int FEW = 40;

  private WriteAhead() {}

  /**
   * Opens a job from every prefix that ends with a frame or one byte before or behind one.
   *
   * @param file the log; its write-ahead log lies beside it
   * @param every all of them, or some
   * @return prefixes from which no valid job could be read, or another one, and all that were tried
   */
  static long[] check(Path file, String job, boolean every) throws IOException {
    byte[] base = Files.readAllBytes(file);
    byte[] ahead = Files.readAllBytes(beside(file));
    Path copy = file.resolveSibling("copy.db");
    List<Logged> whole = read(copy, base, ahead, job);
    TreeSet<Integer> ends = new TreeSet<>();
    int page = ByteBuffer.wrap(ahead).getInt(PAGE_SIZE_AT);
    for (int end = HEADER; end <= ahead.length; end += FRAME_HEADER + page) {
      ends.addAll(List.of(Math.max(0, end - 1), end, Math.min(ahead.length, end + 1)));
    }
    long bad = 0;
    long tried = 0;
    int stride = every ? 1 : Math.max(1, ends.size() / FEW);
    int before = 0;
    for (int end : ends) {
      if (tried++ % stride != 0) {
        continue;
      }
      try {
        List<Logged> left = read(copy, base, Arrays.copyOf(ahead, end), job);
        Job.fold(job, left);
        boolean prefix = left.equals(whole.subList(0, left.size())) && left.size() >= before;
        before = left.size();
        bad += prefix ? 0 : 1;
      } catch (JobLogException | IllegalArgumentException | IndexOutOfBoundsException e) {
        bad++;
      }
    }
    return new long[] {bad, tried / stride};
  }

  private static List<Logged> read(Path copy, byte[] base, byte[] ahead, String job)
      throws IOException {
    Files.deleteIfExists(copy.resolveSibling(copy.getFileName() + "-shm"));
    Files.write(copy, base);
    Files.write(beside(copy), ahead);
    try (JobLog log = new SqliteJobLog(copy, InstantSource.system(), ZoneOffset.UTC)) {
      return log.read(job);
    }
  }

  private static Path beside(Path file) {
    return file.resolveSibling(file.getFileName() + "-wal");
  }
}

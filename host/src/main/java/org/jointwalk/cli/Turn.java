package org.jointwalk.cli;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Optional;
import org.jointwalk.job.Job;
import org.jointwalk.job.JobLogException;

/**
 * A program's turn to run a pass of a job: one at a time. It is a lock on a byte of a file beside
 * the log, one byte for each job, which the system gives back however the program ends. Without it,
 * the program that comes second would end the pass of the first. Not safe for use by several
 * threads.
 */
final class Turn implements AutoCloseable {

  private final Optional<FileChannel> channel;

  private Turn(Optional<FileChannel> channel) {
    this.channel = channel;
  }

  /**
   * Takes the turn.
   *
   * @throws JobLogException when another program has it
   */
  static Turn of(Path log, Job job) throws IOException {
    Path beside = log.resolveSibling(log.getFileName() + "-turns");
    if (!Files.isRegularFile(log) || !isWritable(beside)) {
      // What keeps no file is this program's own; what cannot be written is told by the log.
      return new Turn(Optional.empty());
    }
    FileChannel channel =
        FileChannel.open(beside, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
    if (!isTaken(channel, job)) {
      channel.close();
      throw new JobLogException(
          "Another program is running a pass of "
              + job.id()
              + ". Nothing was written. Wait until it is over, or stop it there with Ctrl-C.");
    }
    return new Turn(Optional.of(channel));
  }

  private static boolean isWritable(Path beside) {
    return Files.exists(beside)
        ? Files.isWritable(beside)
        : Files.isWritable(Optional.ofNullable(beside.toAbsolutePath().getParent()).orElse(beside));
  }

  private static boolean isTaken(FileChannel channel, Job job) throws IOException {
    try {
      FileLock lock = channel.tryLock(place(job), 1, false);
      return lock != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  /** The number in J-0012; jobs have no other ids. */
  private static long place(Job job) {
    return Long.parseLong(job.id().replaceAll("[^0-9]", ""));
  }

  @Override
  public void close() {
    try {
      if (channel.isPresent()) {
        channel.get().close();
      }
    } catch (IOException e) {
      // The system gives it back when the program ends.
      return;
    }
  }
}

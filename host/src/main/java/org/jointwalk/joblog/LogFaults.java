package org.jointwalk.joblog;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import org.jointwalk.job.JobLogException;
import org.sqlite.NativeLibraryNotFoundException;
import org.sqlite.SQLiteErrorCode;
import org.sqlite.SQLiteException;

/**
 * What can go wrong with one log file, in bench words: each names the file and says what to do.
 *
 * @param file the log
 * @param patience how long another program was waited for
 */
record LogFaults(Path file, Duration patience) {

  /** Extended result codes carry the basic one in their lowest byte. */
  private static final int BASIC = 0xFF;

  JobLogException readOnly() {
    return new JobLogException(readOnlyWords());
  }

  JobLogException deleted() {
    return new JobLogException(deletedWords());
  }

  JobLogException notALog() {
    return new JobLogException(notALogWords());
  }

  JobLogException newer(int layout, int known) {
    return new JobLogException(
        theLog()
            + " was written by a newer version of jointwalk (layout "
            + layout
            + "; this one knows up to "
            + known
            + "). It was not touched. Use that version, or choose another file for the log.");
  }

  /**
   * @param problem of the entry alone; it says what to do
   */
  JobLogException unreadable(String stream, long seq, RuntimeException problem) {
    return new JobLogException(
        "Entry "
            + seq
            + " of "
            + stream
            + " in "
            + file
            + " cannot be read: "
            + problem.getMessage()
            + ". The file was not touched.",
        problem);
  }

  JobLogException conflict(String stream, long expectedSeq, long last) {
    return Asked.conflict(stream, file.toString(), expectedSeq, last);
  }

  JobLogException noWriteAhead() {
    return new JobLogException(
        theLog()
            + " cannot be kept safely where it is (a network drive?). Nothing was written. Put it on"
            + " a disk of this computer.");
  }

  JobLogException noFolder(IOException problem) {
    return new JobLogException(
        "The folder for the job log "
            + file
            + " cannot be made"
            + (problem instanceof FileAlreadyExistsException ? ", a file stands in its place" : "")
            + ". Nothing was written. "
            + makeWritable(),
        problem);
  }

  JobLogException folderInstead() {
    return new JobLogException(
        file + " is a folder. The job log is a file: name one in that folder.");
  }

  /** Says what SQLite complained of. */
  JobLogException of(SQLException problem) {
    return new JobLogException(words(problem), problem);
  }

  private String words(SQLException problem) {
    if (problem.getCause() instanceof NativeLibraryNotFoundException) {
      return "SQLite, which keeps the job log "
          + file
          + ", cannot start: its library cannot be put into the folder for temporary files."
          + " Nothing was written. Make room there and let programs run from there, or name another"
          + " folder: JOINTWALK_JAVA_OPTS=-Djava.io.tmpdir=FOLDER";
    }
    SQLiteErrorCode code =
        problem instanceof SQLiteException e
            ? e.getResultCode()
            : SQLiteErrorCode.getErrorCode(problem.getErrorCode());
    if (code == SQLiteErrorCode.SQLITE_READONLY_DBMOVED) {
      return deletedWords();
    }
    return switch (SQLiteErrorCode.getErrorCode(code.code & BASIC)) {
      case SQLITE_READONLY, SQLITE_PERM -> readOnlyWords();
      case SQLITE_NOTADB -> notALogWords();
      case SQLITE_CANTOPEN -> theLog() + " cannot be opened. " + makeWritable();
      case SQLITE_BUSY, SQLITE_LOCKED ->
          theLog()
              + " is locked by another program (waited "
              + patience.toMillis() / 1000.0
              + " s). Nothing was written. Close what else has it open, such as a database viewer or"
              + " a backup, and do it again.";
      case SQLITE_FULL ->
          "The disk is full: there is no room for the job log "
              + file
              + ". The last entry is not kept; every earlier one is. Make room and do it again.";
      case SQLITE_CORRUPT ->
          theLog()
              + " is damaged ("
              + code
              + "). Do not write to it. First copy it to a safe place, with its -wal file if there"
              + " is one; then bring back a backup, or save what can be read with: sqlite3 \""
              + file
              + "\" .recover";
      default ->
          theLog()
              + " failed ("
              + problem.getMessage()
              + "). The last entry is not kept; every earlier one is. Check the disk and do it"
              + " again.";
    };
  }

  private String readOnlyWords() {
    return theLog() + " is read-only. Nothing was written. " + makeWritable();
  }

  private String deletedWords() {
    return theLog()
        + " was deleted, moved or replaced while it was in use. An entry that was just being written"
        + " is not kept. Put the file back, with its -wal file if there is one, or start again with"
        + " a new log.";
  }

  private String notALogWords() {
    return file
        + " is not a job log of jointwalk. It was not touched. Name another file as the log.";
  }

  private String theLog() {
    return "The job log " + file;
  }

  private static String makeWritable() {
    return "Make the file and its folder writable for you, or choose another place for the log.";
  }
}

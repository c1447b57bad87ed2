package org.jointwalk.joblog;

import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneId;
import org.jointwalk.job.JobLog;
import org.junit.jupiter.api.io.TempDir;

class SqliteJobLogTest extends JobLogContract {

  @TempDir Path folder = Path.of("");

  @Override
  JobLog log(InstantSource clock, ZoneId zone) {
    return new SqliteJobLog(folder.resolve("jobs.db"), clock, zone);
  }
}

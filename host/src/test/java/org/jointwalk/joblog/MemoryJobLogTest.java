package org.jointwalk.joblog;

import java.time.InstantSource;
import java.time.ZoneId;
import org.jointwalk.job.JobLog;
import org.jspecify.annotations.Nullable;

class MemoryJobLogTest extends JobLogContract {

  private @Nullable JobLog only;

  @Override
  JobLog log(InstantSource clock, ZoneId zone) {
    JobLog log = only == null ? new MemoryJobLog(clock, zone) : only;
    only = log;
    return log;
  }
}

package org.jointwalk.report;

import org.jointwalk.job.Event;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;

/** Finds passes in a job. Stateless. */
final class Passes {

  private Passes() {}

  /** A pass by its number, from 1. */
  static PassRecord of(Job job, int number) {
    return job.passes().stream()
        .filter(pass -> pass.begun().pass() == number)
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "job "
                        + job.id()
                        + " has no pass "
                        + number
                        + ", only "
                        + job.passes().size()));
  }

  /** What a graded pass says. */
  static Findings findings(PassRecord pass) {
    return pass.graded()
        .map(Event.PassGraded::findings)
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    "pass " + pass.begun().pass() + " is not graded; finish it first"));
  }
}

package org.jointwalk.cli;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Landed;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.ProbeState;
import org.jointwalk.landing.Landings;

/**
 * The probes of one fixture as all jobs tell it; derived at each look and stored nowhere.
 *
 * @param fixture its identity
 * @param passes since the probes were cleaned
 * @param pressings since then
 * @param closures of switches over all jobs
 * @param cleaned day of the last cleaning
 * @param states one for each probe since then
 */
record ProbeBook(
    String fixture,
    int passes,
    int pressings,
    long closures,
    Optional<String> cleaned,
    List<ProbeState> states) {

  ProbeBook {
    states = List.copyOf(states);
  }

  /** A pass with the moment at which it began. */
  private record At(Instant when, Job job, PassRecord pass) {}

  /** Every fixture that a job was measured with, by name. Cost: every reading of the log. */
  static List<ProbeBook> all(Jobs jobs) {
    Map<String, List<At>> passes = new TreeMap<>();
    List<Job> read = jobs.ids().stream().map(jobs::get).toList();
    for (Job job : read) {
      for (PassRecord pass : job.passes()) {
        passes
            .computeIfAbsent(pass.begun().capabilities().identity(), k -> new ArrayList<>())
            .add(new At(job.timeline().get((int) pass.seq() - 1).at(), job, pass));
      }
    }
    List<ProbeBook> books = new ArrayList<>();
    passes.forEach((fixture, list) -> books.add(book(jobs, fixture, list)));
    return books;
  }

  private static ProbeBook book(Jobs jobs, String fixture, List<At> all) {
    Optional<Logged> cleaned =
        all.stream()
            .map(At::job)
            .distinct()
            .flatMap(job -> job.timeline().stream())
            .filter(
                l ->
                    l.event() instanceof Event.Done done
                        && done.action() instanceof Action.ProbesCleaned)
            .max(Comparator.comparing(Logged::at));
    List<At> since =
        all.stream()
            .filter(a -> cleaned.map(c -> a.when().isAfter(c.at())).orElse(true))
            .sorted(Comparator.comparing(At::when))
            .toList();
    Kept kept = new Kept(jobs.log());
    List<Landed> landed =
        since.stream().map(a -> Landings.landed(a.pass(), kept.assembly(a.pass()))).toList();
    return new ProbeBook(
        fixture,
        since.size(),
        landed.stream().mapToInt(Landed::pressings).sum(),
        all.stream()
            .flatMap(a -> a.pass().scans().stream())
            .flatMap(s -> s.batches().stream())
            .mapToLong(b -> b.closures())
            .sum(),
        cleaned.map(Times::day),
        Landings.states(landed));
  }
}

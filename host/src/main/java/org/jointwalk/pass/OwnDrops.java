package org.jointwalk.pass;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.PassRecord;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/**
 * The drops that the same board showed in an earlier pass in which it was alone. They leave out the
 * spread between boards, so that a smaller resistance in series shows. A replaced part ends their
 * use. Stateless.
 */
final class OwnDrops {

  private OwnDrops() {}

  static List<Reference.Drop> of(Job job, Assembly assembly, int before) {
    Map<NetId, Reference.Drop> drops = new LinkedHashMap<>();
    if (assembly.setUp().joints().isEmpty()) {
      return List.of();
    }
    for (PassRecord pass : job.passes()) {
      Optional<SetUp> setUp = SetUp.named(pass.begun().setUp());
      if (pass.begun().pass() >= before || pass.open() || setUp.isEmpty()) {
        continue;
      }
      boolean alone = setUp.get().boards().size() == 1 && setUp.get().joints().isEmpty();
      if (!alone || !assembly.setUp().boards().containsAll(setUp.get().boards())) {
        continue;
      }
      Side side = setUp.get().boards().iterator().next();
      if (partReplacedSince(job, side, pass.seq())) {
        continue;
      }
      Assembly then = new Assembly(assembly.map(), assembly.interposer(), setUp.get());
      new Solve(then, pass.begun().capabilities(), List.of())
          .drops(pass.measurements())
          .forEach(d -> drops.put(d.net(), d));
    }
    return new ArrayList<>(drops.values());
  }

  private static boolean partReplacedSince(Job job, Side side, long seq) {
    for (Logged logged : job.timeline()) {
      if (logged.seq() > seq
          && logged.event() instanceof Event.Done done
          && done.action() instanceof Action.PartReplaced replaced
          && replaced.side() == side) {
        return true;
      }
    }
    return false;
  }
}

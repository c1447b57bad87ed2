package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jointwalk.job.Event;
import org.jointwalk.job.Job;
import org.jointwalk.job.Logged;
import org.jointwalk.job.Seen;
import org.jointwalk.stack.Component;

/** What the eye found, by the part it was found at; the last look at a part counts. Immutable. */
final class Sights {

  private record Smear(Seen seen, long seq) {}

  private final Lives lives;
  private final Map<Part, Seen> last = new LinkedHashMap<>();
  private final List<Smear> smears = new ArrayList<>();

  Sights(Lives lives, Job job) {
    this.lives = lives;
    for (Logged logged : job.timeline()) {
      if (logged.event() instanceof Event.Looked looked) {
        keep(looked.seen(), logged.seq());
      }
    }
  }

  private void keep(Seen seen, long seq) {
    Component joint = new Component.Joint(seen.side(), seen.position());
    Component pad = new Component.Pad(seen.side(), seen.position());
    switch (seen.look()) {
      case DRY, BALL_MISSING, BALL_LOW -> last.put(lives.part(joint, seq), seen);
      case TORN -> last.put(lives.part(pad, seq), seen);
      case SMEARED -> {
        last.put(lives.part(pad, seq), seen);
        smears.add(new Smear(seen, seq));
      }
      case FINE -> {
        last.put(lives.part(joint, seq), seen);
        last.put(lives.part(pad, seq), seen);
      }
    }
  }

  /** The last look at each part. */
  Map<Part, Seen> all() {
    return Map.copyOf(last);
  }

  /** By how much what was seen speaks for a fault of a part. */
  double factor(Part part) {
    return of(part).map(look -> Odds.seen(look, part.component())).orElse(1.0);
  }

  /** What was seen at a part, when it shows the fault itself. */
  Optional<Seen.Look> shown(Part part) {
    return of(part).filter(look -> Odds.shows(look, part.component()));
  }

  private Optional<Seen.Look> of(Part part) {
    if (part.component() instanceof Component.Bridge bridge) {
      return smears.stream()
          .filter(smear -> smear.seen().side() == bridge.side())
          .filter(smear -> List.of(bridge.a(), bridge.b()).contains(smear.seen().position()))
          .filter(smear -> lives.part(bridge, smear.seq()).equals(part))
          .map(smear -> smear.seen().look())
          .findFirst();
    }
    return Optional.ofNullable(last.get(part)).map(Seen::look);
  }
}

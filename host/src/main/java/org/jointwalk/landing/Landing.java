package org.jointwalk.landing;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Landed;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Seating;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/** The probes of one pass, taken from its estimates. For one thread and one look. */
final class Landing {

  /** With fewer probes than this nobody knows what the middle one reads. */
  private static final int ENOUGH = 20;

  /** A path read below nothing is a good one; its logarithm has to be something. */
  private static final double LEAST = 0.05;

  private final PassRecord pass;
  private final Capabilities capabilities;
  private final List<PathEstimate> paths;
  private final Set<String> faulty = new HashSet<>();
  private final Set<Contact> conducting = new HashSet<>();

  Landing(PassRecord pass, Assembly assembly) {
    this.pass = pass;
    this.capabilities = pass.begun().capabilities();
    this.paths =
        new Solve(assembly, capabilities, List.of()).estimates(pass.measurements()).paths();
    pass.graded()
        .ifPresent(
            graded ->
                graded.findings().positions().stream()
                    .filter(finding -> finding.grade().isFault())
                    .map(Finding::position)
                    .forEach(faulty::add));
    for (PathEstimate path : paths) {
      if (path.evidence() == Evidence.CONDUCTS) {
        conducting.add(path.contact());
      }
    }
  }

  Landed landed() {
    Set<Contact> used = new LinkedHashSet<>();
    Map<Contact, Integer> landings = new LinkedHashMap<>();
    Map<Contact, Integer> missed = new LinkedHashMap<>();
    Set<Integer> tilted = tilted();
    for (PathEstimate path : paths) {
      Contact contact = path.contact();
      used.add(contact);
      if (path.evidence() == Evidence.CONDUCTS) {
        landings.merge(contact, 1, Integer::sum);
      } else if (conducting.contains(contact) && !tilted.contains(path.seating())) {
        missed.merge(contact, 1, Integer::sum);
      }
    }
    return new Landed(pass.seatings().size(), ohms(), landings, missed, used);
  }

  private Set<Integer> tilted() {
    Map<Integer, Integer> read = new HashMap<>();
    Map<Integer, Integer> lost = new HashMap<>();
    for (PathEstimate path : paths) {
      if (conducting.contains(path.contact())) {
        read.merge(path.seating(), 1, Integer::sum);
        lost.merge(path.seating(), path.evidence() == Evidence.CONDUCTS ? 0 : 1, Integer::sum);
      }
    }
    Set<Integer> tilted = new HashSet<>();
    lost.forEach(
        (seating, n) -> {
          if (Seating.isTilted(n, read.getOrDefault(seating, 0), true)) {
            tilted.add(seating);
          }
        });
    return tilted;
  }

  private Map<Contact, Double> ohms() {
    double typical = capabilities.probes().typical().value();
    Map<Contact, Double> ohms = new LinkedHashMap<>();
    for (PathEstimate path : paths) {
      boolean own =
          path.evidence() == Evidence.CONDUCTS && path.sharedWith().isEmpty() && !path.byDrop();
      boolean sound =
          !(path.contact() instanceof Contact.Pad pad && faulty.contains(pad.position()));
      if (own && sound && capabilities.kelvin().readsContact()) {
        path.ohms()
            .ifPresent(
                estimate ->
                    ohms.putIfAbsent(
                        path.contact(), Math.max(LEAST * typical, estimate.value() + typical)));
      }
    }
    if (ohms.size() < ENOUGH) {
      return Map.of();
    }
    List<Double> sorted = new ArrayList<>(ohms.values());
    Collections.sort(sorted);
    double middle = sorted.get(sorted.size() / 2);
    if (!(middle > 0)) {
      return Map.of();
    }
    ohms.replaceAll((contact, value) -> value / middle);
    return ohms;
  }
}

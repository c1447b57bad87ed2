package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.ProbeQuality;
import org.jointwalk.job.Blame;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.landing.Landings;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.Role;

/**
 * Grades the path of one position from what all seatings say of it: whether there is one, and what
 * {@link ValueRule} says of its resistance. Made anew for each look at the estimates.
 */
final class PathRule {

  /** Id that findings carry; a change of any rule of this package changes it. */
  static final String ID = "guard-band-3";

  /**
   * Seatings that an open needs when no other open is near, so that two missed landings are not
   * one.
   */
  private static final int LONE = 3;

  /** Seatings that an open needs beside another, and that a path may lack before it is in doubt. */
  private static final int TWO = 2;

  /** Joint, probe or landing is named from this probability on. */
  private static final double NAMED = 0.95;

  private final Assembly assembly;
  private final Ring ring;
  private final Knowledge knowledge;
  private final ValueRule values;
  private final ProbeQuality probes;
  private final boolean readsContact;

  PathRule(Assembly assembly, Capabilities capabilities, Ring ring, Knowledge knowledge) {
    this.assembly = assembly;
    this.ring = ring;
    this.knowledge = knowledge;
    this.values = new ValueRule(assembly, capabilities);
    this.probes = capabilities.probes();
    this.readsContact = capabilities.kelvin().readsContact();
  }

  /** The grade of a position, bridges apart. */
  Finding grade(String position) {
    if (ring.contacts(position).isEmpty()) {
      return plain(position, Grade.NOT_TESTED, "no probe reaches it in this set-up");
    }
    if (ring.masked(position)) {
      return masked(position);
    }
    Optional<Contact> subject = ring.subject(position);
    if (subject.isEmpty()) {
      return plain(position, Grade.NOT_TESTED, "the probe that could show it is not wired");
    }
    Contact contact = subject.get();
    if (ring.way(contact).isEmpty()) {
      return plain(position, Grade.NOT_TESTED, whyNot(contact));
    }
    List<PathEstimate> paths = knowledge.paths(contact);
    if (paths.isEmpty()) {
      return plain(position, Grade.NOT_TESTED, unread(contact));
    }
    return bySeatings(position, contact, paths);
  }

  /**
   * Metal of the interposer hides what lies behind it. What lies before it, such as the via of a
   * position that is tied at its far land, is hidden as long as it is sound, and seen when it is
   * not.
   */
  private Finding masked(String position) {
    return ring.subject(position)
        .filter(contact -> !knowledge.paths(contact).isEmpty())
        .map(contact -> bySeatings(position, contact, knowledge.paths(contact)))
        .filter(finding -> finding.grade().isFault())
        .orElseGet(
            () ->
                plain(
                    position,
                    Grade.MASKED,
                    "the interposer ties it to its neighbours: only the set can be seen"));
  }

  private Finding bySeatings(String position, Contact contact, List<PathEstimate> paths) {
    List<PathEstimate> conducting =
        paths.stream().filter(p -> p.evidence() == Evidence.CONDUCTS).toList();
    if (conducting.isEmpty()) {
      return withoutPath(position, contact, paths);
    }
    return ring.shunt(position)
        .map(shunt -> values.pastPlating(position, contact, shunt, conducting))
        .orElseGet(() -> withPath(position, contact, conducting, paths));
  }

  private String whyNot(Contact contact) {
    Optional<Net> net = assembly.net(contact);
    if (net.isPresent() && net.get().role() == Role.UNUSED) {
      return "the pad is not used";
    }
    if (net.isPresent() && !net.get().dcPath()) {
      return "no direct current can flow on " + net.get().id().name();
    }
    return "nothing that it could be read against is within reach";
  }

  private String unread(Contact contact) {
    boolean released =
        knowledge.seatings().stream().anyMatch(seating -> knowledge.released(contact, seating));
    return released
        ? "it was not read"
        : "it was not read: no ground was proven with its voltages, so that nothing was sourced";
  }

  private static Finding plain(String position, Grade grade, String reason) {
    return new Finding(
        position,
        grade,
        Optional.empty(),
        Optional.empty(),
        0,
        false,
        Optional.empty(),
        List.of(),
        reason);
  }

  private Finding withoutPath(String position, Contact contact, List<PathEstimate> paths) {
    List<PathEstimate> counted = paths.stream().filter(p -> !knowledge.poor(p.seating())).toList();
    if (counted.isEmpty()) {
      boolean tilted = paths.stream().anyMatch(p -> knowledge.released(p.seating()));
      return finding(
          position,
          Grade.NOT_CONTACTED,
          paths.size(),
          false,
          List.of(),
          tilted
              ? "no path, but the plate sat badly: too many probes of that seating had none"
              : "no path, but that seating proved no ground with its voltages: it says nothing");
    }
    boolean shared = counted.stream().noneMatch(p -> p.evidence() == Evidence.NO_PATH);
    List<Contact> partners =
        counted.get(0).partners().stream()
            .filter(p -> assembly.home(p).equals(assembly.home(contact)))
            .toList();
    if (shared && partners.size() > 1) {
      return finding(
          position,
          Grade.UNDECIDED,
          counted.size(),
          false,
          List.of(),
          "no path to any other pad of its net, and none of them is proven good");
    }
    List<Component> among = new ArrayList<>(chain(contact));
    if (shared) {
      partners.forEach(p -> among.addAll(chain(p)));
    }
    // A probe can be bent for good: no number of seatings on one board tells it from the path.
    ring.contacts(position).forEach(c -> among.add(new Component.Probe(c)));
    if (shared) {
      partners.forEach(p -> among.add(new Component.Probe(p)));
    }
    boolean confirmed = confirmed(contact);
    return finding(
        position,
        Grade.OPEN,
        counted.size(),
        confirmed,
        among,
        (confirmed ? "no path" : "no path here: joint or contact")
            + (shared ? ", of this pad or of the other of its net" : "")
            + (confirmed ? " in " : "; ")
            + Words.seatings(counted.size()));
  }

  /** Whether a missing path stands on enough seatings. */
  boolean confirmed(Contact contact) {
    int without = without(contact);
    return without >= LONE || (without >= TWO && hasOpenNeighbour(contact));
  }

  /** Seatings that sat well and showed no path, of a contact that never had one. */
  private int without(Contact contact) {
    if (knowledge.everConducts(contact)) {
      return 0;
    }
    int without = 0;
    for (PathEstimate path : knowledge.paths(contact)) {
      without += knowledge.poor(path.seating()) ? 0 : 1;
    }
    return without;
  }

  private boolean hasOpenNeighbour(Contact contact) {
    return contact instanceof Contact.Pad pad
        && ring.near(pad.position()).stream()
            .anyMatch(other -> without(new Contact.Pad(pad.plate(), other)) >= TWO);
  }

  private Finding withPath(
      String position, Contact contact, List<PathEstimate> conducting, List<PathEstimate> all) {
    long absent =
        all.stream()
            .filter(p -> p.evidence() != Evidence.CONDUCTS && !knowledge.poor(p.seating()))
            .count();
    if (absent >= TWO) {
      return finding(
          position,
          Grade.UNDECIDED,
          all.size(),
          false,
          List.of(),
          "a path in "
              + conducting.size()
              + " of "
              + Words.seatings(all.size())
              + ": it comes and goes, in the joint or at the probe");
    }
    String before =
        conducting.size() < all.size()
            ? "; a seating without a path was the probe, or it comes and goes"
            : "";
    Finding finding = values.grade(position, contact, conducting, before);
    return finding.grade() == Grade.HIGH ? withCause(finding, conducting) : finding;
  }

  /** A high path with what its seatings say of joint, probe and landing, when they say it. */
  private Finding withCause(Finding finding, List<PathEstimate> conducting) {
    List<Estimate> ohms =
        conducting.stream()
            .filter(p -> !p.byDrop() && p.sharedWith().isEmpty())
            .flatMap(p -> p.ohms().stream())
            .map(e -> Estimate.known(e.value() + probes.typical().value(), e.u()))
            .toList();
    if (ohms.size() < TWO || !readsContact) {
      return finding;
    }
    return Landings.blame(ohms, probes, Landings.Rates.ASSUMED)
        .named(NAMED)
        .map(cause -> because(finding, cause))
        .orElse(finding);
  }

  private static Finding because(Finding finding, Blame.Cause cause) {
    String words =
        switch (cause) {
          case SOUND -> "";
          case JOINT -> "; the same in each seating: the joint, not the probe";
          case PROBE -> "; it differs from seating to seating: clean the probe and read it again";
          case SPORADIC -> "; one landing was bad: seat it again before you touch the joint";
        };
    return finding.because(finding.reason() + words);
  }

  /** Whether a value of this seating should be read against further partners before it counts. */
  boolean isOdd(String position, PathEstimate path) {
    return values.isOdd(position, path);
  }

  private Finding finding(
      String position,
      Grade grade,
      int seatings,
      boolean confirmed,
      List<Component> among,
      String reason) {
    return new Finding(
        position,
        grade,
        Optional.empty(),
        Optional.of(values.limit(position)),
        seatings,
        confirmed,
        Optional.empty(),
        among,
        reason);
  }

  private List<Component> chain(Contact contact) {
    return assembly.branch(contact).chain();
  }
}

package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.PathEstimate.Evidence;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.job.Residual;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Node;
import org.jointwalk.stack.Position;

/**
 * Finds what is still open in a seating, one kind after the other. In a later seating only suspects
 * are read again, with their neighbours and a few pads far away as controls. Made anew for each
 * look.
 */
final class Openings {

  /** More seatings than this change no next step. */
  private static final int MOST_SEATINGS = 4;

  /** Partners that a path needs before its value accuses anything: two triangles' worth. */
  private static final int ENOUGH_PARTNERS = 4;

  /** Good pads from all around the ring that are read again with the suspects. */
  private static final int FAR_CONTROLS = 8;

  /** A value this many u below zero is as odd as one above the limit. */
  private static final double BELOW_ZERO = 3;

  private final Assembly assembly;
  private final Ring ring;
  private final Estimates estimates;
  private final int seating;
  private final Knowledge knowledge;
  private final PathRule rule;
  private final Bridges bridges;
  private final Capabilities capabilities;

  Openings(
      Assembly assembly, Capabilities capabilities, Ring ring, Estimates estimates, int seating) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.ring = ring;
    this.estimates = estimates;
    this.seating = seating;
    this.knowledge = new Knowledge(assembly, estimates);
    this.rule = new PathRule(assembly, capabilities, ring, knowledge);
    this.bridges = new Bridges(assembly, capabilities, ring, knowledge, estimates);
  }

  List<Question> next() {
    List<Question> questions = safety();
    if (questions.isEmpty()) {
      questions = paths();
    }
    if (questions.isEmpty()) {
      questions = partners();
    }
    if (questions.isEmpty() && !knowledge.tilted(seating)) {
      questions = bridges.open(seating);
    }
    if (questions.isEmpty() && !knowledge.tilted(seating)) {
      questions = bridges.localise(seating);
    }
    if (questions.isEmpty()) {
      questions = reseat();
    }
    return questions;
  }

  /** First a ground that is proven, then every other net against it. */
  private List<Question> safety() {
    if (assembly.setUp().bare() || assembly.setUp().shorted()) {
      return List.of();
    }
    List<Contact> grounds =
        assembly.contacts().stream().filter(c -> ring.wired(c) && assembly.isGround(c)).toList();
    if (grounds.isEmpty()) {
      return List.of();
    }
    boolean tried = grounds.stream().anyMatch(c -> knowledge.path(c, seating).isPresent());
    if (!tried) {
      return List.of(new Question(Need.SAFETY, grounds));
    }
    Optional<Contact> ground =
        grounds.stream().filter(c -> knowledge.conducts(c, seating)).findFirst();
    if (ground.isEmpty()) {
      return List.of();
    }
    List<Residual> here =
        estimates.residuals().stream().filter(r -> r.seating() == seating).toList();
    if (here.isEmpty()) {
      return List.of(new Question(Need.SAFETY, List.of(ground.get())));
    }
    List<Question> again = new ArrayList<>();
    for (Contact contact : Safety.uneasy(here)) {
      again.add(new Question(Need.SAFETY, List.of(ground.get(), contact)));
    }
    return again;
  }

  /** Whether the seating has a proven ground where one is needed. */
  private boolean grounded() {
    return assembly.setUp().bare()
        || estimates.residuals().stream().anyMatch(r -> r.seating() == seating);
  }

  private List<Question> paths() {
    if (!grounded()) {
      return List.of();
    }
    Set<Contact> wanted =
        knowledge.seatings().isEmpty() || knowledge.firstSeating() == seating
            ? everything()
            : again();
    List<Question> questions = new ArrayList<>();
    for (Contact contact : wanted) {
      if (knowledge.path(contact, seating).isEmpty()) {
        questions.add(new Question(Need.PATH, List.of(contact)));
      }
    }
    return questions;
  }

  private Set<Contact> everything() {
    Set<Contact> all = new LinkedHashSet<>();
    for (Contact contact : assembly.contacts()) {
      ring.way(contact).filter(w -> w != Ring.Way.REPRESENTS).ifPresent(w -> all.add(contact));
    }
    return all;
  }

  /** What a later seating reads: the suspects of the ones before, and controls. */
  private Set<Contact> again() {
    Estimates before =
        new Estimates(
            estimates.paths().stream().filter(p -> p.seating() < seating).toList(),
            estimates.pairs().stream().filter(p -> p.seating() < seating).toList(),
            List.of(),
            List.of());
    Openings earlier = new Openings(assembly, capabilities, ring, before, seating - 1);
    Set<Contact> suspects = earlier.suspects();
    Set<Contact> again = new LinkedHashSet<>(suspects);
    List<Contact> good = earlier.knowledge.good();
    for (Contact suspect : suspects) {
      neighbours(suspect).forEach(again::add);
      Node home = assembly.home(suspect);
      good.stream()
          .filter(c -> assembly.home(c).equals(home) && !suspects.contains(c))
          .limit(2)
          .forEach(again::add);
    }
    for (int i = 0; i < FAR_CONTROLS && !good.isEmpty(); i++) {
      again.add(good.get((i * good.size()) / FAR_CONTROLS));
    }
    again.removeIf(c -> ring.way(c).filter(w -> w != Ring.Way.REPRESENTS).isEmpty());
    return again;
  }

  private List<Contact> neighbours(Contact contact) {
    if (!(contact instanceof Contact.Pad pad)) {
      return List.of();
    }
    Position here = assembly.map().position(pad.position());
    List<Contact> near = new ArrayList<>();
    for (Position p : assembly.map().positions().values()) {
      if (!p.id().equals(pad.position()) && p.distanceMm(here) <= 1.5 * ring.pitchMm()) {
        near.add(new Contact.Pad(pad.plate(), p.id()));
      }
    }
    return near;
  }

  private List<Question> partners() {
    List<Question> questions = new ArrayList<>();
    for (PathEstimate path : estimates.paths()) {
      if (path.seating() == seating && needsPartner(path)) {
        questions.add(new Question(Need.PARTNER, List.of(path.contact())));
      }
    }
    return questions;
  }

  private boolean needsPartner(PathEstimate path) {
    if (ring.way(path.contact()).filter(w -> w != Ring.Way.GROUND).isEmpty()) {
      return false;
    }
    Node home = assembly.home(path.contact());
    boolean another =
        knowledge.read(seating).stream()
            .anyMatch(
                c ->
                    !c.equals(path.contact())
                        && assembly.home(c).equals(home)
                        && knowledge.conducts(c, seating)
                        && !path.partners().contains(c));
    boolean byGround =
        ring.grounded(path.contact()) && path.partners().stream().noneMatch(assembly::isGround);
    if (path.evidence() == Evidence.NO_PROVEN_PARTNER) {
      return another || byGround;
    }
    return path.evidence() == Evidence.CONDUCTS
        && another
        && path.partners().size() < ENOUGH_PARTNERS
        && path.ohms().filter(ohms -> isOdd(path, ohms)).isPresent();
  }

  private boolean isOdd(PathEstimate path, Estimate ohms) {
    if (!(path.contact() instanceof Contact.Pad pad)) {
      return false;
    }
    double limit = rule.grade(pad.position()).limit().map(l -> l.value()).orElse(0.0);
    return ohms.value() + PathRule.GUARD * ohms.u() > limit
        || ohms.value() < -BELOW_ZERO * ohms.u();
  }

  private List<Question> reseat() {
    boolean noGround = !grounded() && !assembly.setUp().shorted();
    List<Contact> suspects = noGround ? List.of() : List.copyOf(suspects());
    if ((suspects.isEmpty() && !noGround) || knowledge.seatings().size() >= MOST_SEATINGS) {
      return List.of();
    }
    return List.of(new Question(Need.RESEAT, suspects));
  }

  /** Contacts whose grade another seating could change or confirm. */
  private Set<Contact> suspects() {
    Set<Contact> suspects = new LinkedHashSet<>();
    for (String id : assembly.map().positions().keySet()) {
      for (Contact contact : ring.contacts(id)) {
        if (isSuspect(id, contact)) {
          suspects.add(contact);
        }
      }
    }
    return suspects;
  }

  private boolean isSuspect(String position, Contact contact) {
    List<PathEstimate> paths = knowledge.paths(contact);
    if (paths.isEmpty()) {
      return false;
    }
    if (!knowledge.everConducts(contact)) {
      return !rule.confirmed(contact);
    }
    if (paths.size() >= 2) {
      return false;
    }
    Finding finding = rule.grade(position);
    return finding.grade() == Grade.HIGH
        || finding.grade() == Grade.UNDECIDED
        || !paths.get(0).consistent();
  }
}

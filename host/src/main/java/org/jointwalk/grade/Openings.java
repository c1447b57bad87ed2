package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
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
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Node;

/**
 * Finds what is still open in a seating, one kind after the other. In a later seating only suspects
 * are read again, with their neighbours and a few pads far away as controls, and what the seatings
 * before did not come to. Made anew for each look.
 */
final class Openings {

  /** More seatings than this change no next step. */
  private static final int MOST_SEATINGS = 4;

  /** Partners that a path needs before its value accuses anything: two triangles' worth. */
  private static final int ENOUGH_PARTNERS = 4;

  /** Good pads from all around the ring that are read again with the suspects. */
  private static final int FAR_CONTROLS = 8;

  /** Good pads of a suspect's own net that are read again with it. */
  private static final int NET_CONTROLS = 2;

  /** Lands of one tie that prove each other: a triangle. */
  private static final int OF_A_TIE = 3;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ring ring;
  private final Estimates estimates;
  private final int seating;
  private final Knowledge knowledge;
  private final PathRule rule;
  private final BridgeSearch bridges;

  Openings(
      Assembly assembly, Capabilities capabilities, Ring ring, Estimates estimates, int seating) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.ring = ring;
    this.estimates = estimates;
    this.seating = seating;
    this.knowledge = new Knowledge(assembly, estimates);
    this.rule = new PathRule(assembly, capabilities, ring, knowledge);
    this.bridges =
        new BridgeSearch(
            assembly,
            ring,
            knowledge,
            new Separation(assembly, capabilities, knowledge, estimates));
  }

  /**
   * @param exhausted needs that no further reading of this seating can answer
   */
  List<Question> next(Set<Need> exhausted) {
    for (Need need : Need.values()) {
      List<Question> questions = exhausted.contains(need) ? List.of() : open(need);
      if (!questions.isEmpty()) {
        return questions;
      }
    }
    return List.of();
  }

  private List<Question> open(Need need) {
    return switch (need) {
      case SAFETY -> safety();
      case PATH -> paths();
      case PARTNER -> partners();
      case ISOLATION -> bridges.open(seating);
      case LOCALISE -> bridges.localise(seating);
      case RESEAT -> reseat();
    };
  }

  /** First a ground that is proven, then every other net against it. */
  private List<Question> safety() {
    if (assembly.setUp().bare()) {
      return List.of();
    }
    List<Contact> grounds = grounds();
    if (grounds.stream().noneMatch(c -> knowledge.path(c, seating).isPresent())) {
      // One ground alone has nothing to prove it, so that nothing can be read safely.
      return grounds.size() < 2 ? List.of() : List.of(new Question(Need.SAFETY, grounds));
    }
    Optional<Contact> ground = provenGround(grounds);
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

  /**
   * The grounds that prove each other: those whose path ends on the board, when there are two;
   * metal of the interposer conducts to itself even where no joint holds it to the board.
   */
  private List<Contact> grounds() {
    List<Contact> grounds =
        assembly.contacts().stream().filter(c -> ring.wired(c) && assembly.isGround(c)).toList();
    List<Contact> onBoard =
        grounds.stream().filter(c -> assembly.branch(c).hub() instanceof Node.OnBoard).toList();
    return onBoard.size() < 2 ? grounds : onBoard;
  }

  private Optional<Contact> provenGround(List<Contact> grounds) {
    return grounds.stream().filter(c -> knowledge.conducts(c, seating)).findFirst();
  }

  private List<Question> paths() {
    if (!knowledge.released(seating)) {
      return List.of();
    }
    List<Question> questions = new ArrayList<>();
    for (Contact contact : knowledge.firstSeating() == seating ? everything() : again()) {
      if (knowledge.path(contact, seating).isEmpty() && knowledge.released(contact, seating)) {
        questions.add(new Question(Need.PATH, readWith(contact)));
      }
    }
    return questions;
  }

  /**
   * A via that is seen past its plating is read from land to land, all others as the plan likes.
   */
  private List<Contact> readWith(Contact contact) {
    return ring.way(contact).filter(w -> w == Ring.Way.SHUNT).isPresent()
            && contact instanceof Contact.Pad pad
        ? ring.shunt(pad.position())
            .map(s -> List.<Contact>of(s.over(), s.under()))
            .orElse(List.of(contact))
        : List.of(contact);
  }

  private Set<Contact> everything() {
    Set<Contact> all = new LinkedHashSet<>();
    Map<Node, List<Contact>> ties = new LinkedHashMap<>();
    for (Contact contact : assembly.contacts()) {
      if (ring.isRead(contact)) {
        all.add(contact);
      } else if (ring.way(contact).isPresent()
          && !isShunted(contact)
          && assembly.home(contact) instanceof Node.TieMetal metal) {
        ties.computeIfAbsent(metal, k -> new ArrayList<>()).add(contact);
      }
    }
    // Metal that leads to no one net has to be proven by itself before its neighbours are.
    for (List<Contact> tie : ties.values()) {
      for (int i = 0; i < OF_A_TIE; i++) {
        all.add(tie.get(i * tie.size() / OF_A_TIE));
      }
    }
    return all;
  }

  private boolean isShunted(Contact contact) {
    return contact instanceof Contact.Pad pad && ring.shunt(pad.position()).isPresent();
  }

  /** What a later seating reads. */
  private Set<Contact> again() {
    Openings earlier = before();
    Set<Contact> suspects = earlier.suspects();
    Set<Contact> again = new LinkedHashSet<>(suspects);
    for (Contact suspect : suspects) {
      again.addAll(beside(suspect));
      earlier.knowledge.good().stream()
          .filter(c -> assembly.home(c).equals(assembly.home(suspect)) && !suspects.contains(c))
          .limit(NET_CONTROLS)
          .forEach(again::add);
    }
    if (!again.isEmpty()) {
      again.addAll(farControls(earlier.knowledge.good()));
    }
    again.removeIf(c -> !ring.isRead(c));
    // A pass that was cut short left contacts unread, and pairs that need both sides here.
    everything().stream().filter(c -> earlier.knowledge.paths(c).isEmpty()).forEach(again::add);
    for (Question question : earlier.bridges.open(earlier.seating)) {
      question.contacts().stream().filter(c -> ring.way(c).isPresent()).forEach(again::add);
    }
    return again;
  }

  /** The same look as it was at the end of the seating before. */
  private Openings before() {
    int last = knowledge.seatings().stream().filter(s -> s < seating).reduce((p, q) -> q).orElse(0);
    Estimates before =
        new Estimates(
            estimates.paths().stream().filter(p -> p.seating() < seating).toList(),
            estimates.pairs().stream().filter(p -> p.seating() < seating).toList(),
            estimates.residuals().stream().filter(r -> r.seating() < seating).toList(),
            List.of());
    return new Openings(assembly, capabilities, ring, before, last);
  }

  private List<Contact> beside(Contact contact) {
    if (!(contact instanceof Contact.Pad pad)) {
      return List.of();
    }
    return ring.beside(pad.position()).stream()
        .<Contact>map(other -> new Contact.Pad(pad.plate(), other))
        .toList();
  }

  private static List<Contact> farControls(List<Contact> good) {
    List<Contact> controls = new ArrayList<>();
    for (int i = 0; i < FAR_CONTROLS && !good.isEmpty(); i++) {
      controls.add(good.get(i * good.size() / FAR_CONTROLS));
    }
    return controls;
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
    Contact contact = path.contact();
    if (ring.way(contact).filter(w -> w == Ring.Way.NET || w == Ring.Way.REPRESENTS).isEmpty()
        || isShunted(contact)
        || !knowledge.released(contact, seating)) {
      return false;
    }
    boolean another =
        knowledge.conducting(assembly.home(contact), seating).stream()
            .anyMatch(c -> !c.equals(contact) && !path.partners().contains(c));
    if (path.evidence() == Evidence.NO_PROVEN_PARTNER) {
      return another
          || (ring.grounded(contact) && path.partners().stream().noneMatch(assembly::isGround));
    }
    return path.evidence() == Evidence.CONDUCTS
        && another
        && path.partners().size() < ENOUGH_PARTNERS
        && contact instanceof Contact.Pad pad
        && rule.isOdd(pad.position(), path);
  }

  private List<Question> reseat() {
    if (knowledge.seatings().size() >= MOST_SEATINGS) {
      return List.of();
    }
    List<Contact> grounds = grounds();
    boolean tried = grounds.stream().anyMatch(c -> knowledge.path(c, seating).isPresent());
    if (!assembly.setUp().bare() && tried && provenGround(grounds).isEmpty()) {
      return List.of(new Question(Need.RESEAT, List.of()));
    }
    Set<Contact> suspects = suspects();
    return suspects.isEmpty()
        ? List.of()
        : List.of(new Question(Need.RESEAT, List.copyOf(suspects)));
  }

  /** Contacts whose grade another seating could change or confirm. */
  private Set<Contact> suspects() {
    Set<Contact> suspects = new LinkedHashSet<>();
    for (String id : assembly.map().positions().keySet()) {
      for (Contact contact : ring.contacts(id)) {
        if (ring.isRead(contact) && isSuspect(id, contact)) {
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
    if (paths.size() > 1) {
      return false;
    }
    Finding finding = rule.grade(position);
    return finding.grade() == Grade.HIGH
        || finding.grade() == Grade.OPEN
        || finding.grade() == Grade.UNDECIDED
        || !paths.get(0).consistent();
  }
}

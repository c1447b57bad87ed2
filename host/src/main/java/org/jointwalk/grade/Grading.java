package org.jointwalk.grade;

import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.BridgeFinding;
import org.jointwalk.job.Drift;
import org.jointwalk.job.DropShift;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Face;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.Side;

/**
 * Judges the estimates of a pass: what is found, what is still open, whether it is safe to go on.
 * Immutable; every answer is a function of the estimates alone.
 */
public final class Grading {

  /** A drop further than this from its reference is another circuit, in volt (an assumption). */
  private static final double STRANGE_VOLTS = 0.06;

  private static final double SURE = 5;

  private final Assembly assembly;
  private final Capabilities capabilities;
  private final Ring ring;

  /**
   * @param assembly what is in the fixture
   * @param capabilities of the fixture
   * @param wired contacts that the fixture can reach
   */
  public Grading(Assembly assembly, Capabilities capabilities, Set<Contact> wired) {
    this.assembly = assembly;
    this.capabilities = capabilities;
    this.ring = new Ring(assembly, capabilities, wired);
  }

  /**
   * What is open, of the first kind that is: safety, first look, other partner, bridges, their
   * place, another seating. Empty when nothing is, or nothing that another reading would change.
   *
   * @param estimates all so far
   * @param seating number of the seating that is in place
   * @param exhausted needs that no further reading of this seating can answer
   */
  public List<Question> open(Estimates estimates, int seating, Set<Need> exhausted) {
    return new Openings(assembly, capabilities, ring, estimates, seating).next(exhausted);
  }

  /** What makes it unsafe to go on, in words for the technician; empty when nothing does. */
  public Optional<String> danger(Estimates estimates) {
    return Safety.danger(assembly, estimates.residuals());
  }

  /** Voltages that are there without our doing but harm nothing, and drift, in words. */
  public List<String> remarks(Estimates estimates) {
    List<String> remarks = new ArrayList<>(Safety.remarks(assembly, estimates.residuals()));
    for (Drift drift : estimates.drifts()) {
      remarks.add(
          Words.format(
              "The step between %s and %s was read again through seating %d and moved by %s, more"
                  + " than noise explains. Every resistance of that seating carries it as"
                  + " uncertainty. Let the fixture warm up, and run the pass again if anything is"
                  + " undecided.",
              drift.a().id(), drift.b().id(), drift.seating(), Words.ohms(drift.span().value())));
    }
    return remarks;
  }

  /** One finding per position, the bridges, and what is strange about a board. */
  public Findings findings(Estimates estimates) {
    Knowledge knowledge = new Knowledge(assembly, estimates);
    PathRule rule = new PathRule(assembly, capabilities, ring, knowledge);
    Bridges bridges =
        new Bridges(
            assembly,
            ring,
            knowledge,
            new Separation(assembly, capabilities, knowledge, estimates));
    List<BridgeFinding> found = bridges.found();
    Map<String, BridgeFinding> bridged = new LinkedHashMap<>();
    for (BridgeFinding bridge : found) {
      bridged.put(bridge.a(), bridge);
      bridged.put(bridge.b(), bridge);
    }
    Map<String, Estimate> ownPaths = bridges.ownPaths();
    List<Finding> positions = new ArrayList<>();
    for (String id : assembly.map().positions().keySet()) {
      Finding finding = ownPath(rule.grade(id), Optional.ofNullable(ownPaths.get(id)));
      BridgeFinding bridge = bridged.get(id);
      positions.add(bridge == null ? finding : bridged(finding, bridge));
    }
    List<BoardFinding> boards = new ArrayList<>(bridges.shorted());
    boards.addAll(strange(estimates, boards, bridged.keySet()));
    return new Findings(positions, found, boards, PathRule.ID);
  }

  /** A pad that passed for open although an isolation step found current through it is high. */
  private static Finding ownPath(Finding finding, Optional<Estimate> ohms) {
    if (finding.grade() != Grade.OPEN || ohms.isEmpty()) {
      return finding;
    }
    return new Finding(
        finding.position(),
        Grade.HIGH,
        ohms,
        finding.limit(),
        finding.seatings(),
        finding.confirmed(),
        Optional.<Ohms>empty(),
        finding.among(),
        Words.estimate(ohms.get()) + " to its own net, more than a resistance step reads");
  }

  private Finding bridged(Finding finding, BridgeFinding bridge) {
    if (finding.grade() == Grade.OPEN) {
      return finding;
    }
    String other = bridge.a().equals(finding.position()) ? bridge.b() : bridge.a();
    List<Component> among = new ArrayList<>();
    for (Side row : rows()) {
      among.add(Component.Bridge.between(row, bridge.a(), bridge.b()));
    }
    return new Finding(
        finding.position(),
        Grade.BRIDGED,
        finding.ohms(),
        finding.limit(),
        Math.max(1, finding.seatings()),
        false,
        Optional.<Ohms>empty(),
        among,
        "joined to " + other + " by " + Words.estimate(bridge.ohms()));
  }

  /**
   * The rows on which metal can join two positions: those of the joints, else the faces touched.
   */
  private Set<Side> rows() {
    Set<Side> rows = EnumSet.noneOf(Side.class);
    rows.addAll(assembly.setUp().joints());
    if (rows.isEmpty()) {
      for (Plate plate : Plate.values()) {
        assembly.setUp().touches(plate).map(Face::side).ifPresent(rows::add);
      }
    }
    return rows;
  }

  /**
   * References were read on boards that were alone, so that the joined stack is strange to them.
   */
  private List<BoardFinding> strange(
      Estimates estimates, List<BoardFinding> known, Set<String> bridged) {
    if (assembly.setUp().boards().size() > 1) {
      return List.of();
    }
    Set<NetId> done = new LinkedHashSet<>();
    known.forEach(b -> done.add(b.net()));
    List<BoardFinding> found = new ArrayList<>();
    for (DropShift shift : estimates.shifts()) {
      Estimate volts = shift.volts();
      boolean atBridge =
          shift.contact() instanceof Contact.Pad pad && bridged.contains(pad.position());
      if (Math.abs(volts.value()) - SURE * volts.u() > STRANGE_VOLTS
          && !atBridge
          && done.add(shift.net())) {
        found.add(
            new BoardFinding(
                shift.net(),
                BoardFinding.Fault.DIFFERENT,
                Words.format(
                    "%s drops %+.0f mV from what good boards read, once the common part is off",
                    shift.net().name(), volts.value() * 1e3)));
      }
    }
    return found;
  }
}

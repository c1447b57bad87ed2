package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.quantity.Ohms;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Net;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Role;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** What no pass could see, in sentences with reasons. Immutable. */
final class Unseen {

  private static final int NETS_NAMED = 4;

  private final PadMap map;
  private final Standing standing;

  Unseen(PadMap map, Standing standing) {
    this.map = map;
    this.standing = standing;
  }

  List<String> sentences() {
    List<String> sentences = new ArrayList<>();
    rows(sentences);
    unmeasured(sentences);
    for (SetUp setUp : SetUp.all()) {
      standing
          .standing(setUp)
          .map(this::ofPass)
          .filter(parts -> !parts.isEmpty())
          .ifPresent(
              parts ->
                  sentences.add(
                      Words.sentence(setUp.title()) + ": " + String.join("; ", parts) + "."));
    }
    sentences.add("A part of a board that is dead but reads normal at DC cannot be seen.");
    sentences.add("Connected means connected under clamp pressure.");
    return sentences;
  }

  private void rows(List<String> sentences) {
    for (Side side : Side.values()) {
      if (!standing.lostRow(side)) {
        continue;
      }
      String row = "the " + map.positions().size() + " " + Words.side(side) + " joints";
      sentences.add(
          standing.letGoBySplit(side)
              ? Words.sentence(row)
                  + " that came in were lost by the split: they are judged only by exclusion."
              : Words.sentence(row)
                  + " that came in were lost when the interposer was lifted: only what was"
                  + " measured before still tells of them.");
      if (!standing.attachment().holds(side)
          && standing.heldBy().filter(standing::isRemade).isPresent()) {
        sentences.add("The new " + Words.side(side) + " joints do not exist yet.");
      }
    }
  }

  private void unmeasured(List<String> sentences) {
    if (standing.attachment() == Attachment.BOTH) {
      sentences.add("In a closed stack no pad is read by itself.");
      return;
    }
    for (SetUp setUp : standing.reachable()) {
      if (!standing.isMeasured(setUp)) {
        sentences.add(Words.sentence(setUp.title()) + " has not been measured as it is now.");
      }
    }
  }

  private List<String> ofPass(GradedPass pass) {
    List<String> parts = new ArrayList<>();
    List<Finding> masked = pass.findings().graded(Grade.MASKED);
    if (!masked.isEmpty()) {
      parts.add(pads(masked.size()) + " seen only as a set" + nets(pass, masked));
    }
    notTested(pass, parts);
    many(pass, Grade.NOT_CONTACTED, "whose probe did not land", parts);
    many(pass, Grade.UNDECIDED, "too close to the limit to decide", parts);
    probes(pass, parts);
    without(pass.findings().graded(Grade.UNRESOLVED), "connected, but", parts);
    List<Finding> blind =
        pass.findings().graded(Grade.GOOD).stream()
            .filter(f -> f.detectable().isPresent())
            .toList();
    without(blind, "good by their drop;", parts);
    return parts;
  }

  /** A probe that is bent or dirty for good reads like the path it should touch, every time. */
  private void probes(GradedPass pass, List<String> parts) {
    List<String> ids =
        pass.findings().positions().stream()
            .filter(Finding::confirmed)
            .filter(f -> f.among().stream().anyMatch(this::isUnprovenProbe))
            .map(Finding::position)
            .toList();
    if (!ids.isEmpty()) {
      parts.add(
          pads(ids.size())
              + " ("
              + Words.ids(ids)
              + ") would read the same if the probe there were bent or dirty for good");
    }
  }

  /** Whether no other pass that used a probe found a path through it. */
  private boolean isUnprovenProbe(Component component) {
    return component instanceof Component.Probe probe
        && probe.contact() instanceof Contact.Pad pad
        && standing.passes().stream()
            .filter(pass -> pass.setUp().touches(pad.plate()).isPresent())
            .flatMap(pass -> pass.findings().positions().stream())
            .filter(f -> f.position().equals(pad.position()))
            .noneMatch(f -> f.grade().isConnected());
  }

  private static void without(List<Finding> findings, String what, List<String> parts) {
    if (findings.isEmpty()) {
      return;
    }
    Optional<Ohms> largest =
        findings.stream().flatMap(f -> f.detectable().stream()).max(Comparator.naturalOrder());
    parts.add(
        pads(findings.size())
            + " "
            + what
            + largest
                .map(o -> " up to " + Words.ohms(o.value()) + " in series would not show")
                .orElse(" how well cannot be told"));
  }

  private void notTested(GradedPass pass, List<String> parts) {
    Map<String, Integer> byReason = new LinkedHashMap<>();
    for (Finding finding : pass.findings().graded(Grade.NOT_TESTED)) {
      byReason.merge(reason(pass, finding), 1, Integer::sum);
    }
    byReason.forEach((reason, n) -> parts.add(pads(n) + " not read, " + reason));
  }

  private String reason(GradedPass pass, Finding finding) {
    for (Side side : pass.setUp().boards()) {
      Net net = map.netAt(finding.position(), side);
      if (net.role() == Role.UNUSED) {
        return "unused";
      }
      if (!net.dcPath()) {
        return "without a path for direct current";
      }
    }
    String own = finding.reason().strip();
    return own.isEmpty()
        ? "not tested"
        : own.endsWith(".") ? own.substring(0, own.length() - 1) : own;
  }

  private static void many(GradedPass pass, Grade grade, String why, List<String> parts) {
    List<String> ids = pass.findings().graded(grade).stream().map(Finding::position).toList();
    if (!ids.isEmpty()) {
      parts.add(pads(ids.size()) + " (" + Words.ids(ids) + ") " + why);
    }
  }

  private String nets(GradedPass pass, List<Finding> findings) {
    Set<String> names = new LinkedHashSet<>();
    for (Finding finding : findings) {
      for (Side side : pass.setUp().boards()) {
        names.add(map.position(finding.position()).net(side).name());
      }
    }
    return names.isEmpty() || names.size() > NETS_NAMED
        ? ""
        : " (" + String.join(", ", names) + ")";
  }

  private static String pads(int n) {
    return Words.count(n, "pad", "pads");
  }
}

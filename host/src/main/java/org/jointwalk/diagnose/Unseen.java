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
    Map<String, Set<String>> titlesBySentence = new LinkedHashMap<>();
    for (SetUp setUp : SetUp.all()) {
      standing
          .standing(setUp)
          .ifPresent(
              pass ->
                  ofPass(pass)
                      .forEach(
                          s ->
                              titlesBySentence
                                  .computeIfAbsent(s, k -> new LinkedHashSet<>())
                                  .add(setUp.title())));
    }
    titlesBySentence.forEach(
        (sentence, titles) ->
            sentences.add(Words.sentence(Words.and(List.copyOf(titles))) + ": " + sentence));
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
    List<String> sentences = new ArrayList<>();
    List<Finding> masked = pass.findings().graded(Grade.MASKED);
    if (!masked.isEmpty()) {
      sentences.add(
          pads(masked.size())
              + (masked.size() == 1 ? " is" : " are")
              + " seen only as a set"
              + nets(pass, masked)
              + ", because other paths join them; a single fault among them does not show.");
    }
    notTested(pass, sentences);
    many(pass, Grade.NOT_CONTACTED, "the probe did not land", sentences);
    many(pass, Grade.UNDECIDED, "too close to the limit to decide", sentences);
    List<Finding> unresolved = pass.findings().graded(Grade.UNRESOLVED);
    if (!unresolved.isEmpty()) {
      sentences.add(
          pads(unresolved.size())
              + (unresolved.size() == 1 ? " is" : " are")
              + " connected, but this fixture does not resolve the limit there"
              + largest(unresolved)
              + ".");
    }
    List<Finding> blind =
        pass.findings().graded(Grade.GOOD).stream()
            .filter(f -> f.detectable().isPresent())
            .toList();
    if (!blind.isEmpty()) {
      sentences.add(
          pads(blind.size())
              + (blind.size() == 1 ? " was" : " were")
              + " judged without a resistance"
              + largest(blind)
              + ".");
    }
    return sentences;
  }

  private static String largest(List<Finding> findings) {
    Optional<Ohms> largest =
        findings.stream().flatMap(f -> f.detectable().stream()).max(Comparator.naturalOrder());
    return largest
        .map(o -> "; less than " + Words.ohms(o.value()) + " would not have shown everywhere")
        .orElse("");
  }

  private void notTested(GradedPass pass, List<String> sentences) {
    Map<String, List<String>> byReason = new LinkedHashMap<>();
    for (Finding finding : pass.findings().graded(Grade.NOT_TESTED)) {
      byReason
          .computeIfAbsent(reason(pass, finding), k -> new ArrayList<>())
          .add(finding.position());
    }
    byReason.forEach(
        (reason, ids) ->
            sentences.add(
                pads(ids.size()) + " not seen (" + Words.ids(ids) + "): " + reason + "."));
  }

  private String reason(GradedPass pass, Finding finding) {
    for (Side side : pass.setUp().boards()) {
      Net net = map.netAt(finding.position(), side);
      if (net.role() == Role.UNUSED) {
        return "unused, nothing is wired there";
      }
      if (!net.dcPath()) {
        return "no path for direct current";
      }
    }
    String own = finding.reason().strip();
    return own.isEmpty()
        ? "not tested"
        : own.endsWith(".") ? own.substring(0, own.length() - 1) : own;
  }

  private static void many(GradedPass pass, Grade grade, String why, List<String> sentences) {
    List<String> ids = pass.findings().graded(grade).stream().map(Finding::position).toList();
    if (!ids.isEmpty()) {
      sentences.add(pads(ids.size()) + " not decided (" + Words.ids(ids) + "): " + why + ".");
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

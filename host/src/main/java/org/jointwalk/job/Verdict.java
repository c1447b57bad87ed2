package org.jointwalk.job;

import java.util.List;
import java.util.Optional;
import org.jointwalk.stack.Component;

/**
 * Where the fault is, as far as the job can tell.
 *
 * <p>Two questions are answered apart, because work changes the parts: what the device came in
 * with, which alone can explain the complaint, and what is wrong with it now. Before anything is
 * done the two answers are the same.
 *
 * @param headline the finding in a few capitals
 * @param groups what the device came in with, parts since lost or mended included, most likely
 *     first; empty when nothing was found
 * @param now what is wrong with the parts as they are at this moment, most likely first
 * @param fit whether what the device came in with explains the complaint
 * @param next what to do now
 * @param remarks what else speaks for or against, in sentences
 * @param notSeen what no pass could see, in sentences
 * @param rule id of the rule that judged
 */
public record Verdict(
    String headline,
    List<Group> groups,
    List<Group> now,
    Fit fit,
    Next next,
    List<String> remarks,
    List<String> notSeen,
    String rule) {

  public Verdict {
    groups = List.copyOf(groups);
    now = List.copyOf(now);
    remarks = List.copyOf(remarks);
    notSeen = List.copyOf(notSeen);
  }

  /**
   * Components that the passes so far cannot tell apart.
   *
   * @param regions where they lie, most likely first
   * @param components the members, most likely first within a position
   * @param positions that are concerned, in map order
   * @param sureness how sure it is that the fault lies in the first region
   * @param because evidence, and why the members cannot be told apart, in sentences
   */
  public record Group(
      List<Region> regions,
      List<Component> components,
      List<String> positions,
      Sureness sureness,
      String because) {

    public Group {
      regions = List.copyOf(regions);
      components = List.copyOf(components);
      positions = List.copyOf(positions);
    }
  }

  /** How sure a statement is. */
  public enum Sureness {
    /** At least 0.95. */
    LOCATED("located"),
    /** At least 0.75; never more by exclusion alone. */
    PROBABLY("probably"),
    UNDECIDED("undecided between");

    private final String words;

    Sureness(String words) {
      this.words = words;
    }

    /** The words that screens use. */
    public String words() {
      return words;
    }
  }

  /** Whether what was found explains what the customer said. */
  public enum Fit {
    FITS,
    /** It explains a part of it, or lies on a supply or an unknown net that may. */
    MAY_FIT,
    DOES_NOT_FIT,
    NOT_SAID,
    NOTHING_FOUND
  }

  /**
   * What to do now.
   *
   * @param what in bench words
   * @param minutes about how long it takes
   * @param setUp the set-up to run afterwards, when there is one
   */
  public record Next(String what, int minutes, Optional<String> setUp) {}
}

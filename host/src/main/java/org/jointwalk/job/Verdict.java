package org.jointwalk.job;

import java.util.List;
import java.util.Optional;
import org.jointwalk.stack.Component;

/**
 * Where the fault is, as far as the job can tell.
 *
 * @param headline the finding in a few capitals
 * @param groups suspects, most likely first; empty when nothing was found
 * @param fit whether it explains the complaint
 * @param next what to do now
 * @param notSeen what no pass could see, in sentences
 * @param rule id of the rule that judged
 */
public record Verdict(
    String headline, List<Group> groups, Fit fit, Next next, List<String> notSeen, String rule) {

  public Verdict {
    groups = List.copyOf(groups);
    notSeen = List.copyOf(notSeen);
  }

  /**
   * Components that the passes so far cannot tell apart.
   *
   * @param regions where they lie
   * @param components the members
   * @param positions that are concerned, in map order
   * @param sureness how sure it is that the fault is among them
   * @param because evidence in one sentence
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

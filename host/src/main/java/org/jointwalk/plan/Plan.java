package org.jointwalk.plan;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;

/** Makes the scan that answers open questions on one fixture. Immutable. */
public final class Plan {

  private final Assembly assembly;
  private final Steps steps;
  private final Continuity continuity;
  private final Isolation isolation;
  private final Precaution precaution;

  /**
   * @param assembly what is in the fixture
   * @param capabilities of the fixture
   * @param wired contacts that the fixture can reach
   * @param solve what it knows of the boards' loads
   */
  public Plan(Assembly assembly, Capabilities capabilities, Set<Contact> wired, Solve solve) {
    this.assembly = assembly;
    this.steps = new Steps(assembly, capabilities);
    this.continuity = new Continuity(assembly, wired, steps, solve);
    this.isolation = new Isolation(assembly, capabilities, steps, solve);
    this.precaution = new Precaution(assembly, wired, steps);
  }

  /**
   * The steps that answer the questions, which are all of one need. Empty when they can be answered
   * only by another seating, or not at all.
   *
   * @param questions as the grading put them
   * @param estimates all so far
   * @param seating number of the seating that is in place
   */
  public Scan scan(List<Question> questions, Estimates estimates, int seating) {
    List<Step> list = new ArrayList<>();
    if (!questions.isEmpty()) {
      Need need = questions.get(0).need();
      Proven proven = new Proven(assembly, estimates, seating);
      list =
          switch (need) {
            case SAFETY -> precaution.steps(questions, proven, estimates.residuals().isEmpty());
            case PATH -> continuity.first(questions, proven);
            case PARTNER -> continuity.partners(questions, proven);
            case ISOLATION -> isolation.steps(questions, proven);
            case LOCALISE -> isolation.places(questions);
            case RESEAT -> List.of();
          };
    }
    return Scan.of(assembly.setUp().name(), list);
  }

  /**
   * One quick look at each contact, to be repeated over and over; a contact that cannot be looked
   * at is left out.
   *
   * @param contacts suspects, in the order of the answer
   * @param trusted contacts whose paths were found good before
   * @param estimates all so far
   * @param seating number of the seating that is in place
   */
  public Map<Contact, Step> looks(
      List<Contact> contacts, Set<Contact> trusted, Estimates estimates, int seating) {
    Proven proven = new Proven(assembly, estimates, seating);
    Set<Contact> doubted = new LinkedHashSet<>(contacts);
    Map<Contact, Step> looks = new LinkedHashMap<>();
    for (Contact contact : contacts) {
      continuity
          .look(contact, doubted, trusted, proven)
          .ifPresent(step -> looks.put(contact, step));
    }
    return Collections.unmodifiableMap(looks);
  }
}

package org.jointwalk.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Estimates;
import org.jointwalk.job.PathEstimate;
import org.jointwalk.job.Question;
import org.jointwalk.quantity.Estimate;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.Ring;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.Plate;
import org.jointwalk.stack.SetUp;
import org.junit.jupiter.api.Test;

/** What a pad is read against. */
class PartnerTest {

  private static final PadMap MAP = Ring.of(60, 3, 1);
  private static final Contact LONE = pad("N030");
  private static final Contact NEAR = pad("N027");
  private static final Contact FAR = pad("N059");

  private static Contact pad(String position) {
    return new Contact.Pad(Plate.UNDER, position);
  }

  private static PathEstimate ground(Contact contact, double ohms) {
    return new PathEstimate(
        1,
        contact,
        PathEstimate.Evidence.CONDUCTS,
        Optional.of(Estimate.known(ohms, 0.01)),
        Optional.empty(),
        false,
        List.of(),
        true);
  }

  /** The ground that a lone signal is read against when two have been proven. */
  private static Contact partner(double nearOhms, double farOhms) {
    Assembly assembly =
        new Assembly(MAP, MAP.interposers().get(0), SetUp.named("upper-board").orElseThrow());
    FixtureMap fixture = FixtureMaps.photoRelay(MAP);
    Plan plan =
        new Plan(
            assembly,
            fixture.capabilities(),
            fixture.contacts(),
            new Solve(assembly, fixture.capabilities(), List.of()));
    Estimates estimates =
        new Estimates(
            List.of(ground(NEAR, nearOhms), ground(FAR, farOhms)), List.of(), List.of(), List.of());
    List<Question> questions = List.of(new Question(Question.Need.PATH, List.of(LONE)));
    List<Step> steps = plan.scan(questions, estimates, 1).steps();
    assertThat(steps).hasSize(1);
    assertThat(steps.get(0).kind()).isEqualTo(Kind.JUNCTION);
    List<Contact> both = new ArrayList<>(List.of(steps.get(0).a(), steps.get(0).b()));
    both.remove(LONE);
    return both.get(0);
  }

  @Test
  void loneSignalIsReadAgainstTheNearestGround() {
    assertThat(partner(0.01, 0.02)).isEqualTo(NEAR);
  }

  @Test
  void highGroundIsNoPartnerWhileThereIsAnother() {
    assertThat(partner(5.5, 0.02)).isEqualTo(FAR);
  }

  @Test
  void highGroundIsBetterThanNone() {
    assertThat(partner(5.5, 7)).isEqualTo(NEAR);
  }
}

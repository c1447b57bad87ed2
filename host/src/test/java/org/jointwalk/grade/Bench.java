package org.jointwalk.grade;

import static org.assertj.core.api.Assertions.assertThat;
import static org.jointwalk.trial.Readings.over;

import java.util.List;
import java.util.Set;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Switching;
import org.jointwalk.job.Findings;
import org.jointwalk.job.Measurement;
import org.jointwalk.job.Question;
import org.jointwalk.job.Question.Need;
import org.jointwalk.solve.Solve;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.Contact;
import org.jointwalk.trial.Instruments;
import org.jointwalk.trial.SmallMap;

/** A map in a set-up with a fixture. */
record Bench(Assembly assembly, Capabilities capabilities, Solve solve) {

  static Bench of(SmallMap map, String setUp, Capabilities capabilities) {
    Assembly assembly = map.in(setUp);
    return new Bench(assembly, capabilities, new Solve(assembly, capabilities, List.of()));
  }

  static Bench of(SmallMap map) {
    return of(map, "interposer-on-lower", Instruments.ideal(Switching.MULTIPLEXER));
  }

  Grading grading() {
    return new Grading(assembly, capabilities, assembly.contacts());
  }

  Findings findings(List<Measurement> list) {
    return grading().findings(solve.estimates(list));
  }

  List<Set<Contact>> pairs(List<Measurement> list, int seating, Need need) {
    List<Question> questions = grading().open(solve.estimates(list), seating, Set.of());
    assertThat(questions).allMatch(q -> q.need() == need);
    return questions.stream().map(q -> Set.copyOf(q.contacts())).toList();
  }

  static Set<Contact> pair(String a, String b) {
    return Set.of(over(a), over(b));
  }
}

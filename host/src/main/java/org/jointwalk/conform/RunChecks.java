package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.List;
import java.util.Optional;
import org.jointwalk.protocol.Account;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Notice;
import org.jointwalk.protocol.ProgramFault;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.RunEnd;
import org.jointwalk.protocol.StepRefusal;
import org.jointwalk.protocol.Streamed;
import org.jointwalk.protocol.Taken;

/** Runs: section 12. Stateless. */
final class RunChecks {

  private static final long HEARD_MILLIS = 25;
  private static final long STOP_MILLIS = 20;

  /** Where the STEPS of the checks tell how many they are. */
  private static final int COUNT_AT = 8;

  private RunChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M61", "RUN is refused when it cannot be", RunChecks::refused),
        new Check("M62", "streamed frames are taken in order only", RunChecks::gaps),
        new Check("M63", "what was taken is heard in 25 ms", RunChecks::heard),
        new Check("M64", "an unreadable frame ends the run", RunChecks::unreadable),
        new Check("M67", "no step is begun without credit", RunChecks::credit),
        new Check("M68", "no result is lost while nobody reads", RunChecks::backlog),
        new Check("M69", "a run waits for steps and goes on", RunChecks::dry),
        new Check("M70", "END comes last and its account is true", RunChecks::end),
        new Check("M72", "STOP stops, whoever says it", RunChecks::stop));
  }

  private static String refused(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    talk.refusal(new Request.Run(talk.another(0, 1, 0).run(), 0, 1, 0, 0), Refusal.NOT_DECLARED);
    Engine.signals(talk);
    Request.Run right = talk.another(0, 1, 0);
    Answer.Refused other =
        talk.refusal(
            new Request.Run(right.run(), 0, 1, 0, right.declaration() ^ 1),
            Refusal.OTHER_DECLARATION);
    require(
        other.detail() == right.declaration(),
        "OTHER_DECLARATION does not tell the check of what is held");
    Request.Run none = talk.another(0, 1, 0);
    talk.refusal(talk.next(none).with32(8, 0), Refusal.BAD_VALUE);
    talk.refusal(talk.next(none).with32(4, 0xFFFF_FFFFL), Refusal.BAD_VALUE);
    talk.begin(3, 1, 3);
    long run = talk.run();
    Optional<Came> first = talk.await(came -> came.message() instanceof Notice.Recorded, 500);
    require(
        first.isPresent()
            && first.get().message() instanceof Notice.Check check
            && check.upto() == 3,
        "a run does not begin with a bus check");
    talk.refusal(talk.another(0, 1, 0), Refusal.RUN_UNDER_WAY);
    Engine.stop(talk);
    talk.refusal(new Request.Run(run, 0, 1, 0, right.declaration()), Refusal.BAD_VALUE);
    cleared(talk);
    return "lid and faults were not looked at";
  }

  /** What was loaded for one run is not there for the next. */
  private static void cleared(Talk talk) throws Breach, Untestable, IOException {
    Engine.begin(talk, 0, 1, 0);
    Engine.stop(talk);
    talk.begin(0, 1, 1);
    talk.stream(Engine.steps(talk, 0, 1));
    List<Taken> taken = Engine.toEnd(talk).taken();
    require(
        taken.equals(List.of(new Taken.Refused(StepRefusal.SETTING.code()))),
        "a step without a setting was "
            + (taken.isEmpty() ? "passed over" : StepChecks.words(taken.get(0)))
            + ": the setting of the run before is still there");
  }

  private static boolean isHeard(Came came, boolean gap) {
    return came.message() instanceof Notice.Heard heard && heard.gap() == gap;
  }

  private static String gaps(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 4, 0);
    talk.listen(60);
    RawFrame next = talk.streamed(new Streamed.Credit(talk.run(), 0));
    RawFrame after = next.as(next.session(), next.number() + 1);
    long began = talk.nanos();
    for (int i = 0; i < 10; i++) {
      talk.send(after);
    }
    Optional<Came> gap = talk.await(came -> isHeard(came, true), 200);
    require(gap.isPresent(), "a frame after a gap was not answered by HEARD with gap");
    inTime(began, gap.get(), HEARD_MILLIS, "HEARD after a gap");
    talk.await(came -> false, 60);
    long more = talk.listen(1).stream().filter(c -> c.message() instanceof Notice.Heard).count();
    long most = (talk.nanos() - began) / 20_000_000 + 1;
    require(more < most, "more than one HEARD in 20 ms for ten frames after a gap");
    require(talk.status().account().heard() == next.number() - 1, "a frame after a gap was taken");
    talk.send(next.with32(0, talk.run() + 1));
    talk.send(next.as(next.session() ^ 1, next.number()));
    require(
        talk.listen(80).stream().noneMatch(came -> came.message() instanceof Notice),
        "a streamed frame of another run was not passed over in silence");
    talk.send(next.as(next.session(), next.number() - 1));
    require(
        talk.await(came -> isHeard(came, false), 200).isPresent(),
        "an old streamed frame was not answered by HEARD without gap");
    require(
        talk.status().account().heard() == next.number() - 1, "a frame of another run was taken");
    Engine.stop(talk);
    return "";
  }

  private static void inTime(long began, Came came, long millis, String what) throws Breach {
    long took = (came.nanos() - began) / 1_000_000;
    require(took <= millis + Talk.SLACK_MILLIS, what + " came after " + took + " ms");
  }

  private static String heard(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 40, 0);
    long most = 0;
    for (int i = 1; i <= 8; i++) {
      talk.listen(40);
      long began = talk.nanos();
      talk.stream(new Streamed.Credit(talk.run(), 0));
      int number = talk.streamed();
      Optional<Came> heard =
          talk.await(
              came ->
                  (came.message() instanceof Notice.Heard h && h.heard() == number)
                      || (came.message() instanceof Notice.Recorded r && r.heard() == number),
              300);
      require(heard.isPresent(), "a streamed frame was not heard in 0.3 s");
      inTime(began, heard.get(), HEARD_MILLIS, "HEARD");
      most = Math.max(most, (heard.get().nanos() - began) / 1_000_000);
    }
    Engine.stop(talk);
    accounted(talk, 0, 0);
    accounted(talk, 4, 2);
    return "at most " + most + " ms";
  }

  /** What HEARD tells of steps and credit is what the account tells. */
  private static void accounted(Talk talk, long credit, int done)
      throws Breach, Untestable, IOException {
    Engine.begin(talk, 0, 4, credit);
    talk.stream(Engine.steps(talk, 0, 2));
    Engine.heard(talk);
    for (int i = 0; i < 40 && talk.status().account().done() < done; i++) {
      talk.await(came -> false, 25);
    }
    talk.listen(60);
    RawFrame next = talk.streamed(new Streamed.Credit(talk.run(), credit));
    talk.send(next.as(next.session(), next.number() - 1));
    Optional<Came> heard = talk.await(came -> isHeard(came, false), 200);
    require(heard.isPresent(), "an old streamed frame was not answered by HEARD");
    Notice.Heard told = (Notice.Heard) heard.get().message();
    require(
        told.loaded() == 2 && told.credit() == credit,
        "HEARD tells "
            + told.loaded()
            + " steps loaded and credit to "
            + told.credit()
            + " instead of 2 and "
            + credit);
    Engine.stop(talk);
  }

  private static String unreadable(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 4, 0);
    RawFrame none = talk.streamed(Engine.steps(talk, 0, 1)).with(COUNT_AT, 0).sized(9);
    Engine.fault(talk, none, ProgramFault.UNREADABLE, "STEPS without steps");
    Engine.begin(talk, 0, 4, 0);
    RawFrame half = talk.streamed(Engine.steps(talk, 0, 2)).sized(9 + 6 + 5);
    Engine.fault(talk, half, ProgramFault.UNREADABLE, "STEPS that end in a step");
    return "";
  }

  private static long results(List<Came> came) {
    return came.stream()
        .map(Came::message)
        .filter(Notice.Results.class::isInstance)
        .mapToLong(message -> ((Notice.Results) message).results().size())
        .sum();
  }

  private static String credit(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 10, 3);
    talk.stream(Engine.steps(talk, 0, 10));
    long seen = results(talk.listen(400));
    require(seen == 3, "with credit for 3 steps " + seen + " were taken");
    require(talk.status().doing() == 3, "STATE does not say that the run waits for credit");
    talk.stream(new Streamed.Credit(talk.run(), 1));
    Engine.heard(talk);
    require(talk.status().account().credit() == 3, "a lower limit took credit back");
    talk.stream(new Streamed.Credit(talk.run(), 10));
    Engine.Ran ran = Engine.toEnd(talk);
    require(
        ran.end().end() == RunEnd.DONE.code() && ran.taken().size() == 7,
        "after credit for all the run " + Engine.ended(ran.end()));
    return "";
  }

  private static String backlog(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    int count = Math.min(228, talk.welcome().steps());
    Engine.begin(talk, 0, count, 0);
    for (int loaded = 0; loaded < count; ) {
      int some = Math.min(38, count - loaded);
      talk.stream(Engine.steps(talk, loaded, some));
      Engine.heard(talk);
      loaded += some;
    }
    long began = talk.nanos();
    talk.stream(new Streamed.Credit(talk.run(), count));
    for (int i = 0; i < 3; i++) {
      talk.pass(200);
      talk.send(talk.next(new Request.Status()));
    }
    Engine.Ran ran = Engine.toEnd(talk);
    require(
        ran.end().end() == RunEnd.DONE.code() && ran.taken().size() == count,
        "of "
            + count
            + " results "
            + ran.taken().size()
            + " came, and the run "
            + Engine.ended(ran.end()));
    return count
        + " results after 0.6 s without reading, "
        + (talk.nanos() - began) / 1_000_000
        + " ms in all";
  }

  private static String dry(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 4, 4);
    talk.stream(Engine.steps(talk, 0, 2));
    List<Came> came = talk.listen(400);
    require(
        results(came) == 2 && came.stream().noneMatch(c -> c.message() instanceof Notice.End),
        "a run without steps has " + results(came) + " results of 2, or has ended");
    require(talk.status().doing() == 2, "STATE does not say that the run waits for steps");
    talk.stream(Engine.steps(talk, 2, 2));
    Account end = Engine.toEnd(talk).end();
    require(end.end() == RunEnd.DONE.code(), "with its last steps the run " + Engine.ended(end));
    return "open channels cannot be seen from here";
  }

  private static String end(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.Ran done = Engine.many(talk, 20);
    account(done, RunEnd.DONE, 20);
    Engine.begin(talk, 0, 10, 4);
    talk.stream(Engine.steps(talk, 0, 10));
    talk.await(came -> came.message() instanceof Notice.Results, 400);
    talk.await(came -> false, 150);
    RawFrame stop = talk.next(new Request.Stop());
    talk.send(stop);
    Engine.Ran ran = Engine.toEnd(talk);
    Account end = ran.end();
    require(
        end.end() == RunEnd.STOPPED.code() && end.done() == 4 && end.checked() == 4,
        "a run stopped after 4 steps " + Engine.ended(end) + " with " + end.done() + " done");
    Optional<Came> answer = talk.await(came -> came.answers(stop), 200);
    require(answer.isPresent(), "STOP was not answered");
    require(
        answer.get().message() instanceof Answer.State state && state.account().equals(end),
        "the account in STATE is not the one of END");
    talk.await(came -> false, 80);
    return "";
  }

  private static void account(Engine.Ran ran, RunEnd why, int count) throws Breach {
    Account end = ran.end();
    require(end.end() == why.code(), "a run of " + count + " steps " + Engine.ended(end));
    require(
        end.loaded() == count && end.done() == count && end.checked() == count,
        "after "
            + count
            + " steps END tells of "
            + end.loaded()
            + " loaded, "
            + end.done()
            + " done, "
            + end.checked()
            + " checked");
    require(ran.taken().size() == count, "DONE with " + ran.taken().size() + " results");
  }

  private static String stop(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    Engine.signals(talk);
    Engine.begin(talk, 0, 2, 2);
    talk.listen(60);
    RawFrame stop = RawFrame.of(talk.session() ^ 0x0F0F, 4, new Request.Stop());
    long began = talk.nanos();
    talk.send(stop);
    Optional<Came> end = talk.await(came -> came.message() instanceof Notice.End, 500);
    require(end.isPresent(), "STOP of another session did not end the run");
    inTime(began, end.get(), STOP_MILLIS, "END after STOP");
    require(
        ((Notice.End) end.get().message()).account().end() == RunEnd.STOPPED.code(),
        "STOP of another session: the run "
            + Engine.ended(((Notice.End) end.get().message()).account()));
    Optional<Came> answer = talk.await(came -> came.answers(stop), 300);
    require(
        answer.isPresent()
            && answer.get().message() instanceof Answer.Refused refused
            && refused.code() == Refusal.NO_SESSION.code(),
        "STOP of another session was not refused with NO_SESSION");
    require(answer.get().nanos() >= end.get().nanos(), "STOP was answered before END");
    Engine.begin(talk, 0, 2, 2);
    RawFrame late = talk.next(new Request.Stop());
    talk.refusal(late.as(talk.session(), late.number() - 9 & 0xFFFF), Refusal.NUMBER_OLD);
    require(talk.status().doing() == 0, "STOP with an old number did not end the run");
    return "END after " + (end.get().nanos() - began) / 1_000_000 + " ms";
  }
}

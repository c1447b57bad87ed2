package org.jointwalk.conform;

import static org.jointwalk.conform.Check.require;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.zip.CRC32C;
import org.jointwalk.protocol.Answer;
import org.jointwalk.protocol.Item;
import org.jointwalk.protocol.Refusal;
import org.jointwalk.protocol.Request;
import org.jointwalk.protocol.Touch;

/** Requests and capabilities: sections 7 and 8. Stateless. */
final class RequestChecks {

  private static final long IN_TIME_MILLIS = 100;
  private static final long DWELL = 20_000;

  private RequestChecks() {}

  static List<Check> all() {
    return List.of(
        new Check("M29", "requests of another session are refused", RequestChecks::foreign),
        new Check("M30", "a repeated request gets the same bytes", RequestChecks::repeated),
        new Check("M31", "a number is not used for two requests", RequestChecks::reused),
        new Check("M32", "old numbers are refused", RequestChecks::old),
        new Check("M33", "every request is answered in 100 ms", RequestChecks::prompt),
        new Check("M34", "a refused request uses its number up", RequestChecks::usedUp),
        new Check("M35", "capabilities stay the same and come in pages", RequestChecks::pages),
        new Check("M36", "WELCOME has the check over all capabilities", RequestChecks::sum));
  }

  private static String foreign(Talk talk) throws Breach, IOException {
    talk.open();
    Engine.signals(talk);
    RawFrame declare = talk.next(Able.declare(List.of(Able.touch(Touch.Kind.GROUND))));
    talk.refusal(declare.as(talk.session() ^ 0x5A5A, declare.number()), Refusal.NO_SESSION);
    talk.refusal(
        talk.next(new Request.Status()).as(talk.session() ^ 1, 65_000), Refusal.NO_SESSION);
    talk.begin(0, 1, 0);
    Engine.stop(talk);
    return "";
  }

  private static String repeated(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame status = talk.next(new Request.Status());
    Came first = talk.answer(status);
    talk.await(came -> false, 30);
    Came again = talk.answer(status);
    require(first.raw().equals(again.raw()), "STATUS repeated was answered with other bytes");
    Engine.signals(talk);
    Request.Run request = talk.another(5, 2, 5);
    talk.tap().begins(request.run(), 5);
    RawFrame run = talk.next(request);
    Came begun = talk.answer(run);
    talk.await(came -> false, 30);
    require(
        begun.raw().equals(talk.answer(run).raw()), "RUN repeated was answered with other bytes");
    Engine.stop(talk);
    return "";
  }

  private static String reused(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame status = talk.next(new Request.Status());
    Came first = talk.answer(status);
    RawFrame other = RawFrame.of(talk.session(), status.number(), new Request.Capabilities(0));
    talk.refusal(other, Refusal.NUMBER_REUSED);
    require(
        first.raw().equals(talk.answer(status).raw()),
        "after a reused number the first request was not answered from memory");
    return "";
  }

  private static String old(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame status = talk.next(new Request.Status());
    Came first = talk.answer(status);
    for (int back : new int[] {1, 100, 32_768}) {
      int number = status.number() - back & 0xFFFF;
      talk.refusal(
          RawFrame.of(talk.session(), number, new Request.Capabilities(0)), Refusal.NUMBER_OLD);
    }
    require(
        first.raw().equals(talk.answer(status).raw()),
        "after an old number the last request was not answered from memory");
    // Newer by less than half of all numbers, in four leaps that pass from 65,535 to 0.
    int number = status.number();
    for (int leap = 0; leap < 4; leap++) {
      number = number + 20_000 & 0xFFFF;
      Came came = talk.answer(RawFrame.of(talk.session(), number, new Request.Status()));
      require(
          came.message() instanceof Answer.State,
          "STATUS with a newer number, "
              + number
              + ", was answered with "
              + Able.words(came.message()));
    }
    return "";
  }

  private static String prompt(Talk talk) throws Breach, Untestable, IOException {
    talk.open();
    long idle = 0;
    for (int i = 0; i < 10; i++) {
      idle = Math.max(idle, timed(talk, new Request.Status()));
      idle = Math.max(idle, timed(talk, new Request.Capabilities(0)));
    }
    Engine.signals(talk);
    talk.begin(0, 30, 30);
    talk.stream(Engine.setting(talk, Engine.quiet(talk), 1, 1, 0, DWELL));
    Engine.heard(talk);
    talk.stream(Engine.steps(talk, 0, Math.min(30, talk.welcome().steps())));
    long busy = 0;
    for (int i = 0; i < 20; i++) {
      busy = Math.max(busy, timed(talk, new Request.Status()));
      talk.await(came -> false, 10);
    }
    busy = Math.max(busy, timed(talk, new Request.Stop()));
    return "at most " + idle + " ms idle, " + busy + " ms in a run";
  }

  private static long timed(Talk talk, Request request) throws Breach, IOException {
    RawFrame frame = talk.next(request);
    long began = talk.nanos();
    Came came = talk.answer(frame);
    long millis = (came.nanos() - began) / 1_000_000;
    require(
        millis <= IN_TIME_MILLIS + Talk.SLACK_MILLIS,
        Able.name(frame.type()) + " was answered after " + millis + " ms");
    return millis;
  }

  private static String usedUp(Talk talk) throws Breach, IOException {
    talk.open();
    RawFrame beyond = talk.next(new Request.Capabilities(255));
    Came first = talk.answer(beyond);
    require(first.message() instanceof Answer.Refused, "capability 255 was not refused");
    require(first.raw().equals(talk.answer(beyond).raw()), "a refused request got another answer");
    talk.refusal(
        RawFrame.of(talk.session(), beyond.number(), new Request.Status()), Refusal.NUMBER_REUSED);
    Engine.signals(talk);
    RawFrame declare = talk.next(Able.declare(List.of(Able.touch(Touch.Kind.GROUND))));
    talk.refusal(declare.with(8, 9), Refusal.BAD_VALUE);
    int even = talk.able().high() & ~1;
    talk.refusal(new Request.Channels(even, List.of(0, 15)), Refusal.BAD_VALUE);
    // A run is begun with the check of what was declared before the refusals.
    talk.begin(0, 1, 0);
    Engine.stop(talk);
    return "";
  }

  /** All capability items, as their pages bring them. */
  static List<Item> items(Talk talk) throws Breach, IOException {
    List<Item> items = new ArrayList<>();
    int total = 1;
    while (items.size() < total) {
      Answer answer = talk.ask(new Request.Capabilities(items.size()));
      if (!(answer instanceof Answer.Page page)) {
        throw new Breach("CAPABILITIES was answered with " + Able.words(answer));
      }
      require(
          page.first() == items.size() && !page.items().isEmpty(),
          "item " + items.size() + " was asked for, and the page begins with " + page.first());
      require(
          items.isEmpty() || page.total() == total,
          "the number of items went from " + total + " to " + page.total());
      total = page.total();
      items.addAll(page.items());
    }
    return items;
  }

  private static String pages(Talk talk) throws Breach, IOException {
    talk.open();
    List<Item> first = items(talk);
    require(first.equals(items(talk)), "the items changed from one reading to the next");
    talk.open();
    require(first.equals(items(talk)), "the items changed from one session to the next");
    if (first.size() < 256) {
      talk.refusal(new Request.Capabilities(first.size()), Refusal.BAD_VALUE);
    }
    int last = first.size() - 1;
    Answer answer = talk.ask(new Request.Capabilities(last));
    require(
        answer instanceof Answer.Page page && page.items().equals(first.subList(last, last + 1)),
        "the last item alone is not what it was among the others");
    return first.size() + " items";
  }

  private static String sum(Talk talk) throws Breach, IOException {
    Answer.Welcome welcome = talk.open();
    CRC32C crc = new CRC32C();
    for (Item item : items(talk)) {
      crc.update(item.tag());
      crc.update(item.value().size());
      crc.update(item.value().toArray());
    }
    require(
        Optional.of(crc.getValue()).filter(sum -> sum == welcome.capabilities()).isPresent(),
        String.format(
            Locale.ROOT,
            "the check over all items is 0x%08X, and WELCOME says 0x%08X",
            crc.getValue(),
            welcome.capabilities()));
    return "";
  }
}

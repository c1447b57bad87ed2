package org.jointwalk.diagnose;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.random.RandomGenerator;
import org.jointwalk.job.Action;
import org.jointwalk.job.BoardFinding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Seen;
import org.jointwalk.job.WorksClamped;
import org.jointwalk.stack.Attachment;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.jointwalk.stack.Side;

/** Tells stories that can happen at a bench, in any order that the parts allow. */
final class RandomStory {

  private static final List<Grade> NO_FAULT =
      List.of(
          Grade.GOOD,
          Grade.NOT_CONTACTED,
          Grade.MASKED,
          Grade.UNRESOLVED,
          Grade.UNDECIDED,
          Grade.NOT_TESTED);

  private final PadMap map;
  private final RandomGenerator random;
  private final List<String> ids;
  private Attachment attachment = Attachment.BOTH;

  RandomStory(PadMap map, RandomGenerator random) {
    this.map = map;
    this.random = random;
    this.ids = List.copyOf(map.positions().keySet());
  }

  /** A story with faults, looks and work. */
  Story any(int length) {
    Story story = Story.of(map, random.nextBoolean() ? new String[] {"radio"} : new String[0]);
    for (int i = 0; i < length; i++) {
      switch (random.nextInt(8)) {
        case 0, 1, 2, 3 -> pass(story);
        case 4, 5 -> act(story);
        case 6 -> story.saw(side(), id(), one(Seen.Look.values()));
        default -> story.clamped(one(WorksClamped.values()));
      }
    }
    return story;
  }

  /** A story of a sound stack: nothing was said to fail, and no pass finds a fault. */
  Story sound(int length) {
    Story story = Story.of(map);
    for (int i = 0; i < length; i++) {
      if (random.nextInt(3) == 0) {
        act(story);
      } else {
        Story.PassStory pass = story.pass(possible().name());
        for (int k = random.nextInt(4); k > 0; k--) {
          pass.grade(NO_FAULT.get(random.nextInt(NO_FAULT.size())), id());
        }
        pass.in(1 + random.nextInt(3)).end();
      }
    }
    return story;
  }

  /** Two passes of different set-ups that can follow one another in either order. */
  List<Story> bothOrders(int length) {
    Story before = any(length);
    Attachment then = attachment;
    List<SetUp> two =
        SetUp.all().stream()
            .filter(s -> s.possible().contains(then) && (s.interposer() || !s.bare()))
            .toList();
    SetUp a = two.get(random.nextInt(two.size()));
    SetUp b = two.get(random.nextInt(two.size()));
    long seedA = random.nextLong();
    long seedB = random.nextLong();
    List<Story> stories = new ArrayList<>();
    for (boolean swap : new boolean[] {false, true}) {
      Story story = Story.of(map, before.events());
      story.resumeCounting();
      tell(story, swap ? b : a, swap ? seedB : seedA);
      tell(story, swap ? a : b, swap ? seedA : seedB);
      stories.add(story);
    }
    return stories;
  }

  private void tell(Story story, SetUp setUp, long seed) {
    new RandomStory(map, new Random(seed)).pass(story, setUp);
  }

  private void pass(Story story) {
    pass(story, possible());
  }

  private void pass(Story story, SetUp setUp) {
    Story.PassStory pass = story.pass(setUp.name());
    for (int k = random.nextInt(4); k > 0; k--) {
      switch (random.nextInt(6)) {
        case 0, 1 -> pass.open(id());
        case 2 -> pass.openOnce(id());
        case 3 -> pass.high(1 + random.nextInt(9), id());
        case 4 -> pass.blind(2.6, id());
        default -> more(pass, setUp);
      }
    }
    pass.in(1 + random.nextInt(3)).end();
  }

  private void more(Story.PassStory pass, SetUp setUp) {
    boolean hasRows = !setUp.joints().isEmpty() || setUp.bare() || setUp.boards().size() == 1;
    if (setUp.boards().size() == 1 && random.nextBoolean()) {
      pass.board(setUp.boards().iterator().next(), "V_MAIN", one(BoardFinding.Fault.values()));
    } else if (hasRows) {
      int i = random.nextInt(ids.size() - 1);
      pass.bridge(ids.get(i), ids.get(i + 1), 0.03);
    }
  }

  private void act(Story story) {
    List<Action> can = new ArrayList<>();
    for (Side side : Side.values()) {
      if (attachment == Attachment.BOTH) {
        can.add(new Action.Split(side));
        can.add(new Action.Reball(side, List.of(id())));
      } else {
        can.add(new Action.Reball(side, List.of()));
        can.add(new Action.PadRebuilt(side, id()));
        can.add(new Action.Wick(side));
        can.add(new Action.PartReplaced(side, "C12"));
      }
    }
    if (attachment == Attachment.UPPER || attachment == Attachment.LOWER) {
      can.add(new Action.Lift());
    }
    can.add(new Action.Wash());
    can.add(new Action.ProbesCleaned());
    Action action = can.get(random.nextInt(can.size()));
    attachment = action.after(attachment);
    story.done(action);
  }

  private SetUp possible() {
    List<SetUp> possible =
        SetUp.all().stream()
            .filter(s -> s.possible().contains(attachment) && (s.interposer() || !s.bare()))
            .toList();
    return possible.get(random.nextInt(possible.size()));
  }

  private Side side() {
    return random.nextBoolean() ? Side.UPPER : Side.LOWER;
  }

  @SafeVarargs
  private <T> T one(T... things) {
    return things[random.nextInt(things.length)];
  }

  private String id() {
    return ids.get(random.nextInt(ids.size()));
  }
}

package org.jointwalk.diagnose;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import org.jointwalk.job.Event;
import org.jointwalk.job.Finding;
import org.jointwalk.job.Grade;
import org.jointwalk.job.Job;
import org.jointwalk.job.PassRecord;
import org.jointwalk.job.Region;
import org.jointwalk.job.Seen;
import org.jointwalk.job.Verdict;
import org.jointwalk.job.Verdict.Group;
import org.jointwalk.job.Verdict.Sureness;
import org.jointwalk.stack.Component;
import org.jointwalk.stack.PadMap;
import org.jointwalk.stack.SetUp;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What holds for every story, whatever happened in it. */
class PropertiesTest {

  private static final int STORIES = 100;

  private final PadMap map = Ring.map();

  /** A group without its words and without the order of its members. */
  private record Shape(
      Set<Region> regions, Set<Component> components, Set<String> positions, Sureness sureness) {

    static Shape of(Group group, Retold retold) {
      return new Shape(
          group.regions().stream().map(r -> region(r, retold)).collect(Collectors.toSet()),
          group.components().stream().map(retold::component).collect(Collectors.toSet()),
          group.positions().stream().map(retold.id()).collect(Collectors.toSet()),
          group.sureness());
    }

    private static Region region(Region region, Retold retold) {
      return Region.valueOf(retold.words(region.name()));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void turningTheStackTurnsTheVerdict(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      Story story = new RandomStory(map, random).any(1 + random.nextInt(14));
      Retold retold = Retold.upsideDown();
      Verdict verdict = story.verdict();
      Verdict turned = Story.of(Ring.mirrored(map), retold.events(story.events())).verdict();

      assertSame(story, verdict, turned, retold);
      assertThat(turned.next().minutes()).as(() -> told(story)).isEqualTo(verdict.next().minutes());
      assertThat(turned.next().setUp().map(retold::words)).isEqualTo(verdict.next().setUp());
      assertThat(phrases(retold.words(turned.headline())))
          .as(() -> told(story))
          .isEqualTo(phrases(verdict.headline()));
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {4, 5, 6})
  void otherIdsChangeNothingButTheIds(long seed) {
    Map<String, String> names = new LinkedHashMap<>();
    int number = 100 + map.positions().size();
    for (String id : map.positions().keySet()) {
      // Falling ids, so that their alphabetical order is another than before.
      names.put(id, "P" + number--);
    }
    Retold retold = Retold.renamed(id -> names.getOrDefault(id, id));
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      Story story = new RandomStory(map, random).any(1 + random.nextInt(14));
      Verdict verdict = story.verdict();
      Verdict renamed = Story.of(Ring.renamed(map, names), retold.events(story.events())).verdict();

      assertSame(story, verdict, renamed, retold);
      String headline = verdict.headline();
      String next = verdict.next().what();
      for (Map.Entry<String, String> name : names.entrySet()) {
        headline = headline.replace(name.getKey(), name.getValue());
        next = next.replace(name.getKey(), name.getValue());
      }
      assertThat(phrases(renamed.headline())).as(() -> told(story)).isEqualTo(phrases(headline));
      assertThat(renamed.next().what()).as(() -> told(story)).isEqualTo(next);
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {7, 8, 9})
  void orderOfPassesWithNothingDoneBetweenThemDoesNotMatter(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      List<Story> both = new RandomStory(map, random).bothOrders(random.nextInt(10));
      Verdict first = both.get(0).verdict();
      Verdict second = both.get(1).verdict();

      assertThat(second.groups()).as(() -> told(both.get(0))).isEqualTo(first.groups());
      assertThat(second.now()).as(() -> told(both.get(0))).isEqualTo(first.now());
      assertThat(second.fit()).isEqualTo(first.fit());
      assertThat(second.remarks()).isEqualTo(first.remarks());
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {10, 11, 12})
  void passThatSeesNothingChangesNoFinding(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      Story story = new RandomStory(map, random).any(1 + random.nextInt(14));
      Verdict before = story.verdict();
      assertThat(Story.of(map, story.events()).resumeCounting().good("shorting-plate").verdict())
          .as(() -> told(story))
          .isEqualTo(before);

      SetUp setUp =
          SetUp.all().stream()
              .filter(s -> s.possible().contains(story.job().attachment()) && s.interposer())
              .findFirst()
              .orElseThrow();
      String[] all = map.positions().keySet().toArray(String[]::new);
      if (!isMeasured(story.job())) {
        continue;
      }
      Verdict after =
          story.resumeCounting().pass(setUp.name()).grade(Grade.NOT_TESTED, all).end().verdict();
      assertThat(faults(after.groups())).as(() -> told(story)).isEqualTo(faults(before.groups()));
      assertThat(faults(after.now())).as(() -> told(story)).isEqualTo(faults(before.now()));
      assertThat(after.fit()).isEqualTo(before.fit());
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {13, 14, 15})
  void nothingIsLocatedByExclusionAlone(long seed) {
    Random random = new Random(seed);
    int located = 0;
    for (int i = 0; i < STORIES; i++) {
      Story story = new RandomStory(map, random).any(1 + random.nextInt(14));
      Verdict verdict = story.verdict();
      Set<Group> groups = new HashSet<>(verdict.groups());
      groups.addAll(verdict.now());
      for (Group group : groups) {
        if (group.sureness() == Sureness.LOCATED) {
          located++;
          assertThat(group.positions())
              .as(() -> told(story) + group)
              .allMatch(id -> isDirect(story.job(), group.regions().get(0), id));
        }
      }
    }
    assertThat(located).isGreaterThan(10);
  }

  @ParameterizedTest
  @ValueSource(longs = {16, 17, 18})
  void soundStackIsNeverAccused(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      Story story = new RandomStory(map, random).sound(1 + random.nextInt(10));
      Verdict verdict = story.verdict();

      assertThat(verdict.groups()).as(() -> told(story)).isEmpty();
      assertThat(verdict.now()).isEmpty();
      assertThat(verdict.headline()).doesNotContain("LOCATED", "PROBABLY", "TOUCH UP");
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {19, 20, 21})
  void everyVerdictCanBeSaid(long seed) {
    Random random = new Random(seed);
    for (int i = 0; i < STORIES; i++) {
      Verdict verdict = new RandomStory(map, random).any(1 + random.nextInt(14)).verdict();

      assertThat(verdict.headline()).isNotBlank();
      assertThat(verdict.next().what()).endsWith(".");
      assertThat(verdict.next().minutes()).isPositive();
      assertThat(verdict.notSeen()).endsWith("Connected means connected under clamp pressure.");
      for (Group group : verdict.groups()) {
        assertThat(group.components()).isNotEmpty();
        assertThat(group.regions()).isNotEmpty();
        assertThat(group.because()).endsWith(".");
      }
    }
  }

  private static void assertSame(Story story, Verdict verdict, Verdict other, Retold retold) {
    Retold same = Retold.renamed(id -> id);
    assertThat(shapes(other.groups(), same))
        .as(() -> told(story))
        .isEqualTo(shapes(verdict.groups(), retold));
    assertThat(shapes(other.now(), same))
        .as(() -> told(story))
        .isEqualTo(shapes(verdict.now(), retold));
    assertThat(other.fit()).isEqualTo(verdict.fit());
  }

  private static Set<Shape> shapes(List<Group> groups, Retold retold) {
    return groups.stream().map(g -> Shape.of(g, retold)).collect(Collectors.toSet());
  }

  /** A headline without the order of what is equally likely. */
  private static List<String> phrases(String headline) {
    return Arrays.stream(headline.split("[;, ]+")).sorted().toList();
  }

  /** Groups that a measurement or a look stands behind. */
  private static List<Group> faults(List<Group> groups) {
    return groups.stream().filter(g -> !isUnseen(g)).toList();
  }

  private static boolean isUnseen(Group group) {
    return group.because().contains("All that can be seen is good")
        || group.because().startsWith("By exclusion: the");
  }

  private static boolean isMeasured(Job job) {
    return job.passes().stream().anyMatch(p -> p.graded().isPresent());
  }

  /** Whether an eye or a path with nothing else in it shows the fault in a region. */
  private static boolean isDirect(Job job, Region region, String position) {
    boolean seen =
        job.seen().stream()
            .anyMatch(
                s ->
                    s.position().equals(position)
                        && s.look() != Seen.Look.FINE
                        && s.look() != Seen.Look.BALL_LOW);
    // Of two joined pads it is enough to have seen one smeared.
    boolean smeared = job.seen().stream().anyMatch(s -> s.look() == Seen.Look.SMEARED);
    boolean measured =
        job.passes().stream()
            .flatMap(p -> p.graded().stream())
            .flatMap(g -> g.findings().positions().stream())
            .filter(f -> f.position().equals(position) && f.grade().isFault())
            .anyMatch(f -> f.among().stream().allMatch(c -> isIn(c, region, f)));
    boolean net =
        job.passes().stream()
            .map(PassRecord::graded)
            .flatMap(Optional::stream)
            .map(Event.PassGraded::findings)
            .flatMap(f -> f.boards().stream())
            .anyMatch(b -> Region.board(b.net().side()) == region);
    return seen || measured || smeared || net;
  }

  private static boolean isIn(Component component, Region region, Finding finding) {
    return finding.confirmed() && Region.of(component).filter(region::equals).isPresent();
  }

  private static String told(Story story) {
    return story.events().stream()
        .map(
            e ->
                e instanceof Event.PassGraded g
                    ? g.findings().positions().stream()
                            .filter(f -> f.grade().isFault())
                            .map(f -> f.position() + " " + f.grade() + " " + f.confirmed())
                            .toList()
                        + " "
                        + g.findings().boards()
                    : e instanceof Event.PassBegun b ? b.setUp() : e.toString())
        .collect(Collectors.joining("\n"));
  }
}

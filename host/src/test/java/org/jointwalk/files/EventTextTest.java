package org.jointwalk.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.job.Action;
import org.jointwalk.job.Event;
import org.jointwalk.job.FixtureEvent;
import org.jointwalk.job.WatchEvent;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.Contact;
import org.jointwalk.stack.Plate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class EventTextTest {

  private final Map<String, String> kept = new HashMap<>();
  private final EventText events = new EventText(this::keep, h -> Optional.ofNullable(kept.get(h)));

  private String keep(String kind, String text) {
    String hash = kind + "-" + text.hashCode();
    kept.put(hash, text);
    return hash;
  }

  static Stream<Class<?>> kindsOfEvent() {
    return Stream.of(Event.class, FixtureEvent.class, WatchEvent.class)
        .flatMap(all -> Arrays.stream(all.getPermittedSubclasses()))
        .filter(Class::isRecord);
  }

  static Stream<Class<?>> kindsOfAction() {
    return Arrays.stream(Action.class.getPermittedSubclasses());
  }

  @ParameterizedTest
  @MethodSource("kindsOfEvent")
  void everyEventComesBackEqual(Class<?> kind) {
    RandomNouns nouns = new RandomNouns(new Random(20250107));
    for (int i = 0; i < 300; i++) {
      assertComesBack((Event) nouns.any(kind));
    }
  }

  @ParameterizedTest
  @MethodSource("kindsOfAction")
  void everyActionComesBackEqual(Class<?> kind) {
    RandomNouns nouns = new RandomNouns(new Random(20250108));
    for (int i = 0; i < 50; i++) {
      assertComesBack(new Event.Done((Action) nouns.any(kind), "AB"));
    }
  }

  private void assertComesBack(Event event) {
    String body = events.write(event);
    String stored = new String(body.getBytes(StandardCharsets.UTF_8), StandardCharsets.UTF_8);

    assertThat(body).doesNotContain("\n");
    assertThat(events.read(events.kind(event), events.version(event), stored)).isEqualTo(event);
  }

  @Test
  void kindsAreTold() {
    RandomNouns nouns = new RandomNouns(new Random(3));

    assertThat(kindsOfEvent().map(kind -> events.kind((Event) nouns.any(kind))))
        .doesNotHaveDuplicates()
        .contains("opened", "pass-begun", "batch-kept");
  }

  @Test
  void batchOfSixtyReadingsIsAboutThreeKilobytes() {
    Random random = new Random(5);
    List<Reading> readings = new ArrayList<>();
    for (int i = 0; i < 60; i++) {
      readings.add(
          new Reading.Measured(
              240 + i,
              List.of(
                  new Reading.Point(
                      random.nextGaussian() * 1e-3, 0.012 + random.nextGaussian() * 1e-9))));
    }

    String body = events.write(new Event.BatchKept(2, 1, new Batch(readings, 180, 0.31)));

    assertThat(body.length()).isBetween(1500, 3200);
  }

  @Test
  void scanOfManyStepsCostsFewBytesAStep() {
    List<Step> steps = new ArrayList<>();
    for (int i = 0; i < 3000; i++) {
      steps.add(
          new Step(
              Kind.NORMAL_LEVEL,
              List.of(new Contact.Pad(Plate.OVER, "N" + i % 420)),
              List.of(new Contact.Pad(Plate.UNDER, "N" + i % 419)),
              List.of(new Amps(0.01)),
              new Volts(0.05),
              1));
    }
    Scan scan = Scan.of("interposer", steps);

    String text = EventText.writeScan(scan);

    assertThat(text.length()).isLessThan(3000 * 12 + 840 * 14);
    assertThat(EventText.readScan(text)).isEqualTo(scan);
  }

  @Test
  void guardOfAllOtherContactsCostsFewBytesAStep() {
    List<Contact> all = new ArrayList<>();
    for (int i = 0; i < 400; i++) {
      all.add(new Contact.Pad(Plate.OVER, "N" + i));
    }
    List<Step> steps = new ArrayList<>();
    for (Contact one : all) {
      List<Contact> rest = new ArrayList<>(all);
      rest.remove(one);
      steps.add(new Step(Kind.ISOLATION, List.of(one), rest, List.of(), new Volts(0.05), 2));
    }
    Scan scan = Scan.of("interposer", steps);

    String text = EventText.writeScan(scan);

    assertThat(text.length()).isLessThan(400 * 30 + 400 * 14);
    assertThat(EventText.readScan(text)).isEqualTo(scan);
  }

  @Test
  void contactThatTheScanDoesNotNameIsRefused() {
    Step step =
        new Step(
            Kind.NORMAL_LEVEL,
            List.of(new Contact.Point("P1")),
            List.of(new Contact.Point("P2")),
            List.of(),
            new Volts(0.05),
            1);
    String text = EventText.writeScan(Scan.of("joined", List.of(step)));
    String damaged = text.replace("\"point P1\",\"point P2\"", "");

    assertThat(damaged).isNotEqualTo(text);
    assertThatThrownBy(() -> EventText.readScan(damaged))
        .isInstanceOf(UnreadableEventException.class)
        .hasMessageContaining("refers to number 0 of 0");
  }

  @Test
  void plannedScanIsKeptByContent() {
    Scan plan = new RandomNouns(new Random(9)).any(Scan.class);

    String first = events.write(new Event.ScanPlanned(1, 1, 1, plan));
    events.write(new Event.ScanPlanned(1, 2, 2, plan));

    assertThat(kept).hasSize(1).containsValue(EventText.writeScan(plan));
    assertThat(first).contains(kept.keySet().iterator().next());
  }

  @Test
  void scanThatIsNotKeptIsNamed() {
    assertThatThrownBy(
            () ->
                events.read(
                    "scan-planned",
                    1,
                    "{\"pass\":1,\"seating\":1,\"scan\":1,\"plan\":\"0123abcd\"}"))
        .isInstanceOf(UnreadableEventException.class)
        .hasMessageContaining("0123abcd");
  }

  @Test
  void unknownKindIsNamed() {
    assertThatThrownBy(() -> events.read("repainted", 1, "{}"))
        .isInstanceOf(UnreadableEventException.class)
        .hasMessageContaining("repainted")
        .hasMessageContaining("newer");
  }

  @Test
  void laterVersionIsNamed() {
    assertThatThrownBy(() -> events.read("closed", 9, "{\"by\":\"AB\"}"))
        .isInstanceOf(UnreadableEventException.class)
        .hasMessageContaining("version 9")
        .hasMessageContaining("versions 1 to 1");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "closed       | {\"by\":\"A                              | ends in the middle",
        "closed       | {}                                       | \"by\" is missing",
        "closed       | {\"by\":7}                               | wrong kind",
        "clamped      | {\"works\":\"perhaps\",\"by\":\"AB\"}    | not-tried",
        "done         | {\"action\":\"polish\",\"by\":\"AB\"}    | probes-cleaned",
        "batch-kept   | {\"pass\":1,\"scan\":1,\"closures\":0,\"device_s\":0,\"readings\":[[1]]} | amps",
        "batch-kept   | {\"pass\":1,\"scan\":1,\"closures\":0,\"device_s\":0} | readings",
      })
  void damagedBodySaysWhatIsWrong(String kind, String body, String expected) {
    assertThatThrownBy(() -> events.read(kind, 1, body))
        .isInstanceOf(UnreadableEventException.class)
        .hasMessageContaining(kind)
        .hasMessageContaining(expected);
  }
}

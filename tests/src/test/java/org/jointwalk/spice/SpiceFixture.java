package org.jointwalk.spice;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Capabilities;
import org.jointwalk.fixture.Clamping;
import org.jointwalk.fixture.Fixture;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Kind;
import org.jointwalk.fixture.Reading;
import org.jointwalk.fixture.Scan;
import org.jointwalk.fixture.Step;
import org.jointwalk.stack.SetUp;

/** A fixture whose every reading is computed by ngspice, one run for each scan. */
final class SpiceFixture implements Fixture {

  private static final int BATCH = 32;

  private final Ngspice ngspice;
  private final Handset handset;
  private final SetUp setUp;
  private final FixtureMap map;
  private int seating = 1;
  private volatile boolean stopped;

  /**
   * @param handset the device of which a part is clamped
   * @param setUp which part
   */
  SpiceFixture(Ngspice ngspice, Handset handset, SetUp setUp, FixtureMap map) {
    this.ngspice = ngspice;
    this.handset = handset;
    this.setUp = setUp;
    this.map = map;
  }

  /** Opens and closes the lid. */
  void reseat() {
    seating++;
  }

  @Override
  public Capabilities capabilities() {
    return map.capabilities();
  }

  @Override
  public Clamping clamping() {
    return new Clamping(39, seating);
  }

  @Override
  public void run(Scan scan, Keep keep) {
    stopped = false;
    List<Reading> readings = read(scan);
    for (int from = 0; from < readings.size() && !stopped; from += BATCH) {
      List<Reading> some = readings.subList(from, Math.min(from + BATCH, readings.size()));
      keep.keep(new Batch(some, closures(scan, some), seconds(scan, some)));
    }
  }

  @Override
  public void stop() {
    stopped = true;
  }

  private List<Reading> read(Scan scan) {
    Deck deck = new Deck(handset, setUp, map, seating);
    Orders orders = new Orders(deck, map.capabilities());
    int end = scan.first() + scan.steps().size();
    for (int i = scan.first(); i < end; i++) {
      if (orders.takes(scan.step(i))) {
        orders.add(i, scan.step(i));
      }
    }
    Map<String, Double> printed = ngspice.run(orders.deck());
    List<Reading> readings = new ArrayList<>();
    for (int i = scan.first(); i < end; i++) {
      readings.add(
          orders.takes(scan.step(i))
              ? orders.reading(i, scan.step(i), printed)
              : new Reading.Refused(i, "this fixture has no range for " + scan.step(i).kind()));
    }
    return readings;
  }

  private static long closures(Scan scan, List<Reading> readings) {
    return readings.stream()
        .map(r -> scan.step(r.index()))
        .mapToLong(s -> s.high().size() + s.low().size())
        .sum();
  }

  private double seconds(Scan scan, List<Reading> readings) {
    return readings.stream()
        .map(r -> scan.step(r.index()))
        .map(Step::kind)
        .mapToDouble(this::seconds)
        .sum();
  }

  private double seconds(Kind kind) {
    return map.capabilities().range(kind).map(r -> r.seconds()).orElse(0.0);
  }
}

package org.jointwalk.campaign;

import java.util.ArrayList;
import java.util.List;
import org.jointwalk.fixture.Batch;
import org.jointwalk.fixture.Reading;
import org.jointwalk.protocol.Raw;
import org.jointwalk.protocol.Taken;
import org.jointwalk.simulator.Device;

/** What a device took and what was acknowledged to it, run by run. Any thread. */
final class DeviceAccount implements Device.Witness {

  private final List<Run> runs = new ArrayList<>();

  /** One run: results from its first index on without a gap, and how many were acknowledged. */
  private static final class Run {

    private final long id;
    private final long first;
    private final List<Taken> taken = new ArrayList<>();
    private long acknowledged;

    private Run(long id, long first) {
      this.id = id;
      this.first = first;
      this.acknowledged = first;
    }
  }

  /**
   * How a log compares with the account.
   *
   * @param acknowledged results that the device was told are durable
   * @param lost of them, that the log does not hold in their place
   * @param invented readings of the log that are no result of the device in their place, or are
   *     there twice
   */
  record Comparison(long acknowledged, long lost, long invented) {}

  @Override
  public synchronized void taken(long run, long index, Taken result) {
    if (runs.isEmpty() || last().id != run) {
      runs.add(new Run(run, index));
    }
    last().taken.add(result);
  }

  @Override
  public synchronized void acknowledged(long run, long below) {
    if (!runs.isEmpty() && last().id == run) {
      last().acknowledged = Math.max(last().acknowledged, below);
    }
  }

  private Run last() {
    return runs.get(runs.size() - 1);
  }

  /** How many results were acknowledged so far. */
  synchronized long acknowledged() {
    return runs.stream().mapToLong(r -> r.acknowledged - r.first).sum();
  }

  /** Results of all runs. */
  synchronized long taken() {
    return runs.stream().mapToLong(r -> r.taken.size()).sum();
  }

  /**
   * Compares a log. The readings of each run follow those of the run before, from its first index
   * on and not further than it came.
   *
   * @param kept batches in the order of the log
   */
  synchronized Comparison compare(List<Batch> kept) {
    List<Reading> readings = kept.stream().flatMap(b -> b.readings().stream()).toList();
    long lost = 0;
    int at = 0;
    for (Run run : runs) {
      int begun = at;
      while (at < readings.size()
          && at - begun < run.taken.size()
          && readings.get(at).index() == run.first + at - begun
          && isSame(readings.get(at), run.taken.get(at - begun))) {
        at++;
      }
      lost += Math.max(0, run.acknowledged - run.first - (at - begun));
    }
    return new Comparison(acknowledged(), lost, readings.size() - at);
  }

  private static boolean isSame(Reading reading, Taken taken) {
    if (reading instanceof Reading.Measured measured && taken instanceof Taken.Measured result) {
      return isSame(measured.points(), result.points());
    }
    if (reading instanceof Reading.OverRange over && taken instanceof Taken.OverRange result) {
      return isSame(over.points(), result.points());
    }
    return reading instanceof Reading.Refused && taken instanceof Taken.Refused;
  }

  private static boolean isSame(List<Reading.Point> points, List<Raw> raws) {
    if (points.size() != raws.size()) {
      return false;
    }
    for (int i = 0; i < points.size(); i++) {
      if (Math.round(points.get(i).volts() * 1e8) != raws.get(i).volt()
          || Math.round(points.get(i).amps() * 1e10) != raws.get(i).amp()) {
        return false;
      }
    }
    return true;
  }
}

package org.jointwalk.saltmarsh;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jointwalk.fixture.Reading;
import org.jointwalk.quantity.Amps;
import org.jointwalk.quantity.Volts;
import org.jointwalk.stack.NetId;
import org.jointwalk.stack.Reference;

/**
 * Drops of several good boards to references. What the drops of one board have in common at a
 * current is its temperature: the median of their distances from the mean board is taken off before
 * the boards are compared.
 */
final class Drops {

  private Drops() {}

  /**
   * @param currents of each net
   * @param read by net, then by board: the points of one junction step
   */
  static List<Reference> of(
      Map<NetId, List<Amps>> currents, Map<NetId, List<List<Reading.Point>>> read) {
    Map<List<Amps>, Map<NetId, double[][]>> alike = new LinkedHashMap<>();
    read.forEach(
        (net, boards) -> {
          List<Amps> amps = currents.getOrDefault(net, List.of());
          double[][] volts = new double[amps.size()][boards.size()];
          for (int i = 0; i < amps.size(); i++) {
            for (int b = 0; b < boards.size(); b++) {
              volts[i][b] = boards.get(b).get(i).volts();
            }
          }
          alike.computeIfAbsent(amps, k -> new LinkedHashMap<>()).put(net, volts);
        });
    List<Reference> references = new ArrayList<>();
    alike.forEach(
        (amps, nets) -> {
          takeOffCommonPart(amps.size(), nets);
          nets.forEach((net, volts) -> references.add(drop(net, amps, volts)));
        });
    return references;
  }

  private static void takeOffCommonPart(int currents, Map<NetId, double[][]> nets) {
    int boards = nets.values().iterator().next()[0].length;
    for (int i = 0; i < currents; i++) {
      int current = i;
      for (int b = 0; b < boards; b++) {
        int board = b;
        double[] distances =
            nets.values().stream()
                .mapToDouble(v -> v[current][board] - Learn.mean(v[current]))
                .sorted()
                .toArray();
        double common = distances[distances.length / 2];
        nets.values().forEach(v -> v[current][board] -= common);
      }
    }
  }

  private static Reference drop(NetId net, List<Amps> amps, double[][] volts) {
    int boards = volts[0].length;
    List<Volts> means = new ArrayList<>();
    double variance = 0;
    for (double[] at : volts) {
      double mean = Learn.mean(at);
      means.add(new Volts(Figures.round(mean, 5)));
      variance += Learn.variance(at, mean) / volts.length;
    }
    double[] growth = new double[boards];
    Arrays.setAll(growth, b -> volts[volts.length - 1][b] - volts[0][b]);
    double growthVariance = Learn.variance(growth, Learn.mean(growth));
    return new Reference.Drop(
        net,
        amps,
        means,
        new Volts(Figures.round(Math.sqrt(variance), 2)),
        new Volts(Figures.round(Math.sqrt(growthVariance), 2)),
        boards);
  }
}

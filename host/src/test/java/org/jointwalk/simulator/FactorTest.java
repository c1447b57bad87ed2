package org.jointwalk.simulator;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.IntStream;
import org.assertj.core.data.Offset;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The solver against published resistances of networks of unit resistors.
 *
 * <p>Sources: the Platonic solids, K_n and the ladder are textbook values, recomputed with exact
 * rationals (van Steenwijk, Am. J. Phys. 66 (1998) 90, and Klein and Randic 1993, values from
 * memory); wheels and fans: Bapat and Gupta, Indian J. Pure Appl. Math. 41 (2010) 1, formula from
 * memory, recomputed; Kirchhoff indices: mathworld.wolfram.com/KirchhoffIndex.html, seen.
 */
class FactorTest {

  private static final Offset<Double> EXACT = within(1e-12);

  @ParameterizedTest
  @CsvSource({"1, 7, 12", "3, 3, 4", "7, 5, 6"})
  void cubeReadsItsTextbookResistances(int to, double numerator, double denominator) {
    assertThat(Graph.cube(2).factor().ohms(0, to)).isCloseTo(numerator / denominator, EXACT);
  }

  @Test
  void octahedronReadsItsTextbookResistances() {
    // Six nodes, each joined to all but its opposite: i and i + 3.
    int[][] pairs =
        IntStream.range(0, 36)
            .filter(k -> k / 6 < k % 6 && k % 6 - k / 6 != 3)
            .mapToObj(k -> new int[] {k / 6, k % 6})
            .toArray(int[][]::new);
    Factor factor = Graph.of(6, pairs).factor();

    assertThat(factor.ohms(0, 1)).isCloseTo(5.0 / 12, EXACT);
    assertThat(factor.ohms(0, 3)).isCloseTo(1.0 / 2, EXACT);
  }

  @Test
  void icosahedronReadsByDistance() {
    readsByDistance(Graph.icosahedron(), 0, 11.0 / 30, 7.0 / 15, 1.0 / 2);
  }

  @Test
  void dodecahedronReadsByDistance() {
    readsByDistance(Graph.petersen(10, 2), 0, 19.0 / 30, 9.0 / 10, 16.0 / 15, 17.0 / 15, 7.0 / 6);
  }

  private static void readsByDistance(Graph graph, int from, double... expected) {
    int[] steps = graph.distances(from);
    Factor factor = graph.factor();
    for (int to = 0; to < graph.nodes(); to++) {
      if (to != from) {
        assertThat(factor.ohms(from, to)).isCloseTo(expected[steps[to] - 1], EXACT);
      }
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 4, 7, 20})
  void completeGraphReadsTwoOverN(int n) {
    assertThat(Graph.complete(n).factor().ohms(0, n - 1)).isCloseTo(2.0 / n, EXACT);
  }

  @Test
  void bipartiteGraphReadsItsFormula() {
    Factor factor = Graph.bipartite(3, 5).factor();

    assertThat(factor.ohms(0, 4)).isCloseTo((3.0 + 5 - 1) / 15, EXACT);
    assertThat(factor.ohms(0, 1)).isCloseTo(2.0 / 5, EXACT);
  }

  @ParameterizedTest
  @CsvSource({"3, 1, 2", "4, 7, 15", "5, 5, 11", "6, 9, 20", "8, 47, 105"})
  void wheelReadsFromHubToRim(int rim, double numerator, double denominator) {
    assertThat(Graph.wheel(rim).factor().ohms(rim, 0)).isCloseTo(numerator / denominator, EXACT);
  }

  @ParameterizedTest
  @CsvSource({"3, 1, 2", "4, 8, 15", "5, 6, 11", "6, 11, 20", "8, 58, 105"})
  void wheelReadsAlongItsRim(int rim, double numerator, double denominator) {
    assertThat(Graph.wheel(rim).factor().ohms(0, 1)).isCloseTo(numerator / denominator, EXACT);
  }

  @ParameterizedTest
  @CsvSource({"1, 2, 1", "2, 5, 3", "3, 13, 8", "4, 34, 21", "5, 89, 55", "7, 610, 377"})
  void ladderReadsRatiosOfFibonacciNumbers(int sections, double numerator, double denominator) {
    assertThat(ladder(sections)).isCloseTo(numerator / denominator, EXACT);
  }

  @Test
  void longLadderTendsToTheGoldenRatio() {
    assertThat(ladder(40)).isCloseTo((1 + Math.sqrt(5)) / 2, EXACT);
  }

  private static double ladder(int sections) {
    int[][] pairs = new int[2 * sections][];
    for (int i = 0; i < sections; i++) {
      pairs[2 * i] = new int[] {i + 1, i + 2};
      pairs[2 * i + 1] = new int[] {i + 2, 0};
    }
    return Graph.of(sections + 2, pairs).factor().ohms(1, 0);
  }

  @Test
  void unbalancedBridgeReads155Over74() {
    // Also read from ngspice 39.
    Graph bridge =
        Graph.of(4, new int[][] {{0, 1}, {1, 3}, {0, 2}, {2, 3}, {1, 2}})
            .with(1, 2)
            .with(2, 3)
            .with(3, 4)
            .with(4, 5);

    assertThat(bridge.factor().ohms(0, 3)).isCloseTo(155.0 / 74, EXACT);
  }

  @ParameterizedTest
  @CsvSource({"2, 5, 1", "3, 69, 2", "4, 884, 7", "5, 11155, 33"})
  void gridHasItsTabulatedKirchhoffIndex(int n, double numerator, double denominator) {
    assertThat(kirchhoffIndex(Graph.grid(n))).isCloseTo(numerator / denominator, within(1e-10));
  }

  @ParameterizedTest
  @CsvSource({"2, 58, 3", "3, 16959, 70"})
  void cubeGridHasItsTabulatedKirchhoffIndex(int n, double numerator, double denominator) {
    assertThat(kirchhoffIndex(Graph.cube(n))).isCloseTo(numerator / denominator, within(1e-9));
  }

  @ParameterizedTest
  @CsvSource({"3, 2", "4, 5", "5, 10", "6, 17.5", "7, 28", "8, 42"})
  void cycleHasItsTabulatedKirchhoffIndex(int n, double expected) {
    assertThat(kirchhoffIndex(Graph.cycle(n))).isCloseTo(expected, within(1e-10));
  }

  private static double kirchhoffIndex(Graph graph) {
    Factor factor = graph.factor();
    double sum = 0;
    for (int i = 0; i < graph.nodes(); i++) {
      for (int j = 0; j < i; j++) {
        sum += factor.ohms(i, j);
      }
    }
    return sum;
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
  void edgesOfAnyNetworkFulfilFostersTheorem(long seed) {
    // R. M. Foster, The average impedance of an electrical network, 1949; value from memory.
    Graph graph = Graph.random(60, 40, 8, new Draw(seed));
    Factor factor = graph.factor();

    double sum =
        graph.edges().stream().mapToDouble(e -> factor.ohms(e.a(), e.b()) / e.ohms()).sum();

    assertThat(sum).isCloseTo(graph.nodes() - 1.0, Percentage.withPercentage(1e-10));
  }

  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13, 14})
  void moreResistanceAnywhereNeverLessensOneElsewhere(long seed) {
    // Rayleigh's monotonicity law.
    Graph graph = Graph.random(25, 15, 4, new Draw(seed));
    Factor before = graph.factor();
    Factor after = graph.with(20, graph.edges().get(20).ohms() * 3).factor();

    for (int i = 0; i < 25; i++) {
      for (int j = 0; j < i; j++) {
        assertThat(after.ohms(i, j)).isGreaterThanOrEqualTo(before.ohms(i, j) * (1 - 1e-12));
      }
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {21, 22, 23})
  void transferResistanceIsTheSameBothWays(long seed) {
    Solver solver = solver(Graph.random(30, 20, 6, new Draw(seed)));
    double[] driven = solver.potentials(3, 17);
    double[] other = solver.potentials(8, 25);

    assertThat(driven[8] - driven[25])
        .isCloseTo(other[3] - other[17], Percentage.withPercentage(1e-9));
  }

  @Test
  void potentialsAgreeWithResistances() {
    Graph graph = Graph.random(40, 30, 6, new Draw(5));
    double[] volts = solver(graph).potentials(2, 31);

    assertThat(volts[2] - volts[31])
        .isCloseTo(graph.factor().ohms(2, 31), Percentage.withPercentage(1e-10));
  }

  private static Solver solver(Graph graph) {
    Network network = graph.network();
    return new Solver(network, network.pattern(0, java.util.Optional.empty()));
  }

  @Test
  void centreOfALargeGridTendsToTheInfiniteLattice() {
    // Cserti, Am. J. Phys. 68 (2000) 896: R(1,0) = 1/2, R(1,1) = 2/pi, R(2,1) = 4/pi - 1/2; a
    // finite grid reads more, by about the inverse square of its size.
    int n = 61;
    Factor factor = Graph.grid(n).factor();
    int centre = n / 2 + n * (n / 2);

    assertThat(factor.ohms(centre, centre + 1)).isBetween(0.5, 0.5005);
    assertThat(factor.ohms(centre, centre + 1 + n)).isBetween(2 / Math.PI, 2 / Math.PI + 0.001);
    assertThat(factor.ohms(centre, centre + 2 + n))
        .isBetween(4 / Math.PI - 0.5, 4 / Math.PI - 0.5 + 0.0015);
  }

  @Test
  void smallResistanceIsExactBehindAHugeOne() {
    // A chain of a milliohm between two hundred megohms: the sum must keep the milliohm's digits.
    Graph chain =
        Graph.of(5, new int[][] {{0, 1}, {1, 2}, {2, 3}, {3, 4}})
            .with(0, 1e8)
            .with(1, 1e-3)
            .with(2, 2e-3)
            .with(3, 1e8);
    Factor factor = chain.factor();

    assertThat(factor.ohms(1, 3)).isCloseTo(3e-3, Percentage.withPercentage(1e-11));
    assertThat(factor.ohms(0, 4)).isCloseTo(2e8 + 3e-3, Percentage.withPercentage(1e-12));
  }

  @Test
  void partsThatHangOnNothingAreApart() {
    Factor factor = Graph.of(5, new int[][] {{0, 1}, {2, 3}, {3, 4}}).factor();

    assertThat(factor.ohms(0, 2)).isInfinite();
    assertThat(factor.joined(1, 4)).isFalse();
    assertThat(factor.ohms(2, 4)).isCloseTo(2.0, EXACT);
  }

  @ParameterizedTest
  @ValueSource(longs = {31, 32, 33, 34, 35})
  void changedFactorIsTheFactorOfTheChangedNetwork(long seed) {
    Draw draw = new Draw(seed);
    Graph graph = Graph.random(50, 40, 5, draw);
    Factor followed = graph.factor();
    for (int k = 0; k < 30; k++) {
      int edge = (int) draw.at(k).at("edge").uniform(0, graph.edges().size());
      // Every third change cuts, so that parts come off and are joined again.
      double ohms = k % 3 == 0 ? Double.POSITIVE_INFINITY : draw.at(k).uniform(0.1, 10);
      graph = graph.with(edge, ohms);
      followed.set(edge, Network.conductance(ohms));
      Factor made = graph.factor();
      for (int i = 1; i < 50; i += 7) {
        double expected = made.ohms(0, i);
        if (Double.isInfinite(expected)) {
          assertThat(followed.ohms(0, i)).isInfinite();
        } else {
          assertThat(followed.ohms(0, i)).isCloseTo(expected, Percentage.withPercentage(1e-10));
        }
      }
    }
  }

  @Test
  void copyIsLeftAloneByChanges() {
    Factor factor = Graph.cycle(4).factor();
    factor.copy().set(0, 0);

    assertThat(factor.ohms(0, 1)).isCloseTo(0.75, EXACT);
  }
}

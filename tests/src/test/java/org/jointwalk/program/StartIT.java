package org.jointwalk.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.api.parallel.Isolated;

/**
 * How long the program takes to start, as a multiple of what Java itself takes on the same computer
 * in the same minute. The ratios are printed; only a start that has gone quite wrong fails.
 */
@Isolated
class StartIT {

  private static final int ROUNDS = 7;

  @TempDir private Path folder = Path.of("");

  @Test
  void startIsAFewTimesThatOfJavaItself() throws IOException, InterruptedException {
    String pads = Program.maps().resolve("saltmarsh-s2.pads.json").toString();
    List<Double> nothing = new ArrayList<>();
    List<Double> help = new ArrayList<>();
    List<Double> check = new ArrayList<>();
    for (int round = 0; round < ROUNDS; round++) {
      nothing.add(seconds(this::startNothing));
      help.add(seconds(() -> run("--help")));
      check.add(seconds(() -> run("map", "check", "--pads", pads)));
    }

    double one = median(nothing);
    System.out.printf(
        Locale.ROOT,
        "Start, median of %d: an empty Java program %.2f s, --help %.1f times that, map check %.1f"
            + " times that.%n",
        ROUNDS,
        one,
        median(help) / one,
        median(check) / one);
    assertThat(median(help)).isLessThan(10 * one);
    assertThat(median(check)).isLessThan(25 * one);
  }

  /** A start of something. */
  @FunctionalInterface
  private interface Start {

    int code() throws IOException, InterruptedException;
  }

  private int startNothing() throws IOException, InterruptedException {
    Path java = Path.of(System.getProperty("java.home"), "bin", "java");
    return new ProcessBuilder(
            java.toString(),
            "-cp",
            Path.of("target", "test-classes").toAbsolutePath().toString(),
            Nothing.class.getName())
        .directory(folder.toFile())
        .inheritIO()
        .start()
        .waitFor();
  }

  private int run(String... words) throws IOException, InterruptedException {
    return Program.built().run(folder, List.of(words)).code();
  }

  private static double seconds(Start start) throws IOException, InterruptedException {
    long begun = System.nanoTime();
    assertThat(start.code()).isZero();
    return (System.nanoTime() - begun) / 1e9;
  }

  private static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    return sorted.get(sorted.size() / 2);
  }
}

package org.jointwalk.spice;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Runs decks through ngspice, one process each. Not thread-safe. */
final class Ngspice {

  private static final int PATIENCE_SECONDS = 60;

  /** What {@code print} writes for a single value. */
  private static final Pattern VALUE = Pattern.compile("([a-z]\\w*) = (\\S+)");

  /**
   * Words of a run that ended well in name only: ngspice goes on after most of its errors. A method
   * of solution that failed before another one came through is not among them.
   */
  private static final Pattern TROUBLE =
      Pattern.compile(
          "singular|error|doanalyses|aborted|no such|not found|not available",
          Pattern.CASE_INSENSITIVE);

  private final Path folder;
  private int runs;

  /**
   * @param folder for the decks and what came of them
   */
  Ngspice(Path folder) {
    this.folder = folder;
  }

  /**
   * What a deck prints, by name.
   *
   * @throws IllegalStateException when ngspice complains about anything
   */
  Map<String, Double> run(String deck) {
    runs++;
    Path circuit = folder.resolve(String.format(Locale.ROOT, "deck-%03d.cir", runs));
    Path out = folder.resolve("out.txt");
    Path complaints = folder.resolve("complaints.txt");
    try {
      Files.writeString(circuit, deck, StandardCharsets.UTF_8);
      ProcessBuilder builder =
          new ProcessBuilder("ngspice", "-n", "-b", circuit.toString())
              .redirectOutput(out.toFile())
              .redirectError(complaints.toFile());
      builder.environment().put("LC_ALL", "C");
      int status = await(builder.start());
      String said = Files.readString(complaints, StandardCharsets.UTF_8);
      if (status != 0 || TROUBLE.matcher(said).find()) {
        throw new IllegalStateException(
            "ngspice ended with status " + status + " on " + circuit + ": " + said);
      }
      return values(Files.readString(out, StandardCharsets.UTF_8));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static int await(Process process) {
    try {
      if (process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        return process.exitValue();
      }
      throw new IllegalStateException("ngspice ran for more than " + PATIENCE_SECONDS + " s");
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException("interrupted while ngspice ran", e);
    } finally {
      process.destroyForcibly();
    }
  }

  private static Map<String, Double> values(String out) {
    Map<String, Double> values = new LinkedHashMap<>();
    out.lines()
        .map(VALUE::matcher)
        .filter(Matcher::matches)
        .forEach(m -> values.put(m.group(1), Double.valueOf(m.group(2))));
    return values;
  }
}

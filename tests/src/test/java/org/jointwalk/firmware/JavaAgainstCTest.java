package org.jointwalk.firmware;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.random.RandomGenerator;
import org.jointwalk.tool.NeedsTool;
import org.jointwalk.trial.Trials;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The firmware's reader against this program's: the same bytes, valid and damaged, give the same
 * verdict, and each writes what it read as the other does.
 */
@NeedsTool("make")
@NeedsTool("gcc")
@Timeout(180)
class JavaAgainstCTest {

  private static final int PIECES = 30_000;

  @TempDir private Path folder = Path.of("");

  @Test
  void sameBytesGiveTheSameVerdictsAndTheSameBytes() throws Exception {
    RandomGenerator random = Trials.random(1);
    JavaPeer java = new JavaPeer();
    Drawn drawn = new Drawn(random, java);
    ByteArrayOutputStream all = new ByteArrayOutputStream();
    List<JavaPeer.Verdict> expected = new ArrayList<>();
    for (int i = 0; i < PIECES; i++) {
      byte[] piece = drawn.next();
      all.writeBytes(piece);
      expected.addAll(java.take(piece));
    }

    List<String> said = ofC(all.toByteArray());

    Map<String, Integer> kinds = new TreeMap<>();
    List<String> differences = new ArrayList<>();
    for (int i = 0; i < Math.min(said.size(), expected.size()); i++) {
      JavaPeer.Verdict one = expected.get(i);
      kinds.merge(one.name(), 1, Integer::sum);
      one.difference(said.get(i)).ifPresent(differences::add);
    }
    System.out.printf(
        Locale.ROOT, "figure: %d verdicts of C and Java: %s%n", expected.size(), kinds);
    assertThat(differences.stream().limit(10)).isEmpty();
    assertThat(said).hasSameSizeAs(expected);
    assertThat(kinds)
        .as("each kind of verdict is there in numbers")
        .allSatisfy((kind, count) -> assertThat(count).as(kind).isGreaterThan(10));
    assertThat(kinds.keySet())
        .contains("oversize", "dropped", "direction", "WELCOME", "PAGE", "DECLARED", "STATE")
        .contains("stream 0", "stream 1", "stream 2", "stream 3", "stream 4", "stream 5")
        .contains("refused 1", "refused 2", "refused 3", "refused 7", "refused 11", "refused 12");
  }

  private List<String> ofC(byte[] bytes) throws Exception {
    Path in = Files.write(folder.resolve("bytes"), bytes);
    Path out = folder.resolve("said");
    Path err = folder.resolve("err");
    Process peer =
        new ProcessBuilder(Firmware.built("peer").toString())
            .redirectInput(in.toFile())
            .redirectOutput(out.toFile())
            .redirectError(err.toFile())
            .start();
    assertThat(peer.waitFor(120, TimeUnit.SECONDS)).isTrue();
    assertThat(peer.exitValue()).as(Files.readString(err, UTF_8)).isZero();
    return Files.readAllLines(out, UTF_8);
  }
}

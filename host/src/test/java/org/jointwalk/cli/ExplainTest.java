package org.jointwalk.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** One joint of the dropped handset that reads high in two seatings, on a fixture with a zero. */
class ExplainTest {

  private static final String HIGH = "N149";

  @TempDir Path home = Path.of("");

  private Desk desk = new Desk(home);

  private int on(String command) {
    return desk.run(
        (command
                + " --pads ../fixture-maps/saltmarsh-s2.pads.json"
                + " --fixture ../fixture-maps/saltmarsh-photo-relay.fixture.json"
                + " --stack ../fixture-maps/saltmarsh-dropped.stack.json")
            .split(" "));
  }

  @BeforeEach
  void measure() {
    desk = new Desk(home);
    assertThat(on("fixture zero")).as(desk.err()).isZero();
    assertThat(
            desk.run("job", "open", "--device", "Saltmarsh S2", "--fails", "radio", "--by", "AB"))
        .isZero();
    assertThat(desk.run("job", "action", "split", "--job", "1", "--let-go", "upper")).isZero();
    assertThat(on("pass --job 1 --set-up interposer-on-lower"))
        .as(desk.err())
        .isEqualTo(ExitCode.FAULT_FOUND.number());
  }

  @Test
  void theBudgetIsATableThatFitsTheLine() {
    desk.done("job show --job 1 --explain " + HIGH);

    List<String> lines = desk.lines();
    assertThat(lines).allMatch(line -> line.length() <= 80);
    int head =
        lines.indexOf(lines.stream().filter(l -> l.startsWith("Source")).findFirst().orElseThrow());
    List<String> table = new ArrayList<>(lines.subList(head + 1, lines.size()));
    table = table.subList(0, table.indexOf(""));
    assertThat(lines.get(head)).endsWith("share");
    assertThat(table)
        .hasSizeGreaterThan(5)
        .allMatch(line -> line.length() == lines.get(head).length())
        .allMatch(line -> line.endsWith(" %"));
  }

  @Test
  void aFaultThatTwoSeatingsConfirmIsHeldAgainstItsLimitWithGuardAndRule() {
    desk.done("job show --job 1 --explain " + HIGH);

    assertThat(desk.lines())
        .anyMatch(line -> line.matches("Interval   95 % from .* to .*"))
        .anyMatch(line -> line.matches("Limit      0\\.5 ohm, guard .* for a risk of .*"))
        .anyMatch(line -> line.startsWith("Rule       "))
        .anyMatch(line -> line.startsWith("Decision   high resistance: the value lies above"));
    assertThat(desk.out()).contains("confirmed by another clamping");
  }

  @Test
  void theSameForProgramsAddsUp() throws IOException {
    desk.done("job show --job 1 --json --explain " + HIGH);

    JsonNode budget = new ObjectMapper().readTree(desk.out());
    double squares = 0;
    double shares = 0;
    for (JsonNode line : budget.get("budget")) {
      squares += line.get("u").asDouble() * line.get("u").asDouble();
      shares += line.get("share").asDouble();
    }
    double u = budget.get("u").asDouble();
    assertThat(Math.sqrt(squares)).isCloseTo(u, within(1e-9 * u));
    assertThat(shares).isCloseTo(1, within(1e-9));
    assertThat(budget.get("interval").get("low").asDouble())
        .isLessThan(budget.get("ohms").asDouble());
    assertThat(budget.get("ohms").asDouble() - budget.get("guard").get("ohms").asDouble())
        .isGreaterThan(budget.get("limitOhms").asDouble());
  }

  @Test
  void aPadThatThereIsNotIsNamed() {
    desk.run("job", "show", "--job", "1", "--explain", "N999");
    assertThat(desk.err()).contains("N999", "such as N014");
  }
}

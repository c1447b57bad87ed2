package org.jointwalk.campaign;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

class CampaignTest {

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  private int run(String... args) {
    return Campaign.run(out, err, args);
  }

  @Test
  void helpNamesEveryCampaign() {
    assertThat(run("--help")).isZero();
    assertThat(out.toString(StandardCharsets.UTF_8)).contains("faults", "--seed", "--scale");
    assertThat(err.toString(StandardCharsets.UTF_8)).isEmpty();
  }

  @Test
  void unknownNameIsRefusedWithTheNamesThereAre() {
    assertThat(run("floods")).isEqualTo(2);
    assertThat(err.toString(StandardCharsets.UTF_8)).contains("floods", "there are: faults");
    assertThat(out.toString(StandardCharsets.UTF_8)).isEmpty();
  }

  @Test
  void otherScalesAndSeedsThatAreNoNumbersAreRefused() {
    assertThat(run("faults", "--scale", "small")).isEqualTo(2);
    assertThat(run("faults", "--seed", "many")).isEqualTo(2);
    assertThat(run()).isEqualTo(2);
    assertThat(out.toString(StandardCharsets.UTF_8)).isEmpty();
  }
}

package org.jointwalk.tool;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtensionConfigurationException;
import org.junit.jupiter.api.io.TempDir;

class ToolConditionTest {

  @TempDir private Path folder = Path.of("");

  @Test
  void presentToolLetsTheTestRun() throws IOException {
    Path tool = Files.createFile(folder.resolve("probe-oracle"));
    assertThat(tool.toFile().setExecutable(true)).isTrue();
    ToolCondition condition =
        new ToolCondition(Map.of("PATH", "/nowhere" + File.pathSeparator + folder));

    assertThat(condition.decide("probe-oracle").isDisabled()).isFalse();
  }

  @Test
  void missingToolSkipsAndIsNamed() {
    var result = new ToolCondition(Map.of("PATH", folder.toString())).decide("probe-oracle");

    assertThat(result.isDisabled()).isTrue();
    assertThat(result.getReason())
        .hasValueSatisfying(why -> assertThat(why).contains("probe-oracle"));
  }

  @Test
  void missingToolFailsWhereAllAreRequired() {
    ToolCondition condition =
        new ToolCondition(Map.of("PATH", folder.toString(), "JOINTWALK_REQUIRE", "all"));

    assertThatThrownBy(() -> condition.decide("probe-oracle"))
        .isInstanceOf(ExtensionConfigurationException.class)
        .hasMessageContaining("probe-oracle");
  }
}

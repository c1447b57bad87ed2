package org.jointwalk.tool;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionConfigurationException;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.platform.commons.support.AnnotationSupport;

/** Decides whether a test that needs a program runs. Holds no state but the environment. */
final class ToolCondition implements ExecutionCondition {

  private final Map<String, String> environment;

  /** For JUnit, which makes it by this constructor. */
  ToolCondition() {
    this(System.getenv());
  }

  ToolCondition(Map<String, String> environment) {
    this.environment = Map.copyOf(environment);
  }

  @Override
  public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
    ConditionEvaluationResult result =
        AnnotationSupport.findRepeatableAnnotations(context.getElement(), NeedsTool.class).stream()
            .map(need -> decide(need.value()))
            .reduce((one, other) -> one.isDisabled() ? one : other)
            .orElseGet(() -> ConditionEvaluationResult.enabled("needs no program"));
    if (result.isDisabled()) {
      // Surefire's summary counts skipped tests but does not say which, nor why.
      System.err.println("SKIPPED " + name(context) + ": " + result.getReason().orElse(""));
    }
    return result;
  }

  ConditionEvaluationResult decide(String tool) {
    if (isOnPath(tool)) {
      return ConditionEvaluationResult.enabled(tool + " is here");
    }
    String missing =
        tool + " is not on the PATH: install it, for instance with your package manager";
    if (environment.getOrDefault("JOINTWALK_REQUIRE", "").equals("all")) {
      throw new ExtensionConfigurationException(missing + " (JOINTWALK_REQUIRE is all)");
    }
    return ConditionEvaluationResult.disabled(missing);
  }

  private static String name(ExtensionContext context) {
    String type = context.getRequiredTestClass().getSimpleName();
    return context.getTestMethod().map(method -> type + "." + method.getName()).orElse(type);
  }

  private boolean isOnPath(String tool) {
    return Arrays.stream(environment.getOrDefault("PATH", "").split(File.pathSeparator, -1))
        .filter(folder -> !folder.isEmpty())
        .anyMatch(folder -> Files.isExecutable(Path.of(folder, tool)));
  }
}

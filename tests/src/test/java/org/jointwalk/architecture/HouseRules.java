package org.jointwalk.architecture;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.domain.JavaPackage;
import com.tngtech.archunit.lang.ArchCondition;
import com.tngtech.archunit.lang.ArchRule;
import com.tngtech.archunit.lang.ConditionEvents;
import com.tngtech.archunit.lang.SimpleConditionEvent;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.NullMarked;

/**
 * The house rule for the packages directly below one root package.
 *
 * <p>Each rule looks at every class and asks the table what its room may do, so no rule is empty
 * while there is any class at all.
 */
record HouseRules(String root) {

  /** Readings of the surroundings that make a run differ from its repetition. */
  private static final Set<String> SURROUNDINGS =
      Set.of(
          "java.lang.Math.random()",
          "java.lang.System.currentTimeMillis()",
          "java.lang.System.getProperty(java.lang.String)",
          "java.lang.System.getenv()",
          "java.lang.System.getenv(java.lang.String)",
          "java.lang.System.nanoTime()",
          "java.nio.charset.Charset.defaultCharset()",
          "java.security.SecureRandom.<init>()",
          "java.time.Clock.systemDefaultZone()",
          "java.time.Clock.systemUTC()",
          "java.time.Instant.now()",
          "java.time.InstantSource.system()",
          "java.time.LocalDate.now()",
          "java.time.LocalDateTime.now()",
          "java.time.LocalTime.now()",
          "java.time.OffsetDateTime.now()",
          "java.time.ZoneId.systemDefault()",
          "java.time.ZonedDateTime.now()",
          "java.util.Date.<init>()",
          "java.util.Locale.getDefault()",
          "java.util.Random.<init>()",
          "java.util.SplittableRandom.<init>()",
          "java.util.TimeZone.getDefault()",
          "java.util.UUID.randomUUID()",
          "java.util.concurrent.ThreadLocalRandom.current()",
          "java.util.random.RandomGenerator.getDefault()");

  ArchRule everyClassLivesInARoom() {
    return everyClass(
        "live in a package of the house",
        type ->
            room(type).isPresent()
                ? Stream.empty()
                : Stream.of(type.getName() + " is in no package that the house knows"));
  }

  ArchRule roomsUseOnlyWhatStandsAboveOrToTheLeft() {
    return everyClass("use only rooms that the house allows", type -> dependencies(type, this::up));
  }

  ArchRule roomsTouchOnlyTheirPartOfTheOutside() {
    return everyClass(
        "touch only what its room may touch", type -> dependencies(type, this::outside));
  }

  ArchRule timeAndRandomnessComeIn() {
    return everyClass(
        "be given time, randomness and surroundings",
        type ->
            type.getAccessesFromSelf().stream()
                .filter(access -> room(type).map(room -> !room.isAtTheStreet()).orElse(true))
                .filter(access -> SURROUNDINGS.contains(access.getTarget().getFullName()))
                .map(JavaAccess::getDescription));
  }

  ArchRule nobodySleeps() {
    return everyClass(
        "wait for events, not for time",
        type ->
            type.getMethodCallsFromSelf().stream()
                .filter(call -> call.getTargetOwner().isEquivalentTo(Thread.class))
                .filter(call -> call.getName().equals("sleep"))
                .map(JavaAccess::getDescription));
  }

  ArchRule thoughtShowsOneClassAPackage() {
    return everyClass(
        "share its package with exactly one public class if the package is a thought",
        type -> {
          if (room(type).map(room -> room.row() != House.Row.THOUGHT).orElse(true)) {
            return Stream.empty();
          }
          long shown = type.getPackage().getClasses().stream().filter(HouseRules::isShown).count();
          return shown == 1
              ? Stream.empty()
              : Stream.of(type.getPackageName() + " shows " + shown + " public classes, not 1");
        });
  }

  ArchRule everyPackageIsNullMarked() {
    return everyClass(
        "live in a package marked @NullMarked by its package-info",
        type -> {
          JavaPackage home = type.getPackage();
          return home.isAnnotatedWith(NullMarked.class)
              ? Stream.empty()
              : Stream.of(home.getName() + " has no package-info with @NullMarked");
        });
  }

  ArchRule recordsHoldNoArrays() {
    return everyClass(
        "hold no array if it is a record",
        type ->
            type.getFields().stream()
                .filter(field -> type.isRecord())
                .filter(field -> !field.getModifiers().contains(JavaModifier.STATIC))
                .filter(field -> field.getRawType().isArray())
                .map(JavaField::getDescription));
  }

  private ArchRule everyClass(String should, Function<JavaClass, Stream<String>> violations) {
    return classes()
        .that()
        .resideInAPackage(root + "..")
        .should(
            new ArchCondition<>(should) {
              @Override
              public void check(JavaClass type, ConditionEvents events) {
                violations
                    .apply(type)
                    .forEach(line -> events.add(SimpleConditionEvent.violated(type, line)));
              }
            });
  }

  private Stream<String> dependencies(
      JavaClass type, Function<Dependency, Optional<String>> complaint) {
    return type.getDirectDependenciesFromSelf().stream()
        .filter(dependency -> !target(dependency).isPrimitive())
        .flatMap(
            dependency ->
                complaint
                    .apply(dependency)
                    .map(reason -> reason + ": " + dependency.getDescription())
                    .stream());
  }

  private Optional<String> up(Dependency dependency) {
    Optional<House> from = room(dependency.getOriginClass());
    Optional<House> to = room(target(dependency));
    if (from.isEmpty() || to.isEmpty() || from.get().mayUse(to.get())) {
      return Optional.empty();
    }
    return Optional.of(from.get().word() + " may not use " + to.get().word());
  }

  private Optional<String> outside(Dependency dependency) {
    Optional<House> from = room(dependency.getOriginClass());
    JavaClass target = target(dependency);
    if (from.isEmpty() || isOwn(target)) {
      return Optional.empty();
    }
    Optional<Outside> kind = Outside.of(target.getName());
    if (kind.isEmpty()) {
      return Optional.of("a library that the table of the outside lacks");
    }
    return from.get().mayTouch(kind.get())
        ? Optional.empty()
        : Optional.of(from.get().word() + " may not touch " + kind.get());
  }

  private Optional<House> room(JavaClass type) {
    String home = type.getPackageName();
    return home.startsWith(root + ".")
        ? House.named(home.substring(root.length() + 1))
        : Optional.empty();
  }

  private boolean isOwn(JavaClass type) {
    return type.getPackageName().startsWith(root + ".");
  }

  private static JavaClass target(Dependency dependency) {
    return dependency.getTargetClass().getBaseComponentType();
  }

  private static boolean isShown(JavaClass type) {
    return type.isTopLevelClass() && type.getModifiers().contains(JavaModifier.PUBLIC);
  }
}

package org.jointwalk.protocol;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jointwalk.fixture.FixtureMap;
import org.jointwalk.fixture.Switching;
import org.jointwalk.saltmarsh.FixtureMaps;
import org.jointwalk.saltmarsh.SaltmarshS2;
import org.jointwalk.stack.Assembly;
import org.jointwalk.stack.SetUp;
import org.jointwalk.trial.SmallMap;
import org.junit.jupiter.api.Test;

class DeclarationTest {

  private static Declaration told(Declaration declaration, int channels) {
    Optional<Declaration> held = Optional.empty();
    for (Request request : declaration.requests()) {
      new Frame(1, 1, request).encode();
      held =
          request instanceof Request.Declare declare
              ? Optional.of(Declaration.begun(declare, channels))
              : held.flatMap(d -> d.with((Request.Channels) request));
    }
    return held.orElseThrow();
  }

  @Test
  void fixtureHoldsWhatWasDeclaredForEverySetUpOfTheDemo() {
    for (FixtureMap fixture :
        List.of(
            FixtureMaps.photoRelay(SaltmarshS2.map()), FixtureMaps.fourBus(SaltmarshS2.map()))) {
      for (SetUp setUp : SetUp.all()) {
        Assembly assembly = SmallMap.assembly(SaltmarshS2.map(), setUp.name());
        Declaration declaration = Declaration.of(assembly, fixture, 1760);

        Declaration held = told(declaration, 1760);

        assertThat(held).isEqualTo(declaration);
        assertThat(held.check()).isEqualTo(declaration.check());
      }
    }
  }

  @Test
  void classesFollowTheNetsBehindTheContacts() {
    Bench bench = new Bench("lower-board", Switching.MULTIPLEXER, false);
    Declaration declaration = bench.declaration();

    List<Touch> firstSix =
        declaration.places().subList(0, 6).stream()
            .map(place -> declaration.declare().classes().get(place - 1))
            .toList();
    assertThat(firstSix)
        .containsExactly(
            new Touch(Touch.Kind.GROUND, false, false, 0),
            new Touch(Touch.Kind.RAIL, false, false, 80_000_000),
            new Touch(Touch.Kind.RAIL, false, false, 0),
            new Touch(Touch.Kind.SIGNAL, false, true, 0),
            new Touch(Touch.Kind.SIGNAL, false, false, 0),
            new Touch(Touch.Kind.SIGNAL, false, false, 0));
    assertThat(declaration.declare().present()).containsExactly(Request.Part.LOWER_BOARD);
  }

  @Test
  void senseWiresAreSaidToBeSuchAndAreNotPartOfTheRest() {
    Bench bench = new Bench("lower-board", Switching.MATRIX, true);
    Declaration declaration = bench.declaration();
    int half = bench.channels() / 2;

    assertThat(declaration.forcible()).hasSize(half).allMatch(channel -> channel < half);
    assertThat(declaration.declare().classes()).hasSizeLessThanOrEqualTo(15);
  }

  @Test
  void bareSetUpDeclaresEveryWiredChannelBare() {
    Bench bench = new Bench("interposer", Switching.MULTIPLEXER, false);
    Declaration declaration = bench.declaration();

    assertThat(declaration.declare().classes())
        .containsExactly(new Touch(Touch.Kind.BARE, false, false, 0));
    assertThat(declaration.places()).doesNotContain(0);
  }

  @Test
  void defectiveChannelIsNeverClosed() {
    Bench bench = new Bench("lower-board", Switching.MULTIPLEXER, false);
    FixtureMap worn =
        new FixtureMap(
            "worn",
            "Test ring",
            bench.fixture().capabilities(),
            bench.fixture().channels(),
            Set.of(3));

    Declaration declaration = Declaration.of(bench.assembly(), worn, bench.channels());

    assertThat(declaration.places().get(3)).isZero();
    assertThat(declaration.places().get(4)).isPositive();
  }

  @Test
  void fixtureWithTooFewChannelsIsToldSo() {
    Bench bench = new Bench("lower-board", Switching.MULTIPLEXER, false);

    assertThatThrownBy(() -> Declaration.of(bench.assembly(), bench.fixture(), 39))
        .hasMessage("a channel of bench is 39; allowed is 0 to 38");
  }

  @Test
  void checkTellsAnyOtherDeclarationApart() {
    Bench bench = new Bench("lower-board", Switching.MULTIPLEXER, false);
    Declaration declaration = bench.declaration();
    Set<Long> checks = new HashSet<>();
    checks.add(declaration.check());
    for (int channel = 0; channel < bench.channels(); channel += 2) {
      Declaration other = declaration.with(new Request.Channels(channel, List.of(0))).orElseThrow();
      checks.add(other.check());
    }

    assertThat(checks).hasSize(1 + bench.channels() / 2);
  }

  @Test
  void placesBeyondTheClassesAndChannelsBeyondTheLastAreBadValues() {
    Declaration held =
        Declaration.begun(
            new Request.Declare(
                Set.of(), "empty", List.of(new Touch(Touch.Kind.BARE, false, false, 0))),
            10);

    assertThat(held.with(new Request.Channels(0, List.of(1, 2)))).isEmpty();
    assertThat(held.with(new Request.Channels(8, List.of(1, 1, 1)))).isEmpty();
    assertThat(held.with(new Request.Channels(8, List.of(1, 1)))).isPresent();
  }
}

package org.jointwalk.quantity;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Carries the influences on readings into a result that is a linear combination of them, thing by
 * thing: what two readings share adds linearly, what is different adds in quadrature. Cost is that
 * of a map access per influence. Not thread-safe.
 */
public final class Budget {

  private record Thing(String source, Object of) {}

  /** The sum of what one thing does. */
  private static final class Effect {

    private final Influence first;
    private double sum;

    private Effect(Influence first) {
      this.first = first;
    }
  }

  private final Map<Thing, Effect> effects = new LinkedHashMap<>();

  /**
   * Adds what acts on a reading.
   *
   * @param sensitivity of the result to the reading
   * @param influences on the reading
   */
  public void add(double sensitivity, List<Influence> influences) {
    for (Influence influence : influences) {
      effects.computeIfAbsent(
                  new Thing(influence.source(), influence.of()), k -> new Effect(influence))
              .sum +=
          sensitivity * influence.effect();
    }
  }

  /** The result with one contribution for each source, in the order in which they came. */
  public Estimate estimate(double value) {
    Map<String, List<Effect>> bySource = new LinkedHashMap<>();
    effects.forEach(
        (thing, effect) ->
            bySource.computeIfAbsent(thing.source(), k -> new ArrayList<>()).add(effect));
    List<Contribution> budget = new ArrayList<>();
    bySource.forEach((source, list) -> budget.add(contribution(source, list)));
    return Estimate.of(value, budget);
  }

  private static Contribution contribution(String source, List<Effect> effects) {
    double variance = 0;
    double third = 0;
    double fourth = 0;
    double gross = 0;
    for (Effect effect : effects) {
      double square = effect.sum * effect.sum;
      variance += square;
      third += square * effect.sum * effect.first.shape().skewness();
      fourth += square * square / effect.first.dof();
      gross += square > 0 ? effect.first.shape().gross() : 0;
    }
    Contribution.Type type = effects.get(0).first.type();
    double u = Math.sqrt(variance);
    return new Contribution(
        source,
        u,
        fourth > 0 ? variance * variance / fourth : Double.POSITIVE_INFINITY,
        type,
        new Shape(variance > 0 ? third / (variance * u) : 0, Math.min(1, gross)));
  }
}

package org.wearledger.stats;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;

/**
 * Units of so few steps that a scatter from step to step and a drift look alike: shape and drift are then learned together. What tells them apart is the
 * length of the steps, since a drift parts the latest step from a long one before it further than from a short one.
 *
 * @param population the units' rates, by the shape learned
 */
public record ShortPasts(RandomRateGamma population, Drift drift) {
    /** Logarithms of the shapes tried, against the guess. */
    private static final double[] LOG_SHAPES = {-1, -0.5, -0.25, 0, 0.2, 0.4, 0.6, 0.8, 1, 1.5};

    private record Tried(double logShape, double sigma, double score) {
    }

    /**
     * The means of ln eta and of sigma^2 after each step was foretold from those before it, over a grid of both with the normal priors of
     * {@link RandomRateGamma#fitNear} and {@link Drift#chosenFor}. Where all units have one step, they are the priors' own.
     */
    public static ShortPasts of(List<Steps> units, RandomRateGamma guess) {
        List<Tried> all = DoubleStream.of(LOG_SHAPES).boxed().flatMap(log -> tried(units, guess, log)).toList();
        double highest = all.stream().mapToDouble(Tried::score).max().orElseThrow();
        double weights = 0;
        double logShape = 0;
        double square = 0;
        for (Tried one : all) {
            double weight = Math.exp(one.score - highest);
            weights += weight;
            logShape += weight * one.logShape;
            square += weight * one.sigma * one.sigma;
        }
        return new ShortPasts(RandomRateGamma.fitNear(units, guess, guess.eta() * Math.exp(logShape / weights)), new Drift(Math.sqrt(square / weights)));
    }

    private static Stream<Tried> tried(List<Steps> units, RandomRateGamma guess, double logShape) {
        RandomRateGamma population = RandomRateGamma.fitNear(units, guess, guess.eta() * Math.exp(logShape));
        return Arrays.stream(Drift.GRID).mapToObj(sigma -> new Tried(logShape, sigma, new Drift(sigma).score(units, population) - logShape * logShape / 2));
    }
}

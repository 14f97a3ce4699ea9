package org.wearledger.stats;

import java.io.Serializable;
import java.util.Arrays;
import java.util.List;

/**
 * A logarithm of the rate that wanders: a random walk with standard deviation sigma per unit of time. Beliefs about a unit
 * are widened between its steps and once more for the horizon they are asked for.
 *
 * @param sigma standard deviation of the walk per unit of time, 0 for none
 */
public record Drift(double sigma) implements Serializable {
    /** The values that {@link #chosenFor} tries. */
    static final double[] GRID = {0, 0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5};
    private static final int MOST_STEPS_AHEAD = 4;

    /** @throws IllegalArgumentException when it lies outside its bounds */
    public Drift {
        if (!(sigma >= 0 && sigma < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException("sigma is 0 or more, not " + sigma);
        }
    }

    /**
     * Variance of the logarithm of the mean rate over a horizon h against the rate now: for a walk with a step at the start
     * of each of h units, sigma^2 (h + 1)(2 h + 1) / (6 h) for h from 1; sigma^2 h below, where the walk has had no time for
     * a whole step. Examples for sigma 0.2: 0.04 at 1, 0.075 at 4, 0.1275 at 8.
     */
    public double varianceOverHorizon(double h) {
        Checked.positive("horizon", h);
        return h < 1 ? sigma * sigma * h : sigma * sigma * (h + 1) * (2 * h + 1) / (6 * h);
    }

    /** The belief about a unit after all its steps, widened before each but the first. */
    public RateBelief after(RateBelief prior, double eta, Steps steps) {
        RateBelief belief = prior;
        for (int j = 0; j < steps.size(); j++) {
            belief = next(belief, eta, steps, j);
        }
        return belief;
    }

    /** The belief for what comes within the horizon h. */
    public RateBelief ahead(RateBelief now, double h) {
        return now.wandered(varianceOverHorizon(h));
    }

    private RateBelief next(RateBelief belief, double eta, Steps steps, int j) {
        double duration = steps.durations()[j];
        RateBelief widened = j == 0 ? belief : belief.wandered(sigma * sigma * duration);
        return widened.after(eta, duration, steps.increments()[j]);
    }

    /**
     * The value of the grid under which the units' own pasts were best foretold: the largest sum of log densities of the
     * increment over the next min(4, n / 2) steps, from each step of each unit on. Units of fewer than 4 steps say nothing;
     * when all are such, the result is empty-handed 0.
     */
    public static Drift chosenFor(List<Steps> units, RandomRateGamma population) {
        Drift best = new Drift(0);
        double bestScore = Double.NEGATIVE_INFINITY;
        for (double sigma : GRID) {
            Drift candidate = new Drift(sigma);
            // Units come in any order, on any number of cores; the sum must not change with them.
            double[] scores = units.parallelStream().filter(unit -> unit.size() >= 4)
                .mapToDouble(unit -> candidate.score(unit, population)).toArray();
            Arrays.sort(scores);
            double score = Arrays.stream(scores).sum();
            if (score > bestScore) {
                bestScore = score;
                best = candidate;
            }
        }
        return best;
    }

    private double score(Steps unit, RandomRateGamma population) {
        int ahead = Math.min(MOST_STEPS_AHEAD, unit.size() / 2);
        RateBelief belief = population.prior();
        double score = 0;
        for (int j = 0; j + ahead < unit.size(); j++) {
            belief = next(belief, population.eta(), unit, j);
            double duration = 0;
            double increment = 0;
            for (int k = j + 1; k <= j + ahead; k++) {
                duration += unit.durations()[k];
                increment += unit.increments()[k];
            }
            score += ahead(belief, duration).logDensity(population.eta(), duration, increment);
        }
        return score;
    }
}

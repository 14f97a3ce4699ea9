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
    /** What is taken where nothing is known: 0.15. */
    public static final double ASSUMED = 0.15;
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

    /**
     * Variance of the logarithm of the rate in the latest unit of time against the mean rate over the last d units, which end with it: for the same walk
     * sigma^2 (d - 1)(2 d - 1) / (6 d); 0 for d up to 1. Example for sigma 0.2: 0.0875 at 8.
     */
    public double varianceSinceMeanOver(double d) {
        Checked.positive("duration", d);
        return d <= 1 ? 0 : sigma * sigma * (d - 1) * (2 * d - 1) / (6 * d);
    }

    /**
     * The belief about a unit after all its steps, widened before each but the first. A step tells of the mean rate over it: at the end the belief is widened
     * by how far the rate lately may lie from those means, each counted by the square of the share that its step has in the belief.
     */
    public RateBelief after(RateBelief prior, double eta, Steps steps) {
        Track track = new Track(prior, 0);
        for (int j = 0; j < steps.size(); j++) {
            track = next(track, eta, steps, j);
        }
        return track.now();
    }

    /** @param lag variance of the rate lately against what the steps told of */
    private record Track(RateBelief belief, double lag) {
        RateBelief now() {
            return belief.wandered(lag);
        }
    }

    /** The belief for what comes within the horizon h. */
    public RateBelief ahead(RateBelief now, double h) {
        return now.wandered(varianceOverHorizon(h));
    }

    /** The belief about the rate lately, from one about the mean rate over the last {@code duration}. */
    public RateBelief lately(RateBelief mean, double duration) {
        return mean.wandered(varianceSinceMeanOver(duration));
    }

    private Track next(Track before, double eta, Steps steps, int j) {
        double duration = steps.durations()[j];
        RateBelief widened = j == 0 ? before.belief : before.belief.wandered(sigma * sigma * duration);
        RateBelief after = widened.after(eta, duration, steps.increments()[j]);
        double share = eta * duration / after.shape();
        return new Track(after, (1 - share) * (1 - share) * before.lag + share * share * varianceSinceMeanOver(duration));
    }

    /**
     * The value of the grid under which the units' own pasts were best foretold: the largest sum of log densities of the
     * increment over the next min(4, n / 2) steps, from each step of each unit on, and of a normal density about
     * {@link #ASSUMED} with a standard deviation of {@link #ASSUMED}, which a dozen units outweigh. Units of one step say nothing.
     */
    public static Drift chosenFor(List<Steps> units, RandomRateGamma population) {
        Drift best = new Drift(0);
        double bestScore = Double.NEGATIVE_INFINITY;
        for (double sigma : GRID) {
            Drift candidate = new Drift(sigma);
            double score = candidate.score(units, population);
            if (score > bestScore) {
                bestScore = score;
                best = candidate;
            }
        }
        return best;
    }

    /** Units come in any order, on any number of cores; the sum must not change with them. */
    double score(List<Steps> units, RandomRateGamma population) {
        double[] scores = units.parallelStream().filter(unit -> unit.size() > 1).mapToDouble(unit -> score(unit, population)).toArray();
        Arrays.sort(scores);
        return Arrays.stream(scores).sum() - Math.pow((sigma - ASSUMED) / ASSUMED, 2) / 2;
    }

    private double score(Steps unit, RandomRateGamma population) {
        int ahead = Math.min(MOST_STEPS_AHEAD, unit.size() / 2);
        Track belief = new Track(population.prior(), 0);
        double score = 0;
        for (int j = 0; j + ahead < unit.size(); j++) {
            belief = next(belief, population.eta(), unit, j);
            double duration = 0;
            double increment = 0;
            for (int k = j + 1; k <= j + ahead; k++) {
                duration += unit.durations()[k];
                increment += unit.increments()[k];
            }
            score += ahead(belief.now(), duration).logDensity(population.eta(), duration, increment);
        }
        return score;
    }
}

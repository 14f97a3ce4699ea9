package org.wearledger.stats;

import org.apache.commons.numbers.gamma.RegularizedGamma;
import org.apache.commons.statistics.distribution.GammaDistribution;

/** What an increment that is only known to lie between two bounds says of a unit's inverse scale. */
public final class CoarseIncrement {
    private static final int NODES = 200;

    private CoarseIncrement() {
    }

    /**
     * The belief after an increment between {@code low} and {@code high} over {@code duration}: the posterior is
     * proportional to the prior density of u times P(eta D, u high) - P(eta D, u low), P the regularised lower incomplete
     * gamma function. It is worked out at 200 equally likely values of the prior, and the gamma belief with the same mean
     * and variance of ln u stands in for it.
     *
     * @param low 0 or more
     * @param high above low; infinite when only a lower bound is known
     */
    public static RateBelief learn(RateBelief prior, double eta, double duration, double low, double high) {
        if (!(low >= 0 && high > low)) {
            throw new IllegalArgumentException("bounds must rise from 0 or more, not " + low + " to " + high);
        }
        GammaDistribution inverseScale = GammaDistribution.of(prior.shape(), 1 / prior.rate());
        double a = eta * Checked.positive("duration", duration);
        double weights = 0;
        double mean = 0;
        double squares = 0;
        for (int k = 0; k < NODES; k++) {
            double u = inverseScale.inverseCumulativeProbability((k + 0.5) / NODES);
            double weight = (Double.isInfinite(high) ? 1 : RegularizedGamma.P.value(a, u * high)) - RegularizedGamma.P.value(a, u * low);
            double log = Math.log(u);
            weights += weight;
            mean += weight * log;
            squares += weight * log * log;
        }
        // Far outside of anything the prior holds possible: nothing to learn from that would not be rounding noise.
        if (!(weights > 1e-12)) {
            return prior;
        }
        double variance = squares / weights - Math.pow(mean / weights, 2);
        return variance > 0 ? RateBelief.withLogMoments(mean / weights, variance) : prior;
    }
}

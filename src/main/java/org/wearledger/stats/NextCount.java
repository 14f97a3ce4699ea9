package org.wearledger.stats;

import org.apache.commons.numbers.gamma.RegularizedBeta;

/**
 * How many events the next period brings, after {@code seen} in {@code periods} of the same length. Events come by a Poisson process whose rate is
 * not known; with the prior of Jeffreys the rate is gamma distributed with shape seen + 1/2 and rate {@code periods}, and the next count negative
 * binomial: P(count up to k) = I(periods / (periods + 1); seen + 1/2, k + 1), the regularised incomplete beta function.
 *
 * <p>Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), 2.6 and 2.8.
 */
public record NextCount(long seen, double periods) {
    /** @throws IllegalArgumentException for a negative count, or periods not above 0 */
    public NextCount {
        if (seen < 0 || !(periods > 0)) {
            throw new IllegalArgumentException("seen must not be negative and periods above 0: " + seen + ", " + periods);
        }
    }

    /** The least count that is not exceeded with probability p, above 0 and below 1. */
    public int quantile(double p) {
        int count = 0;
        while (RegularizedBeta.value(periods / (periods + 1), seen + 0.5, count + 1.0) < p) {
            count++;
        }
        return count;
    }
}

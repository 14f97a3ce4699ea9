package org.wearledger.stats;

/** What a belief about a unit's rate is still worth when what drives the rate has changed. */
public final class Discount {
    private Discount() {
    }

    /**
     * The belief after the change: the log rate keeps {@code share} of its distance from the population, and the rest is drawn anew from
     * it. With m and v the mean and variance of ln u, m' = m0 + share (m - m0), v' = share^2 v + (1 - share^2) v0, so that a belief like
     * the population's stays as it is (a first-order autoregression). Share 1 keeps the belief, 0 gives the population's.
     *
     * @param population what is believed of a unit of which nothing was seen
     * @param share from 0 to 1
     */
    public static RateBelief of(RateBelief belief, RateBelief population, double share) {
        double mean = population.meanLog() + share * (belief.meanLog() - population.meanLog());
        double variance = share * share * Polygamma.trigamma(belief.shape()) + (1 - share * share) * Polygamma.trigamma(population.shape());
        return RateBelief.withLogMoments(mean, variance);
    }
}

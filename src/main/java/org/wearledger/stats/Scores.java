package org.wearledger.stats;

import org.apache.commons.numbers.gamma.LogBeta;
import org.apache.commons.numbers.gamma.RegularizedGamma;
import org.apache.commons.statistics.distribution.BetaDistribution;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * How well forecasts foretold what came. The continuous ranked probability score (CRPS) is the integral of
 * (F(x) - 1{x &gt;= y})^2; smaller is better, and for a point forecast it is the absolute error. Gneiting and Raftery,
 * "Strictly Proper Scoring Rules, Prediction, and Estimation", Journal of the American Statistical Association 102 (2007)
 * 359-378.
 */
public final class Scores {
    private Scores() {
    }

    /** CRPS of a normal forecast: s [z (2 Phi(z) - 1) + 2 phi(z) - 1 / sqrt(pi)], z = (y - m) / s (Gneiting et al. 2005). */
    public static double crpsOfNormal(double mean, double deviation, double y) {
        NormalDistribution standard = NormalDistribution.of(0, 1);
        double z = (y - mean) / Checked.positive("deviation", deviation);
        return deviation * (z * (2 * standard.cumulativeProbability(z) - 1) + 2 * standard.density(z) - 1 / Math.sqrt(Math.PI));
    }

    /** Phi((y - m) / s): what a normal forecast gave for a value of at most y. */
    public static double normalCdf(double mean, double deviation, double y) {
        return NormalDistribution.of(mean, deviation).cumulativeProbability(y);
    }

    /**
     * CRPS of a gamma forecast with shape a and rate b: y (2 F(a) - 1) - (a / b)(2 F(a + 1) - 1) - 1 / (b B(1/2, a)), with
     * F(a) the distribution function at y for shape a (Scheuerer and Moeller 2015).
     */
    public static double crpsOfGamma(double shape, double rate, double y) {
        double x = Math.max(0, y) * rate;
        return y * (2 * RegularizedGamma.P.value(shape, x) - 1)
            - shape / rate * (2 * RegularizedGamma.P.value(shape + 1, x) - 1) - Math.exp(-LogBeta.value(0.5, shape)) / rate;
    }

    /**
     * The exact interval for a proportion, {@code successes} of {@code trials}, by Clopper and Pearson (Biometrika 26
     * (1934) 404-413): beta quantiles; 0 below for no success, 1 above for nothing else.
     */
    public static Bounds clopperPearson(int successes, int trials, double confidence) {
        if (successes < 0 || trials < 1 || successes > trials) {
            throw new IllegalArgumentException("successes lie between 0 and trials, not " + successes + " of " + trials);
        }
        double tail = (1 - Checked.confidence(confidence)) / 2;
        return new Bounds(
            successes == 0 ? 0 : BetaDistribution.of(successes, trials - successes + 1.0).inverseCumulativeProbability(tail),
            successes == trials ? 1 : BetaDistribution.of(successes + 1.0, trials - successes).inverseSurvivalProbability(tail));
    }
}

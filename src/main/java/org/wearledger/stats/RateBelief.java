package org.wearledger.stats;

import java.io.Serializable;
import org.apache.commons.math3.analysis.integration.gauss.GaussIntegratorFactory;
import org.apache.commons.numbers.gamma.LogBeta;
import org.apache.commons.numbers.gamma.RegularizedBeta;
import org.apache.commons.statistics.distribution.BetaDistribution;

/**
 * What is known of one unit's inverse scale u in a gamma process: u ~ Gamma(shape delta, rate gamma), while the increment
 * over tau units of time, given u, is Gamma(shape eta tau, rate u).
 *
 * <p>The increment D to come is then scaled beta-prime: D / (D + gamma) ~ Beta(eta tau, delta), and since the process only
 * rises, the time T to reach a level L further on has P(T &lt;= tau) = P(D &gt;= L) = I(gamma / (L + gamma); delta, eta tau)
 * with I the regularised incomplete beta function, which keeps its accuracy where 1 - I would lose it.
 *
 * <p>Lawless and Crowder, "Covariates and random effects in a gamma process model with application to degradation and
 * failure", Lifetime Data Analysis 10 (2004) 213-227; process and first passage: Abdel-Hameed, IEEE Transactions on
 * Reliability 24 (1975) 152-153.
 *
 * @param shape delta, above 0
 * @param rate gamma, above 0, in the units of the increments
 */
public record RateBelief(double shape, double rate) implements Serializable {
    private static final GaussIntegratorFactory NODES = new GaussIntegratorFactory();

    /** @throws IllegalArgumentException when either is not a number above 0 */
    public RateBelief {
        Checked.positive("shape", shape);
        Checked.positive("rate", rate);
    }

    /** The belief after an increment was seen over a time: (delta + eta tau, gamma + d), by conjugacy. */
    public RateBelief after(double eta, double tau, double increment) {
        return new RateBelief(shape + eta * tau, rate + increment);
    }

    /**
     * The belief when ln u has since wandered with variance v: delta' with trigamma(delta') = trigamma(delta) + v, and
     * gamma' = gamma exp(digamma(delta') - digamma(delta)), so that Var ln u grows by v and E ln u stays. v = 0 gives this.
     */
    public RateBelief wandered(double varianceOfLogRate) {
        if (varianceOfLogRate == 0) {
            return this;
        }
        double wider = Polygamma.inverseTrigamma(Polygamma.trigamma(shape) + Checked.positive("varianceOfLogRate", varianceOfLogRate));
        return new RateBelief(wider, rate * Math.exp(Polygamma.digamma(wider) - Polygamma.digamma(shape)));
    }

    /** P(D &lt;= x) for the increment over tau; 0 for x at or below 0. */
    public double cdf(double eta, double tau, double x) {
        return x <= 0 ? 0 : RegularizedBeta.value(x / (x + rate), eta * tau, shape);
    }

    /** Logarithm of the increment's density at x above 0. */
    double logDensity(double eta, double tau, double x) {
        double a = eta * tau;
        return (a - 1) * Math.log(x) + shape * Math.log(rate) - (a + shape) * Math.log(x + rate) - LogBeta.value(a, shape);
    }

    /** The x with P(D &lt;= x) = p, for p between 0 and 1, both excluded. */
    public double quantile(double eta, double tau, double p) {
        double a = eta * tau;
        // Whichever of Z = D / (D + gamma) and 1 - Z is the smaller is solved for: it keeps its digits.
        if (RegularizedBeta.value(0.5, a, shape) >= p) {
            double z = polished(BetaDistribution.of(a, shape), p, BetaDistribution.of(a, shape).inverseCumulativeProbability(p));
            return rate * z / (1 - z);
        }
        BetaDistribution complement = BetaDistribution.of(shape, a);
        double c = polished(complement, 1 - p, complement.inverseSurvivalProbability(p));
        return rate * (1 - c) / c;
    }

    /** P(T &lt;= tau) for a level that lies {@code remaining} further on; 1 when nothing remains, 0 for tau 0. */
    public double probabilityOfReaching(double eta, double tau, double remaining) {
        if (remaining <= 0) {
            return 1;
        }
        return tau <= 0 ? 0 : RegularizedBeta.value(rate / (remaining + rate), shape, eta * tau);
    }

    /**
     * CRPS of the predictive distribution at y: the integral of (F - 1{x at least y})^2 over x, taken over
     * z = x / (x + gamma) by Gauss and Legendre, 40 nodes below y and 40 above. For a shape of 1/2 or less the integral
     * does not exist; for one little above it is rough.
     */
    public double crps(double eta, double tau, double y) {
        double a = eta * tau;
        double zOfY = y / (y + rate);
        double below = zOfY == 0 ? 0 : NODES.legendre(40, 0, zOfY)
            .integrate(z -> Math.pow(RegularizedBeta.value(z, a, shape) / (1 - z), 2));
        double above = NODES.legendre(40, zOfY, 1)
            .integrate(z -> Math.pow(RegularizedBeta.complement(z, a, shape) / (1 - z), 2));
        return rate * (below + above);
    }

    /** E ln u. */
    public double meanLog() {
        return Polygamma.digamma(shape) - Math.log(rate);
    }

    /** The belief whose ln u has this mean and variance. */
    static RateBelief withLogMoments(double meanOfLog, double varianceOfLog) {
        double shape = Polygamma.inverseTrigamma(varianceOfLog);
        return new RateBelief(shape, Math.exp(Polygamma.digamma(shape) - meanOfLog));
    }

    // The library's inverse stops at an absolute 1e-9; two Newton steps take it to the last digits.
    private static double polished(BetaDistribution beta, double p, double start) {
        double z = start;
        for (int i = 0; i < 2; i++) {
            double density = beta.density(z);
            double next = z - (beta.cumulativeProbability(z) - p) / density;
            if (!(density > 0) || !(next > 0 && next < 1)) {
                return z;
            }
            z = next;
        }
        return z;
    }
}

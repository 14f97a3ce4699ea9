package org.wearledger.stats;

import org.apache.commons.math3.distribution.NormalDistribution;

/** Argument checks that name the value refused. */
final class Checked {
    private Checked() {
    }

    /** A copy, so that no method here changes its caller's array. */
    static double[] finite(String name, double[] values) {
        for (int i = 0; i < values.length; i++) {
            if (!Double.isFinite(values[i])) {
                throw new IllegalArgumentException(name + "[" + i + "] must be finite, not " + values[i]);
            }
        }
        return values.clone();
    }

    /** The standard normal quantile z with P(|Z| at most z) = confidence. */
    static double twoSidedZ(double confidence) {
        // No random generator: only the quantile function is wanted.
        return new NormalDistribution(null, 0, 1).inverseCumulativeProbability(0.5 + confidence(confidence) / 2);
    }

    static double positive(String name, double value) {
        if (!(value > 0 && value < Double.POSITIVE_INFINITY)) {
            throw new IllegalArgumentException(name + " must be above 0 and finite, not " + value);
        }
        return value;
    }

    static double confidence(double confidence) {
        if (!(confidence > 0 && confidence < 1)) {
            throw new IllegalArgumentException("confidence must lie between 0 and 1, not " + confidence);
        }
        return confidence;
    }
}

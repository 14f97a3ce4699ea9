package org.wearledger.stats;

import java.util.function.DoubleUnaryOperator;

/** Inverts the distribution function of a time. */
public final class FirstPassage {
    private static final double TIME_ACCURACY = 1e-4;
    private static final double RELATIVE_ACCURACY = 1e-14;

    private FirstPassage() {
    }

    /**
     * The time at which {@code probabilityBy}, rising in time from 0, reaches p: to a ten-thousandth of the unit, which for
     * quarters is a hundredth of a day. Positive infinity when it is not reached within {@code most}.
     */
    public static double timeOf(DoubleUnaryOperator probabilityBy, double p, double most) {
        if (probabilityBy.applyAsDouble(most) < p) {
            return Double.POSITIVE_INFINITY;
        }
        return Root.between(0, most, RELATIVE_ACCURACY, TIME_ACCURACY, t -> probabilityBy.applyAsDouble(t) - p);
    }
}

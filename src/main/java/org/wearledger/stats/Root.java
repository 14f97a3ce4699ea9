package org.wearledger.stats;

import java.util.function.DoubleUnaryOperator;
import org.apache.commons.math3.analysis.solvers.BrentSolver;
import org.apache.commons.math3.exception.TooManyEvaluationsException;

/** Where a function of one variable is 0, by Brent's method. It always answers: no search here stops a sweep. */
final class Root {
    private static final int MOST_EVALUATIONS = 200;
    private static final double FUNCTION_ACCURACY = 1e-15;

    private Root() {
    }

    /**
     * The root between two ends at which the function has unlike signs. With like signs the end where it is nearer to 0; at the limit
     * of 200 evaluations the nearest value seen.
     */
    static double between(double low, double high, double relativeAccuracy, double absoluteAccuracy, DoubleUnaryOperator function) {
        double atLow = function.applyAsDouble(low);
        double atHigh = function.applyAsDouble(high);
        double[] nearest = Math.abs(atLow) <= Math.abs(atHigh) ? new double[] {low, Math.abs(atLow)} : new double[] {high, Math.abs(atHigh)};
        if (!(atLow < 0 && atHigh > 0 || atLow > 0 && atHigh < 0)) {
            return nearest[0];
        }
        try {
            return new BrentSolver(relativeAccuracy, absoluteAccuracy, FUNCTION_ACCURACY).solve(MOST_EVALUATIONS, x -> {
                double value = function.applyAsDouble(x);
                if (Math.abs(value) < nearest[1]) {
                    nearest[0] = x;
                    nearest[1] = Math.abs(value);
                }
                return value;
            }, low, high);
        } catch (TooManyEvaluationsException e) {
            return nearest[0];
        }
    }
}

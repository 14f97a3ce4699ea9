package org.wearledger.stats;

import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.exception.TooManyEvaluationsException;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.SimpleValueChecker;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;

/** Where a function of a few variables is highest within bounds, by the simplex of Nelder and Mead. It always answers. */
final class Maximum {
    /** For each of the two searches; an ordinary one takes a tenth of them. The library's simplex shrinks for ever where the function is level. */
    private static final int MOST_EVALUATIONS = 1_000;
    private static final double[] SIMPLEX_SIDES = {0.5, 0.05};

    private Maximum() {
    }

    /**
     * The best point found: twice, from {@code start} and from the best point then, until the values of the simplex move by no more
     * than {@code tolerance}, or for 1,000 evaluations. Beyond a bound the function is taken as at the bound, where it is NaN as lowest.
     *
     * @param tolerance above the rounding noise of the function
     */
    static double[] near(double[] start, double[] low, double[] high, double tolerance, ToDoubleFunction<double[]> function) {
        double[][] best = {within(start, low, high)};
        double[] highest = {function.applyAsDouble(best[0])};
        ObjectiveFunction objective = new ObjectiveFunction(point -> {
            double[] inside = within(point, low, high);
            double value = function.applyAsDouble(inside);
            if (value > highest[0]) {
                best[0] = inside;
                highest[0] = value;
            }
            return Double.isNaN(value) ? Double.NEGATIVE_INFINITY : value;
        });
        for (double side : SIMPLEX_SIDES) {
            try {
                new SimplexOptimizer(new SimpleValueChecker(0, tolerance)).optimize(new MaxEval(MOST_EVALUATIONS), GoalType.MAXIMIZE,
                    new InitialGuess(best[0]), new NelderMeadSimplex(best[0].length, side), objective);
            } catch (TooManyEvaluationsException e) {
                continue;
            }
        }
        return best[0];
    }

    private static double[] within(double[] point, double[] low, double[] high) {
        double[] inside = point.clone();
        for (int i = 0; i < inside.length; i++) {
            inside[i] = Math.min(high[i], Math.max(low[i], inside[i]));
        }
        return inside;
    }
}

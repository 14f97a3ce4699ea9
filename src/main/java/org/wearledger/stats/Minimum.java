package org.wearledger.stats;

import java.util.Arrays;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.analysis.UnivariateFunction;
import org.apache.commons.math3.exception.MathIllegalStateException;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.SimpleBounds;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.BOBYQAOptimizer;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;

/** Where a function of a few variables from 0 up is lowest, by Brent's search for one variable and Powell's BOBYQA for more. It always answers. */
final class Minimum {
    private static final int MOST_EVALUATIONS = 400;
    private static final double ACCURACY = 1e-5;
    private static final double FIRST_RADIUS = 0.3;

    private Minimum() {
    }

    /** The lowest point seen from 1 on, each variable up to {@code most}; for no variable an empty one. */
    static double[] upTo(double most, int dimensions, ToDoubleFunction<double[]> function) {
        double[] best = filled(dimensions, 1);
        double[] value = {function.applyAsDouble(best)};
        ToDoubleFunction<double[]> kept = point -> {
            double here = function.applyAsDouble(point);
            if (here < value[0]) {
                value[0] = here;
                System.arraycopy(point, 0, best, 0, dimensions);
            }
            return here;
        };
        try {
            search(most, best.clone(), kept);
        } catch (MathIllegalStateException e) {
            return best;
        }
        return best;
    }

    private static void search(double most, double[] start, ToDoubleFunction<double[]> function) {
        MaxEval evaluations = new MaxEval(MOST_EVALUATIONS);
        if (start.length == 1) {
            UnivariateFunction one = x -> function.applyAsDouble(new double[] {x});
            new BrentOptimizer(ACCURACY, ACCURACY).optimize(evaluations, GoalType.MINIMIZE, new UnivariateObjectiveFunction(one), new SearchInterval(0, most, 1));
        } else if (start.length > 1) {
            new BOBYQAOptimizer(2 * start.length + 1, FIRST_RADIUS, ACCURACY).optimize(evaluations, GoalType.MINIMIZE,
                new ObjectiveFunction(function::applyAsDouble), new InitialGuess(start), new SimpleBounds(new double[start.length], filled(start.length, most)));
        }
    }

    private static double[] filled(int length, double value) {
        double[] values = new double[length];
        Arrays.fill(values, value);
        return values;
    }
}

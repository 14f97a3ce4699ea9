package org.wearledger.stats;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.univariate.BrentOptimizer;
import org.apache.commons.math3.optim.univariate.SearchInterval;
import org.apache.commons.math3.optim.univariate.UnivariateObjectiveFunction;
import org.apache.commons.numbers.gamma.LogGamma;

/**
 * A population of gamma processes whose inverse scales differ from unit to unit: increment over D given u ~ Gamma(eta D,
 * rate u), u ~ Gamma(delta0, rate gamma0).
 *
 * <p>The marginal likelihood, u integrated out (Lawless and Crowder 2004), is that of the steps given their sum, a Dirichlet density that
 * knows eta alone, times that of the sum. With T and X the unit's total time and increment,
 * l = sum over units { lnGamma(eta T) + sum over steps [eta D ln(d / X) - ln d - lnGamma(eta D)] }
 * + sum over units { eta T ln X + delta0 ln gamma0 - lnGamma(delta0) + lnGamma(delta0 + eta T) - lnGamma(eta T) - (delta0 + eta T) ln(gamma0 + X) }.
 *
 * @param eta shape per unit of time
 * @param delta0 shape of the inverse scale between units: the larger, the more alike the units
 * @param gamma0 its rate, in the units of the increments
 */
public record RandomRateGamma(double eta, double delta0, double gamma0) implements Serializable {
    /** Steps of a unit time with a coefficient of variation of 4.5, and of 3 %: no drive is known to be beyond either. */
    private static final double LEAST_SHAPE = 0.05;
    private static final double MOST_SHAPE = 1_000;
    private static final double MOST_LOG_SCALE = 40;
    private static final double SHAPE_ACCURACY = 1e-8;
    private static final double TOLERANCE_PER_UNIT = 1e-11;
    private static final int FEWEST_SIDE_BY_SIDE = 500;

    /** @throws IllegalArgumentException when one of the three is not a number above 0 */
    public RandomRateGamma {
        Checked.positive("eta", eta);
        Checked.positive("delta0", delta0);
        Checked.positive("gamma0", gamma0);
    }

    /** Belief about a unit of which nothing was seen. */
    RateBelief prior() {
        return new RateBelief(delta0, gamma0);
    }

    /** The marginal log-likelihood of the units' steps; 0 for none. */
    double logLikelihood(List<Steps> units) {
        List<Summary> summaries = summaries(units);
        return ofShares(summaries, eta) + Sums.of(summaries, eta).logLikelihood(this);
    }

    /** Maximum likelihood alone, eta from 0.05 to 1,000; needs several units with several steps each to be identified. */
    static RandomRateGamma fit(List<Steps> units, RandomRateGamma start) {
        List<Summary> summaries = summaries(units);
        double eta = highestShape(shape -> ofShares(summaries, shape) + Sums.of(summaries, shape).logLikelihood(betweenUnits(summaries, shape, start, 0)));
        return betweenUnits(summaries, eta, start, 0);
    }

    /**
     * The fit in two stages, each logarithm of eta, of delta0 and of the typical increment eta gamma0 / delta0 with a normal prior of
     * standard deviation 1 about {@code guess}: one pseudo-observation, which steadies a fleet of one, two or five drives and is
     * outweighed by any larger one. First eta, by the steps given their sums: whether units are alike does not matter to it, and where
     * all have one step it stays as guessed. Then delta0 and gamma0, by the sums. No unit at all gives {@code guess}.
     */
    public static RandomRateGamma fitNear(List<Steps> units, RandomRateGamma guess) {
        List<Summary> summaries = summaries(units);
        if (summaries.isEmpty()) {
            return guess;
        }
        boolean shapeShows = summaries.stream().anyMatch(unit -> unit.durations.length > 1);
        double eta = !shapeShows ? guess.eta : highestShape(shape -> ofShares(summaries, shape) - square(Math.log(shape / guess.eta)) / 2);
        return betweenUnits(summaries, eta, guess, 1);
    }

    /** The second stage alone, for a shape that is known. */
    static RandomRateGamma fitNear(List<Steps> units, RandomRateGamma guess, double eta) {
        return betweenUnits(summaries(units), eta, guess, 1);
    }

    /** The function has one peak for eta alone, since the Dirichlet density is of the exponential family; Brent's search always ends. */
    private static double highestShape(DoubleUnaryOperator byShape) {
        return Math.exp(new BrentOptimizer(SHAPE_ACCURACY, SHAPE_ACCURACY).optimize(MaxEval.unlimited(), GoalType.MAXIMIZE,
            new SearchInterval(Math.log(LEAST_SHAPE), Math.log(MOST_SHAPE)),
            new UnivariateObjectiveFunction(log -> byShape.applyAsDouble(Math.exp(log)))).getPoint());
    }

    private static RandomRateGamma betweenUnits(List<Summary> units, double eta, RandomRateGamma guess, double priorWeight) {
        double shape = Math.log(guess.delta0);
        double typical = Math.log(guess.eta * guess.gamma0 / guess.delta0);
        double[] low = {Math.log(LEAST_SHAPE), typical - MOST_LOG_SCALE};
        double[] high = {Math.log(MOST_SHAPE), typical + MOST_LOG_SCALE};
        Sums sums = Sums.of(units, eta);
        double[] best = Maximum.near(new double[] {shape, typical}, low, high, TOLERANCE_PER_UNIT * units.size(), point ->
            sums.logLikelihood(at(eta, point)) - priorWeight * (square(point[0] - shape) + square(point[1] - typical)) / 2);
        return at(eta, best);
    }

    /** @param point logarithms of delta0 and of the typical increment */
    private static RandomRateGamma at(double eta, double[] point) {
        double delta0 = Math.exp(point[0]);
        return new RandomRateGamma(eta, delta0, Math.exp(point[1]) * delta0 / eta);
    }

    private static double square(double x) {
        return x * x;
    }

    private record Summary(double[] durations, double sumOfDurationLog, double sumOfLog, double duration, double increment) {
        static Summary of(Steps steps) {
            double durationLog = 0;
            double log = 0;
            for (int j = 0; j < steps.size(); j++) {
                durationLog += steps.durations()[j] * Math.log(steps.increments()[j]);
                log += Math.log(steps.increments()[j]);
            }
            return new Summary(steps.durations(), durationLog, log, steps.totalDuration(), steps.totalIncrement());
        }

        double ofShares(double eta) {
            double term = LogGamma.value(eta * duration) + eta * (sumOfDurationLog - duration * Math.log(increment)) - sumOfLog;
            for (double each : durations) {
                term -= LogGamma.value(eta * each);
            }
            return term;
        }
    }

    /** What the sums of increments say of delta0 and gamma0, at one eta: what does not depend on those two is worked out once. */
    private record Sums(double[] increments, double[] shapes, double[] ofIncrements, double[] ofShapes) {
        static Sums of(List<Summary> units, double eta) {
            double[] increments = units.stream().mapToDouble(Summary::increment).toArray();
            double[] shapes = units.stream().mapToDouble(unit -> eta * unit.duration).toArray();
            return new Sums(increments, shapes, terms(shapes.length, i -> shapes[i] * Math.log(increments[i])), terms(shapes.length, i -> LogGamma.value(shapes[i])));
        }

        double logLikelihood(RandomRateGamma p) {
            double constant = p.delta0 * Math.log(p.gamma0) - LogGamma.value(p.delta0);
            return sum(terms(shapes.length, i -> constant + (ofIncrements[i] + LogGamma.value(p.delta0 + shapes[i]) - ofShapes[i]
                - (p.delta0 + shapes[i]) * Math.log(p.gamma0 + increments[i]))));
        }
    }

    // Sorted, because a sum in another order differs in its last digits.
    private static List<Summary> summaries(List<Steps> units) {
        return units.stream().filter(unit -> unit.size() > 0).map(Summary::of)
            .sorted(Comparator.comparingDouble(Summary::increment).thenComparingDouble(Summary::duration)
                .thenComparingDouble(Summary::sumOfLog).thenComparingDouble(Summary::sumOfDurationLog)
                .thenComparing(Summary::durations, Arrays::compare)).toList();
    }

    private static double ofShares(List<Summary> units, double eta) {
        return sum(terms(units.size(), i -> units.get(i).ofShares(eta)));
    }

    /** Worked out side by side where they are many. */
    private static double[] terms(int count, IntToDoubleFunction term) {
        IntStream all = IntStream.range(0, count);
        return (count < FEWEST_SIDE_BY_SIDE ? all : all.parallel()).mapToDouble(term).toArray();
    }

    /** Added up in their order: the sum is the same on any number of cores. */
    private static double sum(double[] terms) {
        double sum = 0;
        for (double each : terms) {
            sum += each;
        }
        return sum;
    }
}

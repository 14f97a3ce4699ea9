package org.wearledger.stats;

import java.io.Serializable;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import org.apache.commons.math3.optim.InitialGuess;
import org.apache.commons.math3.optim.MaxEval;
import org.apache.commons.math3.optim.SimpleValueChecker;
import org.apache.commons.math3.optim.nonlinear.scalar.GoalType;
import org.apache.commons.math3.optim.nonlinear.scalar.ObjectiveFunction;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.NelderMeadSimplex;
import org.apache.commons.math3.optim.nonlinear.scalar.noderiv.SimplexOptimizer;
import org.apache.commons.numbers.gamma.LogGamma;

/**
 * A population of gamma processes whose inverse scales differ from unit to unit: increment over D given u ~ Gamma(eta D,
 * rate u), u ~ Gamma(delta0, rate gamma0).
 *
 * <p>Fitted by the marginal likelihood, u integrated out (Lawless and Crowder 2004):
 * l = sum over units { sum over steps [(eta D - 1) ln d - lnGamma(eta D)] + delta0 ln gamma0 - lnGamma(delta0)
 * + lnGamma(delta0 + eta T) - (delta0 + eta T) ln(gamma0 + X) }, T and X the unit's total time and increment.
 *
 * @param eta shape per unit of time
 * @param delta0 shape of the inverse scale between units: the larger, the more alike the units
 * @param gamma0 its rate, in the units of the increments
 */
public record RandomRateGamma(double eta, double delta0, double gamma0) implements Serializable {
    private static final int MOST_EVALUATIONS = 5_000;

    /** @throws IllegalArgumentException when one of the three is not a number above 0 */
    public RandomRateGamma {
        Checked.positive("eta", eta);
        Checked.positive("delta0", delta0);
        Checked.positive("gamma0", gamma0);
    }

    /** Belief about a unit of which nothing was seen. */
    public RateBelief prior() {
        return new RateBelief(delta0, gamma0);
    }

    /** The marginal log-likelihood of the units' steps; 0 for none. */
    public double logLikelihood(List<Steps> units) {
        return logLikelihood(summaries(units), eta, delta0, gamma0);
    }

    /** Maximum likelihood alone; needs several units with several steps each to be identified. */
    public static RandomRateGamma fit(List<Steps> units, RandomRateGamma start) {
        return maximise(units, start, 0);
    }

    /**
     * The mode when each logarithm of (eta, delta0, typical increment eta gamma0 / delta0) is given a normal prior of
     * standard deviation 1 about {@code guess}: one pseudo-observation, which steadies a fleet of one, two or five drives
     * and is outweighed by any larger one. No unit at all gives {@code guess}.
     */
    public static RandomRateGamma fitNear(List<Steps> units, RandomRateGamma guess) {
        return units.stream().allMatch(unit -> unit.size() == 0) ? guess : maximise(units, guess, 1);
    }

    private static RandomRateGamma maximise(List<Steps> units, RandomRateGamma start, double priorWeight) {
        List<Summary> summaries = summaries(units);
        double[] centre = {Math.log(start.eta), Math.log(start.delta0), Math.log(start.gamma0)};
        double typical = centre[0] + centre[2] - centre[1];
        double[] best = new SimplexOptimizer(new SimpleValueChecker(1e-13, 1e-10)).optimize(
            new MaxEval(MOST_EVALUATIONS), GoalType.MAXIMIZE, new InitialGuess(centre), new NelderMeadSimplex(3, 0.5),
            new ObjectiveFunction(p -> logLikelihood(summaries, Math.exp(p[0]), Math.exp(p[1]), Math.exp(p[2]))
                - priorWeight * (square(p[0] - centre[0]) + square(p[1] - centre[1])
                + square(p[0] + p[2] - p[1] - typical)) / 2)).getPoint();
        return new RandomRateGamma(Math.exp(best[0]), Math.exp(best[1]), Math.exp(best[2]));
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
    }

    // Sorted, because a sum in another order differs in its last digits.
    private static List<Summary> summaries(List<Steps> units) {
        return units.stream().filter(unit -> unit.size() > 0).map(Summary::of)
            .sorted(Comparator.comparingDouble(Summary::increment).thenComparingDouble(Summary::duration)
                .thenComparingDouble(Summary::sumOfLog).thenComparingDouble(Summary::sumOfDurationLog)
                .thenComparing(Summary::durations, Arrays::compare)).toList();
    }

    private static double logLikelihood(List<Summary> units, double eta, double delta0, double gamma0) {
        double constant = delta0 * Math.log(gamma0) - LogGamma.value(delta0);
        // Worked out side by side, added up in their order: the sum is the same on any number of cores.
        double[] terms = units.parallelStream().mapToDouble(unit -> constant + term(unit, eta, delta0, gamma0)).toArray();
        double sum = 0;
        for (double term : terms) {
            sum += term;
        }
        return Double.isNaN(sum) ? Double.NEGATIVE_INFINITY : sum;
    }

    private static double term(Summary unit, double eta, double delta0, double gamma0) {
        double shape = delta0 + eta * unit.duration;
        double term = eta * unit.sumOfDurationLog - unit.sumOfLog + LogGamma.value(shape) - shape * Math.log(gamma0 + unit.increment);
        for (double duration : unit.durations) {
            term -= LogGamma.value(eta * duration);
        }
        return term;
    }
}

package org.wearledger.stats;

import java.math.BigInteger;
import java.util.List;

/**
 * What a random number of purchases of several kinds costs, on a grid of amounts.
 *
 * <p>The grid is the greatest common divisor of the costs, so that amounts are exact, as long as it has at most 20,000 steps;
 * beyond that the amount of each kind is rounded to the nearest of 20,000 steps.
 *
 * @param step of the grid, in the smallest unit of money
 * @param probabilities of 0, step, 2 step, ...
 */
public record AmountDistribution(long step, double[] probabilities) {
    private static final int MOST_STEPS = 20_000;
    private static final double NEGLIGIBLE = 1e-13;

    static AmountDistribution mixture(long[] costs, List<List<CountDistribution>> countsAtNodes, double[] weights) {
        long most = 0;
        BigInteger divisor = BigInteger.ZERO;
        for (int kind = 0; kind < costs.length; kind++) {
            most += costs[kind] * countsAtNodes.get(kind).stream().mapToInt(c -> c.first() + c.probabilities().length - 1).max().orElse(0);
            divisor = divisor.gcd(BigInteger.valueOf(costs[kind]));
        }
        long exact = Math.max(1, divisor.longValue());
        long step = most / exact <= MOST_STEPS ? exact : (most + MOST_STEPS - 1) / MOST_STEPS;
        double[] sum = new double[(int) (most / step) + costs.length + 1];
        for (int node = 0; node < weights.length; node++) {
            double[] given = {1};
            for (int kind = 0; kind < costs.length; kind++) {
                given = plus(given, countsAtNodes.get(kind).get(node), costs[kind], step);
            }
            for (int k = 0; k < Math.min(given.length, sum.length); k++) {
                sum[k] += weights[node] * given[k];
            }
        }
        return new AmountDistribution(step, sum);
    }

    private static double[] plus(double[] amounts, CountDistribution counts, long cost, long step) {
        int highest = counts.first() + counts.probabilities().length - 1;
        double[] sum = new double[amounts.length + steps(highest, cost, step)];
        for (int k = 0; k < counts.probabilities().length; k++) {
            double p = counts.probabilities()[k];
            if (p > NEGLIGIBLE) {
                int shift = steps(counts.first() + k, cost, step);
                for (int a = 0; a < amounts.length; a++) {
                    sum[a + shift] += p * amounts[a];
                }
            }
        }
        return sum;
    }

    private static int steps(int count, long cost, long step) {
        return (int) Math.round((double) count * cost / step);
    }

    public double mean() {
        double sum = 0;
        for (int k = 0; k < probabilities.length; k++) {
            sum += (double) k * step * probabilities[k];
        }
        return sum;
    }

    /** The smallest amount of the grid that is not exceeded with probability p, for p between 0 and 1. */
    public long quantile(double p) {
        double sum = 0;
        for (int k = 0; k < probabilities.length; k++) {
            sum += probabilities[k];
            if (sum >= Checked.confidence(p) - 1e-12) {
                return k * step;
            }
        }
        return (probabilities.length - 1) * step;
    }
}

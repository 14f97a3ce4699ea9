package org.wearledger.stats;

import java.util.List;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import org.apache.commons.statistics.distribution.NormalDistribution;

/**
 * A standard normal shock that all units share, as nodes and weights: the trapezoidal rule at steps of 1/4 from -5 to 5, which
 * for smooth functions of a normal variable is as good as exact. Given the shock, units are independent.
 */
public final class SharedShock {
    private static final int NODES = 41;
    private static final double STEP = 0.25;
    private static final double[] WEIGHTS = weights();

    private SharedShock() {
    }

    private static double[] weights() {
        NormalDistribution standard = NormalDistribution.of(0, 1);
        double[] weights = new double[NODES];
        double sum = 0;
        for (int i = 0; i < NODES; i++) {
            weights[i] = standard.density(node(i));
            sum += weights[i];
        }
        for (int i = 0; i < NODES; i++) {
            weights[i] /= sum;
        }
        return weights;
    }

    /** How many values the shock takes, 41. */
    public static int nodes() {
        return NODES;
    }

    /** The shock at node i, in standard deviations. */
    public static double node(int i) {
        return (i - NODES / 2) * STEP;
    }

    /** The mean over the shock of a figure given at each node. */
    public static double mean(double[] atNodes) {
        double sum = 0;
        for (int i = 0; i < NODES; i++) {
            sum += WEIGHTS[i] * atNodes[i];
        }
        return sum;
    }

    /** How many events happen, when {@code givenShock} says how many do at each node. */
    public static CountDistribution counts(IntFunction<CountDistribution> givenShock) {
        return counts(IntStream.range(0, NODES).mapToObj(givenShock).toList());
    }

    /** The same from the distributions at the nodes. */
    public static CountDistribution counts(List<CountDistribution> atNodes) {
        return CountDistribution.mixture(WEIGHTS, atNodes);
    }

    /**
     * What the events cost together: each kind has its cost, and its number at each node of the shock.
     *
     * @param costs in the smallest unit of money, 0 or more, one for each kind
     * @param countsAtNodes by kind, then by node
     */
    public static AmountDistribution amounts(long[] costs, List<List<CountDistribution>> countsAtNodes) {
        return AmountDistribution.mixture(AmountDistribution.kinds(costs, countsAtNodes, WEIGHTS), WEIGHTS);
    }

    /**
     * How many of each kind there are when all cost the given amount, one of those of {@link #amounts}: at changed costs these numbers follow the
     * quantile. Whole numbers, the likeliest, while amounts are exact; beyond that their mean, which costs the amount.
     */
    public static double[] countsAt(long amount, long[] costs, List<List<CountDistribution>> countsAtNodes) {
        return CountsAtAmount.of(AmountDistribution.kinds(costs, countsAtNodes, WEIGHTS), WEIGHTS, amount);
    }
}

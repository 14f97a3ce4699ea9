package org.wearledger.stats;

import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * How many of each kind are bought where all cost a given amount together: at changed prices those numbers cost what the amount becomes, while
 * the order of the amounts around it stays.
 */
final class CountsAtAmount {
    private final AmountDistribution.Kind[] kinds;
    private final double[] weights;
    private int[] likeliest;
    private double itsProbability = -1;

    private CountsAtAmount(AmountDistribution.Kind[] kinds, double[] weights) {
        this.kinds = kinds;
        this.weights = weights;
    }

    /** The likeliest numbers that cost the amount; where {@link AmountDistribution} rounds amounts, the {@linkplain #mean mean} of the numbers. */
    static double[] of(AmountDistribution.Kind[] kinds, double[] weights, long amount) {
        CountsAtAmount counts = new CountsAtAmount(kinds, weights);
        if (AmountDistribution.isExact(kinds)) {
            counts.search(0, amount, new int[kinds.length]);
        }
        return counts.likeliest == null ? counts.mean(amount) : Arrays.stream(counts.likeliest).asDoubleStream().toArray();
    }

    private void search(int k, long left, int[] chosen) {
        if (k == kinds.length) {
            double p = left == 0 ? probability(chosen) : -1;
            if (p > itsProbability) {
                itsProbability = p;
                likeliest = chosen.clone();
            }
            return;
        }
        for (int n = kinds[k].first(); n <= kinds[k].last() && n * kinds[k].cost() <= left; n++) {
            chosen[k] = n;
            search(k + 1, left - n * kinds[k].cost(), chosen);
        }
    }

    private double probability(int[] chosen) {
        double sum = 0;
        for (int node = 0; node < weights.length; node++) {
            double p = weights[node];
            for (int k = 0; k < kinds.length; k++) {
                p *= kinds[k].atNodes().get(node).probability(chosen[k]);
            }
            sum += p;
        }
        return sum;
    }

    /**
     * E(number of each kind | amount), with normal numbers at each node: by as much as the amount differs from the node's mean each kind's
     * number differs in proportion to cost x variance. Their cost is the amount.
     */
    private double[] mean(long amount) {
        double[][] means = new double[weights.length][];
        double[] logWeights = new double[weights.length];
        for (int node = 0; node < weights.length; node++) {
            means[node] = new double[kinds.length];
            double[] slopes = new double[kinds.length];
            double left = amount;
            // A node where nothing is left to chance is off by the unit of money at least.
            double variance = 1;
            for (int k = 0; k < kinds.length; k++) {
                CountDistribution counts = kinds[k].atNodes().get(node);
                means[node][k] = counts.mean();
                slopes[k] = kinds[k].cost() * counts.variance();
                left -= kinds[k].cost() * means[node][k];
                variance += kinds[k].cost() * slopes[k];
            }
            for (int k = 0; k < kinds.length; k++) {
                means[node][k] += slopes[k] * left / variance;
            }
            logWeights[node] = Math.log(weights[node]) - (left * left / variance + Math.log(variance)) / 2;
        }
        double greatest = Arrays.stream(logWeights).max().orElseThrow();
        double[] share = Arrays.stream(logWeights).map(log -> Math.exp(log - greatest)).toArray();
        double total = Arrays.stream(share).sum();
        return IntStream.range(0, kinds.length).mapToDouble(k -> Math.max(0,
            IntStream.range(0, share.length).mapToDouble(node -> share[node] * means[node][k]).sum() / total)).toArray();
    }
}

package org.wearledger.stats;

import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;

/**
 * What a random number of purchases of several kinds costs.
 *
 * <p>Exact while the kinds' numbers combine in at most 50,000 ways. Beyond that, what is certain is still exact, and the amount of
 * each kind beyond it is rounded to the nearest of 20,000 steps of the range.
 *
 * @param amounts in the smallest unit of money, rising
 * @param probabilities of each
 */
public record AmountDistribution(long[] amounts, double[] probabilities) {
    private static final int MOST_COMBINATIONS = 50_000;
    private static final int STEPS = 20_000;
    private static final double NEGLIGIBLE = 1e-12;

    /** The numbers of one kind that may come, with their probabilities at each node. */
    private record Kind(long cost, int first, int last, List<CountDistribution> atNodes) {
        static Kind of(long cost, List<CountDistribution> atNodes, double[] weights) {
            CountDistribution mixed = CountDistribution.mixture(weights, atNodes);
            int first = mixed.first();
            int last = first + mixed.probabilities().length - 1;
            while (first < last && mixed.probability(first) < NEGLIGIBLE) {
                first++;
            }
            while (last > first && mixed.probability(last) < NEGLIGIBLE) {
                last--;
            }
            return new Kind(cost, first, last, atNodes);
        }

        int numbers() {
            return last - first + 1;
        }

        long least() {
            return first * cost;
        }
    }

    static AmountDistribution mixture(long[] costs, List<List<CountDistribution>> countsAtNodes, double[] weights) {
        Kind[] kinds = new Kind[costs.length];
        double combinations = 1;
        long range = 0;
        long least = 0;
        for (int k = 0; k < costs.length; k++) {
            kinds[k] = Kind.of(costs[k], countsAtNodes.get(k), weights);
            combinations *= kinds[k].numbers();
            range = Math.addExact(range, Math.multiplyExact(costs[k], (long) kinds[k].last - kinds[k].first));
            least = Math.addExact(least, kinds[k].least());
        }
        long step = combinations <= MOST_COMBINATIONS ? 1 : Math.max(1, range / STEPS);
        TreeMap<Long, Double> sum = new TreeMap<>();
        for (int node = 0; node < weights.length; node++) {
            TreeMap<Long, Double> given = new TreeMap<>();
            given.put(0L, weights[node]);
            for (Kind kind : kinds) {
                given = plus(given, kind, node, step);
            }
            given.forEach((amount, p) -> sum.merge(amount, p, Double::sum));
        }
        long base = least;
        return new AmountDistribution(sum.keySet().stream().mapToLong(amount -> base + amount * step).toArray(),
            sum.values().stream().mapToDouble(Double::doubleValue).toArray());
    }

    /** Amounts beyond what is certain, in steps. */
    private static TreeMap<Long, Double> plus(TreeMap<Long, Double> amounts, Kind kind, int node, long step) {
        CountDistribution counts = kind.atNodes.get(node);
        TreeMap<Long, Double> sum = new TreeMap<>();
        for (int n = kind.first; n <= kind.last; n++) {
            double p = counts.probability(n);
            if (p >= NEGLIGIBLE) {
                long shift = Math.round((double) (n - kind.first) * kind.cost / step);
                amounts.forEach((amount, q) -> sum.merge(amount + shift, p * q, Double::sum));
            }
        }
        return sum;
    }

    public double mean() {
        double sum = 0;
        for (int i = 0; i < amounts.length; i++) {
            sum += amounts[i] * probabilities[i];
        }
        return sum;
    }

    /** The smallest amount that is not exceeded with probability p, for p between 0 and 1. */
    public long quantile(double p) {
        Checked.confidence(p);
        double total = Arrays.stream(probabilities).sum();
        double sum = 0;
        for (int i = 0; i < amounts.length; i++) {
            sum += probabilities[i];
            if (sum >= p * total - 1e-12) {
                return amounts[i];
            }
        }
        return amounts[amounts.length - 1];
    }
}

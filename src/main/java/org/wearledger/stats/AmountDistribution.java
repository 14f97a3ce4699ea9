package org.wearledger.stats;

import java.util.Arrays;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.IntStream;
import java.util.stream.LongStream;

/**
 * What a random number of purchases of several kinds costs.
 *
 * <p>Exact while the kinds' numbers combine in at most 10,000 ways. Beyond that, what is certain is still exact, and the amount of
 * each kind beyond it is rounded to the nearest of 5,000 steps of the range.
 *
 * @param amounts in the smallest unit of money, rising
 * @param probabilities of each
 */
public record AmountDistribution(long[] amounts, double[] probabilities) {
    private static final int MOST_COMBINATIONS = 10_000;
    private static final int STEPS = 5_000;
    private static final double NEGLIGIBLE = 1e-12;

    /** The numbers of one kind that may come, with their probabilities at each node. */
    record Kind(long cost, int first, int last, List<CountDistribution> atNodes) {
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

    static Kind[] kinds(long[] costs, List<List<CountDistribution>> countsAtNodes, double[] weights) {
        return IntStream.range(0, costs.length).mapToObj(k -> Kind.of(costs[k], countsAtNodes.get(k), weights)).toArray(Kind[]::new);
    }

    static boolean isExact(Kind[] kinds) {
        return Arrays.stream(kinds).mapToDouble(Kind::numbers).reduce(1, (a, b) -> a * b) <= MOST_COMBINATIONS;
    }

    static AmountDistribution mixture(Kind[] kinds, double[] weights) {
        long range = 0;
        long least = 0;
        for (Kind kind : kinds) {
            range = Math.addExact(range, Math.multiplyExact(kind.cost, (long) kind.last - kind.first));
            least = Math.addExact(least, kind.least());
        }
        return isExact(kinds) ? exactly(kinds, least, weights) : onGrid(kinds, least, Math.max(1, range / STEPS), weights);
    }

    private static AmountDistribution exactly(Kind[] kinds, long base, double[] weights) {
        TreeMap<Long, Double> sum = new TreeMap<>();
        for (int node = 0; node < weights.length; node++) {
            TreeMap<Long, Double> given = new TreeMap<>();
            given.put(base, weights[node]);
            for (Kind kind : kinds) {
                given = plus(given, kind, node);
            }
            given.forEach((amount, p) -> sum.merge(amount, p, Double::sum));
        }
        return new AmountDistribution(sum.keySet().stream().mapToLong(Long::longValue).toArray(),
            sum.values().stream().mapToDouble(Double::doubleValue).toArray());
    }

    private static TreeMap<Long, Double> plus(TreeMap<Long, Double> amounts, Kind kind, int node) {
        TreeMap<Long, Double> sum = new TreeMap<>();
        for (int n = kind.first; n <= kind.last; n++) {
            double p = kind.atNodes.get(node).probability(n);
            if (p >= NEGLIGIBLE) {
                long shift = (n - kind.first) * kind.cost;
                amounts.forEach((amount, q) -> sum.merge(amount + shift, p * q, Double::sum));
            }
        }
        return sum;
    }

    private static AmountDistribution onGrid(Kind[] kinds, long base, long step, double[] weights) {
        int size = 1;
        for (Kind kind : kinds) {
            size += steps(kind.last - kind.first, kind.cost, step);
        }
        double[] sum = new double[size];
        for (int node = 0; node < weights.length; node++) {
            double[] given = {weights[node]};
            for (Kind kind : kinds) {
                given = plus(given, kind, node, step);
            }
            for (int i = 0; i < given.length; i++) {
                sum[i] += given[i];
            }
        }
        return new AmountDistribution(LongStream.range(0, size).map(i -> base + i * step).toArray(), sum);
    }

    private static double[] plus(double[] amounts, Kind kind, int node, long step) {
        double[] sum = new double[amounts.length + steps(kind.last - kind.first, kind.cost, step)];
        for (int n = kind.first; n <= kind.last; n++) {
            double p = kind.atNodes.get(node).probability(n);
            if (p >= NEGLIGIBLE) {
                int shift = steps(n - kind.first, kind.cost, step);
                for (int i = 0; i < amounts.length; i++) {
                    sum[i + shift] += p * amounts[i];
                }
            }
        }
        return sum;
    }

    private static int steps(int count, long cost, long step) {
        return (int) Math.round((double) count * cost / step);
    }

    double mean() {
        return IntStream.range(0, amounts.length).mapToDouble(i -> amounts[i] * probabilities[i]).sum();
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

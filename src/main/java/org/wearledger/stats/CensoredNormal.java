package org.wearledger.stats;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.math3.special.Erf;
import org.wearledger.stats.RandomEffects.Estimate;

/**
 * Means of groups of normal values of which only bounds are known, with one deviation for all groups: maximum likelihood.
 *
 * <p>Each round puts in place of a value its mean, and its variance v, given its bounds (Dempster, Laird and Rubin, Journal of the Royal Statistical
 * Society B 39 (1977) 1-38). The information on a group's mean is the sum of (1 - v / sigma^2) / sigma^2 over its values (Louis, the same journal 44
 * (1982) 226-233): a value bounded on one side far away adds next to nothing.
 *
 * @param means by group, with standard errors
 * @param deviation sigma, of single values
 */
public record CensoredNormal(Map<String, Estimate> means, double deviation) {
    private static final int MOST_ROUNDS = 300;
    private static final double ACCURACY = 1e-7;
    private static final double ROOT_TWO = Math.sqrt(2);
    private static final double LEAST_PROBABILITY = 1e-300;

    /**
     * The fit; its sums go through the groups by name and through each group's values in the order given.
     *
     * @param groups none empty; low below high, infinite where open; at least one of each group's values closed on both sides
     * @param leastDeviation of single values: likelihood alone gives 0 where all bounds leave room for one value, and the error would be 0 too
     */
    public static CensoredNormal of(Map<String, List<Bounds>> groups, double leastDeviation) {
        Map<String, double[]> found = new TreeMap<>();
        groups.forEach((name, values) -> found.put(name, new double[] {start(values), 0}));
        double sigma = 0.5;
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double squares = 0;
            double moved = 0;
            int count = 0;
            for (Map.Entry<String, double[]> group : found.entrySet()) {
                List<Bounds> values = groups.get(group.getKey());
                double mean = group.getValue()[0];
                double[] sums = sums(values, mean, sigma);
                double next = mean + sums[0] / values.size();
                // Squares about the new mean, by those about the old.
                squares += sums[1] - values.size() * (next - mean) * (next - mean);
                group.getValue()[0] = next;
                group.getValue()[1] = sums[2];
                moved = Math.max(moved, Math.abs(next - mean));
                count += values.size();
            }
            double nextSigma = Math.max(leastDeviation, Math.sqrt(squares / count));
            boolean settled = moved < ACCURACY && Math.abs(nextSigma - sigma) < ACCURACY;
            sigma = nextSigma;
            if (settled) {
                break;
            }
        }
        Map<String, Estimate> means = new TreeMap<>();
        found.forEach((name, group) -> means.put(name, new Estimate(group[0], 1 / Math.sqrt(group[1]))));
        return new CensoredNormal(means, sigma);
    }

    private static double start(List<Bounds> values) {
        return values.stream().filter(each -> !Double.isInfinite(each.low()) && !Double.isInfinite(each.high()))
            .mapToDouble(each -> (each.low() + each.high()) / 2).average()
            .orElseThrow(() -> new IllegalArgumentException("a group with no value that is bounded on both sides"));
    }

    /** Of deviations from the mean, of their squares with v, and of the information. */
    private static double[] sums(List<Bounds> values, double mean, double sigma) {
        double[] sums = new double[3];
        for (Bounds value : values) {
            double low = (value.low() - mean) / sigma;
            double high = (value.high() - mean) / sigma;
            double within = Math.max(LEAST_PROBABILITY, Erf.erf(low / ROOT_TWO, high / ROOT_TWO) / 2);
            double first = Math.min(high, Math.max(low, (density(low) - density(high)) / within));
            double variance = Math.min(1, Math.max(0, 1 + (weighted(low) - weighted(high)) / within - first * first));
            sums[0] += sigma * first;
            sums[1] += sigma * sigma * (variance + first * first);
            sums[2] += (1 - variance) / (sigma * sigma);
        }
        return sums;
    }

    private static double density(double z) {
        return Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI);
    }

    private static double weighted(double z) {
        return Double.isInfinite(z) ? 0 : z * density(z);
    }
}

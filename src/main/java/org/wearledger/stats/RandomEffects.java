package org.wearledger.stats;

import java.util.Map;
import java.util.TreeMap;

/**
 * Means of several groups, drawn towards their common mean by how little is known of each.
 *
 * <p>The variance tau^2 between groups is that of DerSimonian and Laird, Controlled Clinical Trials 7 (1986) 177-188. A group's
 * mean y with variance v becomes m + B (y - m), B = tau^2 / (tau^2 + v), m the mean weighted by 1 / (tau^2 + v); its variance is
 * B v + (1 - B)^2 / sum of weights. With one group, or none apart, all are the common mean.
 *
 * @param mean of all groups
 * @param meanDeviation its standard error
 * @param between tau^2
 */
public record RandomEffects(double mean, double meanDeviation, double between) {
    /** A group's mean and its standard error. */
    public record Estimate(double mean, double deviation) {
        /** mean plus or minus 1.96 deviations. */
        public Bounds bounds95() {
            double reach = Checked.twoSidedZ(0.95) * deviation;
            return new Bounds(mean - reach, mean + reach);
        }
    }

    /**
     * Fits the variance between groups and the common mean.
     *
     * @param groups not empty, deviations above 0; their order does not matter but for rounding, so they are sorted by name
     * @throws IllegalArgumentException when a standard error is not above 0
     */
    public static RandomEffects of(Map<String, Estimate> groups) {
        double weights = 0;
        double squaredWeights = 0;
        double weighted = 0;
        double squares = 0;
        for (Estimate group : new TreeMap<>(groups).values()) {
            double weight = 1 / variance(group);
            weights += weight;
            squaredWeights += weight * weight;
            weighted += weight * group.mean;
            squares += weight * group.mean * group.mean;
        }
        double q = squares - weighted * weighted / weights;
        double between = groups.size() < 2 ? 0
            : Math.max(0, (q - (groups.size() - 1)) / (weights - squaredWeights / weights));
        double total = 0;
        double sum = 0;
        for (Estimate group : new TreeMap<>(groups).values()) {
            double weight = 1 / (between + variance(group));
            total += weight;
            sum += weight * group.mean;
        }
        return new RandomEffects(sum / total, Math.sqrt(1 / total), between);
    }

    /**
     * A group's mean drawn towards the common one, with its standard error, by the formulas above.
     *
     * @throws IllegalArgumentException when the group's standard error is not above 0
     */
    public Estimate shrunk(Estimate group) {
        double b = between == 0 ? 0 : between / (between + variance(group));
        double variance = b * variance(group) + (1 - b) * (1 - b) * meanDeviation * meanDeviation;
        return new Estimate(mean + b * (group.mean - mean), Math.sqrt(variance));
    }

    private static double variance(Estimate group) {
        return Checked.positive("deviation", group.deviation) * group.deviation;
    }
}

package org.wearledger.stats;

import java.io.Serializable;
import java.util.Collection;
import java.util.Map;
import java.util.TreeMap;

/**
 * Means of several groups, drawn towards their common mean by how little is known of each.
 *
 * <p>The variance tau^2 between groups is that of DerSimonian and Laird, Controlled Clinical Trials 7 (1986) 177-188. A group's
 * mean y with variance v becomes m + B (y - m), B = tau^2 / (tau^2 + v), m the mean weighted by 1 / (tau^2 + v); its variance is
 * B v + (1 - B)^2 / sum of weights. With one group, or none apart, all are the common mean.
 *
 * @param groups how many
 * @param mean of all groups
 * @param meanDeviation its standard error
 * @param between tau^2
 */
public record RandomEffects(int groups, double mean, double meanDeviation, double between) {
    /** A group's mean and its standard error. */
    public record Estimate(double mean, double deviation) implements Serializable {
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
        Collection<Estimate> byName = new TreeMap<>(groups).values();
        double between = between(byName.stream().mapToDouble(Estimate::mean).toArray(), byName.stream().mapToDouble(RandomEffects::variance).toArray());
        double total = 0;
        double sum = 0;
        for (Estimate group : byName) {
            double weight = 1 / (between + variance(group));
            total += weight;
            sum += weight * group.mean;
        }
        return new RandomEffects(groups.size(), sum / total, Math.sqrt(1 / total), between);
    }

    /** tau^2 by the moments of the means and their variances; 0 for fewer than two groups. */
    static double between(double[] means, double[] variances) {
        double weights = 0;
        double squaredWeights = 0;
        double weighted = 0;
        double squares = 0;
        for (int i = 0; i < means.length; i++) {
            double weight = 1 / variances[i];
            weights += weight;
            squaredWeights += weight * weight;
            weighted += weight * means[i];
            squares += weight * means[i] * means[i];
        }
        double q = squares - weighted * weighted / weights;
        return means.length < 2 ? 0 : Math.max(0, (q - (means.length - 1)) / (weights - squaredWeights / weights));
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

    /**
     * The same with what is not known of tau^2: of k groups each is drawn less, B = (k - 3) / (k - 1) x v / (tau^2 + v) of the way, and has the variance
     * v (1 - (k - 1) / k B) + 2 / (k - 3) B^2 (y - m)^2, so that an estimate of no variance between groups does not pass for certain. Three groups or
     * fewer stay as they are. Morris, "Parametric Empirical Bayes Inference: Theory and Applications", Journal of the American Statistical
     * Association 78 (1983) 47-55.
     */
    public Estimate cautious(Estimate group) {
        if (groups <= 3) {
            return group;
        }
        double k = groups;
        double v = variance(group);
        double b = (k - 3) / (k - 1) * v / (between + v);
        double off = group.mean - mean;
        return new Estimate(group.mean - b * off, Math.sqrt(v * (1 - (k - 1) / k * b) + 2 / (k - 3) * b * b * off * off));
    }

    private static double variance(Estimate group) {
        return Checked.positive("deviation", group.deviation) * group.deviation;
    }
}

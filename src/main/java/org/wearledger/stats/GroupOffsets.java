package org.wearledger.stats;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.commons.numbers.gamma.Trigamma;

/**
 * How far groups of units lie from the whole, shrunk by how little is known of each.
 *
 * <p>With r = ln(X / T) a unit's log mean rate, b = mean of r in the group less mean over all units, and se^2 =
 * [trigamma(delta0) + mean of trigamma(eta T)] / n, the variance tau^2 between groups is that of DerSimonian and Laird
 * (Controlled Clinical Trials 7 (1986) 177-188), and the offset is tau^2 / (tau^2 + se^2) x b.
 */
public final class GroupOffsets {
    private GroupOffsets() {
    }

    /** The offset of each group's log rate; 0 for all when there is one group or nothing tells them apart. */
    public static Map<String, Double> of(Map<String, List<Steps>> groups, RandomRateGamma population) {
        Map<String, double[]> estimates = new TreeMap<>();
        double sum = 0;
        long units = 0;
        for (Map.Entry<String, List<Steps>> group : groups.entrySet()) {
            double[] logs = group.getValue().stream().filter(s -> s.size() > 0)
                .mapToDouble(s -> Math.log(s.totalIncrement() / s.totalDuration())).sorted().toArray();
            if (logs.length > 0) {
                double within = group.getValue().stream().filter(s -> s.size() > 0)
                    .mapToDouble(s -> Trigamma.value(population.eta() * s.totalDuration())).sorted().average().orElseThrow();
                double total = java.util.Arrays.stream(logs).sum();
                estimates.put(group.getKey(), new double[] {total / logs.length,
                    (Trigamma.value(population.delta0()) + within) / logs.length});
                sum += total;
                units += logs.length;
            }
        }
        double mean = sum / units;
        double weights = 0;
        double squaredWeights = 0;
        double weighted = 0;
        double squares = 0;
        for (double[] estimate : estimates.values()) {
            double weight = 1 / estimate[1];
            double b = estimate[0] - mean;
            weights += weight;
            squaredWeights += weight * weight;
            weighted += weight * b;
            squares += weight * b * b;
        }
        double q = squares - weighted * weighted / weights;
        double between = estimates.size() < 2 ? 0
            : Math.max(0, (q - (estimates.size() - 1)) / (weights - squaredWeights / weights));
        Map<String, Double> offsets = new TreeMap<>();
        groups.keySet().forEach(name -> {
            double[] estimate = estimates.get(name);
            offsets.put(name, estimate == null ? 0 : between / (between + estimate[1]) * (estimate[0] - mean));
        });
        return offsets;
    }
}

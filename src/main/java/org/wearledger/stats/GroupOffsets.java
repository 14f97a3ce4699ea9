package org.wearledger.stats;

import java.util.Arrays;
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

    /** A group's mean log rate, and se^2. */
    private record Known(double[] logRates, double mean, double variance) {
        static Known of(List<Steps> units, RandomRateGamma population) {
            List<Steps> seen = units.stream().filter(unit -> unit.size() > 0).toList();
            double[] logRates = seen.stream().mapToDouble(unit -> Math.log(unit.totalIncrement() / unit.totalDuration())).sorted().toArray();
            double within = seen.stream().mapToDouble(unit -> Trigamma.value(population.eta() * unit.totalDuration())).sorted().average().orElse(Double.NaN);
            double variance = (Trigamma.value(population.delta0()) + within) / logRates.length;
            return new Known(logRates, Arrays.stream(logRates).sum() / logRates.length, variance);
        }
    }

    /** The offset of each group's log rate; 0 for all when there is one group or nothing tells them apart, and for one without steps. */
    public static Map<String, Double> of(Map<String, List<Steps>> groups, RandomRateGamma population) {
        Map<String, Known> known = new TreeMap<>();
        groups.forEach((name, units) -> known.put(name, Known.of(units, population)));
        known.values().removeIf(group -> group.logRates.length == 0);
        double sum = 0;
        long units = 0;
        for (Known group : known.values()) {
            sum += Arrays.stream(group.logRates).sum();
            units += group.logRates.length;
        }
        double mean = sum / units;
        double between = RandomEffects.between(known.values().stream().mapToDouble(group -> group.mean - mean).toArray(),
            known.values().stream().mapToDouble(Known::variance).toArray());
        Map<String, Double> offsets = new TreeMap<>();
        groups.keySet().forEach(name -> offsets.put(name, 0.0));
        known.forEach((name, group) -> offsets.put(name, between / (between + group.variance) * (group.mean - mean)));
        return offsets;
    }
}

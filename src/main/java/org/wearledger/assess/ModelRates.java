package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.Interval;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.RandomEffects;
import org.wearledger.stats.RandomEffects.Estimate;

/**
 * Wear per year of each drive model, on the logarithmic scale, drawn towards the fleet's: a model of few drives says little by
 * itself. Drives of one model scatter alike in all models, so their common deviation stands for each.
 */
final class ModelRates {
    /** A drive that wrote nothing has no logarithm; it counts as this many percent of its rating a year. */
    private static final double LEAST_PERCENT = 0.01;
    /** With too few drives to tell, a factor of about two either way. */
    private static final double DEFAULT_DEVIATION = 0.8;

    /** @param group 1 for the models that wear fastest and those that cannot be separated from the fastest, and so on */
    record Rate(double percentPerYear, Interval interval95, int group) {
        static final Rate UNKNOWN = new Rate(Double.NaN, new Interval(Double.NaN, Double.NaN), 0);
    }

    private ModelRates() {
    }

    /** @param percentPerYear of each model's drives; models without any are left out of the result */
    static Map<String, Rate> of(Map<String, double[]> percentPerYear) {
        Map<String, double[]> logs = new TreeMap<>();
        percentPerYear.forEach((model, values) -> {
            if (values.length > 0) {
                logs.put(model, Arrays.stream(values).map(v -> Math.log(Math.max(v, LEAST_PERCENT))).sorted().toArray());
            }
        });
        double deviation = deviationWithin(logs);
        Map<String, Estimate> estimates = new TreeMap<>();
        logs.forEach((model, values) -> estimates.put(model,
            new Estimate(Arrays.stream(values).average().orElseThrow(), deviation / Math.sqrt(values.length))));
        if (estimates.isEmpty()) {
            return Map.of();
        }
        RandomEffects effects = RandomEffects.of(estimates);
        Map<String, Estimate> shrunk = new TreeMap<>();
        estimates.forEach((model, estimate) -> shrunk.put(model, effects.cautious(estimate)));
        return grouped(shrunk);
    }

    private static double deviationWithin(Map<String, double[]> logs) {
        double squares = 0;
        int degrees = 0;
        for (double[] values : logs.values()) {
            double mean = Arrays.stream(values).average().orElseThrow();
            squares += Arrays.stream(values).map(v -> (v - mean) * (v - mean)).sum();
            degrees += values.length - 1;
        }
        return degrees == 0 || squares == 0 ? DEFAULT_DEVIATION : Math.sqrt(squares / degrees);
    }

    /** From the highest down, a model joins the group while its interval meets that of the group's first. */
    private static Map<String, Rate> grouped(Map<String, Estimate> shrunk) {
        List<String> highestFirst = new ArrayList<>(shrunk.keySet());
        highestFirst.sort(Comparator.comparingDouble((String model) -> -shrunk.get(model).mean()).thenComparing(Comparator.naturalOrder()));
        Map<String, Rate> rates = new HashMap<>();
        int group = 0;
        double lowOfFirst = Double.POSITIVE_INFINITY;
        for (String model : highestFirst) {
            Bounds bounds = shrunk.get(model).bounds95();
            if (bounds.high() < lowOfFirst) {
                group++;
                lowOfFirst = bounds.low();
            }
            rates.put(model, new Rate(Math.exp(shrunk.get(model).mean()),
                new Interval(Math.exp(bounds.low()), Math.exp(bounds.high())), group));
        }
        return Collections.unmodifiableMap(rates);
    }
}

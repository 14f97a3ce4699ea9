package org.wearledger.assess;

import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.wearledger.model.Interval;
import org.wearledger.model.ModelFactor;
import org.wearledger.model.Separation;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.MixedModel;
import org.wearledger.stats.RandomEffects.Estimate;

/**
 * By which factor drives of one group differ from the typical, beside what their other groups explain: a mixed model of logarithms. Effects of
 * memory and capacity are taken as the data say, those of models and sites drawn towards none.
 *
 * <p>Typical is the mean of the groups that do not stand out, each with its drives: those within 2.5 robust deviations of the median.
 */
final class AdjustedFactors {
    /** One of the ways in which drives are grouped. */
    record Grouping<T>(Separation explanation, boolean drawn, Function<T, String> name) {
    }

    /** Values are added up in these, so that their order changes no digit. */
    private static final double UNITS = 1L << 30;
    private static final int LEAST_DRIVES = 30;
    /** The work grows with the cube of their number. The others, those with the fewest drives, count as one. */
    private static final int MOST_GROUPS = 150;
    /** Of fewer it cannot be learned how far groups differ. */
    private static final int LEAST_GROUPS_DRAWN = 5;
    /** Explained is what leaves at most this part of the raw factor, in logarithms. */
    private static final double LEFT_WHEN_EXPLAINED = 0.5;
    /** In median deviations: 2.5 standard deviations of normal values. A group further off stands out. */
    private static final double NEAR = 2.5 * 1.4826;

    /** The levels of one grouping: its largest groups by name, and the level of each drive. */
    private record Levels(Separation explanation, boolean drawn, List<String> names, int size, int[] ofDrive) {
        static <T> Levels of(Grouping<T> grouping, List<T> drives) {
            List<String> ofEach = drives.stream().map(grouping.name).toList();
            Map<String, Long> counts = ofEach.stream().collect(Collectors.groupingBy(Function.identity(), HashMap::new, Collectors.counting()));
            List<String> names = counts.entrySet().stream()
                .sorted(Map.Entry.<String, Long>comparingByValue().reversed().thenComparing(Map.Entry.comparingByKey())).limit(MOST_GROUPS).map(Map.Entry::getKey).sorted().toList();
            Map<String, Integer> numbers = new HashMap<>();
            names.forEach(name -> numbers.put(name, numbers.size()));
            return new Levels(grouping.explanation, grouping.drawn, names, Math.min(counts.size(), MOST_GROUPS + 1),
                ofEach.stream().mapToInt(name -> numbers.getOrDefault(name, MOST_GROUPS)).toArray());
        }

        MixedModel.Factor factor() {
            MixedModel.Kind ofDrawn = size < LEAST_GROUPS_DRAWN ? MixedModel.Kind.VAGUE : MixedModel.Kind.DRAWN;
            return new MixedModel.Factor(drawn ? ofDrawn : MixedModel.Kind.FREE, size);
        }

        int[] counts() {
            int[] counts = new int[size];
            Arrays.stream(ofDrive).forEach(level -> counts[level]++);
            return counts;
        }
    }

    private final double[] logs;
    private final List<Levels> factors;
    private final MixedModel model;

    /** @param value of each drive, above 0 */
    <T> AdjustedFactors(List<T> drives, ToDoubleFunction<T> value, Collection<Grouping<T>> groupings) {
        logs = drives.stream().mapToDouble(drive -> Math.log(value.applyAsDouble(drive))).toArray();
        factors = groupings.stream().map(grouping -> Levels.of(grouping, drives)).filter(levels -> levels.size > 1).toList();
        model = logs.length < LEAST_DRIVES ? null : fit();
    }

    private MixedModel fit() {
        MixedModel.Sums sums = new MixedModel.Sums(factors.stream().map(Levels::factor).toList());
        for (int i = 0; i < logs.length; i++) {
            int drive = i;
            sums.add(logs[i], factors.stream().mapToInt(levels -> levels.ofDrive[drive]).toArray());
        }
        return MixedModel.fit(sums, true).orElse(null);
    }

    /** Of each group of one grouping, by name; empty when there is nothing to compare, or too few drives. */
    Map<String, ModelFactor> by(Separation explanation) {
        List<Integer> which = IntStream.range(0, factors.size()).filter(f -> factors.get(f).explanation == explanation).boxed().toList();
        Map<String, ModelFactor> found = new TreeMap<>();
        if (model == null || which.isEmpty()) {
            return found;
        }
        Levels levels = factors.get(which.get(0));
        int[] counts = levels.counts();
        double[] raw = means(logs, levels, counts);
        double[] effects = IntStream.range(0, levels.size).mapToDouble(level -> model.effect(which.get(0), level).mean()).toArray();
        double[] typicalRaw = typical(raw, counts);
        double[] typical = typical(effects, counts);
        double noise = deviationWithin(levels, raw);
        Map<Separation, double[]> explained = explained(levels, counts);
        for (int level = 0; level < levels.names.size(); level++) {
            Estimate asItStands = difference(raw, typicalRaw, counts, level, noise);
            Estimate adjusted = model.against(which.get(0), level, typical);
            found.put(levels.names.get(level), factor(counts[level], asItStands, adjusted, explanation(explained, level, asItStands.mean())));
        }
        return found;
    }

    private static ModelFactor factor(int drives, Estimate raw, Estimate adjusted, Separation explanation) {
        Bounds bounds = adjusted.bounds95();
        return new ModelFactor(drives, Math.exp(raw.mean()), Math.exp(adjusted.mean()), new Interval(Math.exp(bounds.low()), Math.exp(bounds.high())),
            separation(raw, adjusted, explanation));
    }

    private static Separation separation(Estimate raw, Estimate adjusted, Separation explanation) {
        if (adjusted.bounds95().excludesZero()) {
            return adjusted.mean() > 0 ? Separation.MORE_THAN_TYPICAL : Separation.LESS_THAN_TYPICAL;
        }
        boolean explained = raw.bounds95().excludesZero() && Math.abs(adjusted.mean()) <= LEFT_WHEN_EXPLAINED * Math.abs(raw.mean());
        return explained ? explanation : Separation.CANNOT_BE_SEPARATED;
    }

    /** What moves the group furthest in the direction in which it differs. */
    private static Separation explanation(Map<Separation, double[]> explained, int level, double raw) {
        return explained.entrySet().stream().max(Comparator.comparingDouble(each -> each.getValue()[level] * raw))
            .filter(most -> most.getValue()[level] * raw > 0).map(Map.Entry::getKey).orElse(Separation.CANNOT_BE_SEPARATED);
    }

    /** By other grouping: the mean effect over each group's drives less that over all. */
    private Map<Separation, double[]> explained(Levels levels, int[] counts) {
        Map<Separation, double[]> explained = new TreeMap<>();
        for (int f = 0; f < factors.size(); f++) {
            Levels other = factors.get(f);
            int factor = f;
            if (other != levels) {
                double[] effects = Arrays.stream(other.ofDrive).mapToDouble(level -> model.effect(factor, level).mean()).toArray();
                double[] means = means(effects, levels, counts);
                double all = IntStream.range(0, means.length).mapToDouble(level -> counts[level] * means[level]).sum() / effects.length;
                explained.put(other.explanation, Arrays.stream(means).map(mean -> mean - all).toArray());
            }
        }
        return explained;
    }

    private static double[] means(double[] values, Levels levels, int[] counts) {
        long[] sums = new long[levels.size];
        for (int i = 0; i < values.length; i++) {
            sums[levels.ofDrive[i]] += Math.round(values[i] * UNITS);
        }
        return IntStream.range(0, sums.length).mapToDouble(level -> sums[level] / UNITS / counts[level]).toArray();
    }

    private double deviationWithin(Levels levels, double[] means) {
        long squares = 0;
        for (int i = 0; i < logs.length; i++) {
            double off = logs[i] - means[levels.ofDrive[i]];
            squares += Math.round(off * off * UNITS);
        }
        return Math.sqrt(squares / UNITS / Math.max(1, logs.length - levels.size));
    }

    private static Estimate difference(double[] means, double[] weights, int[] counts, int level, double noise) {
        double mean = means[level];
        double variance = 0;
        for (int i = 0; i < means.length; i++) {
            mean -= weights[i] * means[i];
            double weight = (i == level ? 1 : 0) - weights[i];
            variance += weight * weight / counts[i];
        }
        return new Estimate(mean, noise * Math.sqrt(variance));
    }

    /** The weight of each group in what is typical: its share of the drives among the groups near their median. */
    private static double[] typical(double[] values, int[] counts) {
        double median = median(values, counts);
        double reach = NEAR * median(Arrays.stream(values).map(value -> Math.abs(value - median)).toArray(), counts);
        double[] weights = IntStream.range(0, values.length).mapToDouble(i -> Math.abs(values[i] - median) <= reach ? counts[i] : 0).toArray();
        double all = Arrays.stream(weights).sum();
        return Arrays.stream(weights).map(weight -> weight / all).toArray();
    }

    /** Half of the drives, or more, are in groups of this value or less. */
    private static double median(double[] values, int[] counts) {
        int half = (Arrays.stream(counts).sum() + 1) / 2;
        int before = 0;
        for (int level : IntStream.range(0, values.length).boxed().sorted(Comparator.comparingDouble(i -> values[i])).toList()) {
            before += counts[level];
            if (before >= half) {
                return values[level];
            }
        }
        throw new IllegalArgumentException("no groups");
    }
}

package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.BacktestReport.Coverage;
import org.wearledger.model.BacktestReport.PitBin;
import org.wearledger.model.BacktestReport.Reliability;
import org.wearledger.model.BacktestReport.Score;
import org.wearledger.model.BacktestReport;
import org.wearledger.model.Interval;
import org.wearledger.stats.Bounds;
import org.wearledger.stats.Quartiles;
import org.wearledger.stats.Scores;

/** Counts and scores a backtest's cases, by method and horizon. */
public final class BacktestSummary {
    private static final double[] LEVELS = {0.5, 0.8, 0.9};
    private static final int RESAMPLES = 1_000;
    private static final int TENTHS = 10;

    private BacktestSummary() {
    }

    /**
     * Counts at 50, 80 and 90 %; the interval of a share comes from 1,000 resamplings of whole sweeps, since drives of one sweep share
     * its shocks. No case gives a report of 0 origins and empty lists.
     *
     * @param seed of the resampling of sweeps
     */
    public static BacktestReport of(List<BacktestCase> cases, long seed) {
        TreeMap<Integer, TreeMap<BacktestCase.Method, List<BacktestCase>>> groups = cases.stream().collect(Collectors.groupingBy(
            BacktestCase::horizonQuarters, TreeMap::new, Collectors.groupingBy(BacktestCase::method, TreeMap::new, Collectors.toList())));
        List<Coverage> coverages = new ArrayList<>();
        List<Score> scores = new ArrayList<>();
        List<PitBin> pitBins = new ArrayList<>();
        List<Reliability> reliabilities = new ArrayList<>();
        groups.forEach((horizon, methods) -> methods.forEach((method, group) -> {
            for (double level : LEVELS) {
                coverages.add(coverage(method, horizon, level, group, seed));
            }
            scores.add(score(method, horizon, group));
            for (int tenth = 0; tenth < TENTHS; tenth++) {
                int t = tenth;
                pitBins.add(new PitBin(method, horizon, t, (int) group.stream().filter(c -> tenth(c.pit()) == t).count()));
            }
            reliabilities.addAll(reliabilities(method, horizon, group));
        }));
        int[] origins = cases.stream().mapToInt(BacktestCase::originQuarter).distinct().sorted().toArray();
        return new BacktestReport(origins.length, origins.length == 0 ? "" : quarter(origins[0]),
            origins.length == 0 ? "" : quarter(origins[origins.length - 1]), coverages, scores, pitBins, reliabilities);
    }

    private static String quarter(int number) {
        return String.format(Locale.ROOT, "%d-Q%d", number / 4, number % 4 + 1);
    }

    private static int tenth(double share) {
        return Math.min(TENTHS - 1, (int) (share * TENTHS));
    }

    private static Coverage coverage(BacktestCase.Method method, int horizon, double level, List<BacktestCase> group, long seed) {
        int slower = (int) group.stream().filter(c -> c.wasSlower(level)).count();
        int faster = (int) group.stream().filter(c -> c.wasFaster(level)).count();
        return new Coverage(method, horizon, level, group.size(), group.size() - slower - faster, slower, faster,
            bySweeps(group, level, seed));
    }

    /**
     * The middle 95 % of the coverage when whole sweeps are drawn with replacement: drives of one sweep share what happened
     * after it, so that they are no independent trials.
     */
    private static Interval bySweeps(List<BacktestCase> group, double level, long seed) {
        Map<Integer, int[]> counts = new TreeMap<>();
        for (BacktestCase c : group) {
            int[] count = counts.computeIfAbsent(c.originQuarter(), k -> new int[2]);
            count[0] += c.isWithin(level) ? 1 : 0;
            count[1]++;
        }
        if (counts.size() < 2) {
            return null;
        }
        int[][] sweeps = counts.values().toArray(int[][]::new);
        SplittableRandom random = new SplittableRandom(seed);
        double[] shares = new double[RESAMPLES];
        for (int r = 0; r < RESAMPLES; r++) {
            long contained = 0;
            long all = 0;
            for (int k = 0; k < sweeps.length; k++) {
                int[] drawn = sweeps[random.nextInt(sweeps.length)];
                contained += drawn[0];
                all += drawn[1];
            }
            shares[r] = contained / (double) all;
        }
        return new Interval(Quartiles.quantile(0.025, shares), Quartiles.quantile(0.975, shares));
    }

    private static Score score(BacktestCase.Method method, int horizon, List<BacktestCase> group) {
        List<BacktestCase> below = group.stream().filter(BacktestCase::wasBelow).toList();
        return new Score(method, horizon, group.size(), mean(group.stream().mapToDouble(BacktestCase::pit).toArray()),
            100 * mean(group.stream().mapToDouble(BacktestCase::crps).toArray()), below.size(),
            (int) below.stream().filter(BacktestCase::crossed).count(),
            below.stream().mapToDouble(BacktestCase::crossingProbability).sum(),
            mean(below.stream().mapToDouble(c -> Math.pow(c.crossingProbability() - (c.crossed() ? 1 : 0), 2)).toArray()));
    }

    private static double mean(double[] values) {
        return values.length == 0 ? Double.NaN : Arrays.stream(values).sum() / values.length;
    }

    private static List<Reliability> reliabilities(BacktestCase.Method method, int horizon, List<BacktestCase> group) {
        TreeMap<Integer, List<BacktestCase>> tenths = group.stream().filter(BacktestCase::wasBelow)
            .collect(Collectors.groupingBy(c -> tenth(c.crossingProbability()), TreeMap::new, Collectors.toList()));
        List<Reliability> rows = new ArrayList<>();
        tenths.forEach((tenth, own) -> {
            int crossed = (int) own.stream().filter(BacktestCase::crossed).count();
            Bounds bounds = Scores.clopperPearson(crossed, own.size(), 0.95);
            rows.add(new Reliability(method, horizon, tenth, own.size(),
                mean(own.stream().mapToDouble(BacktestCase::crossingProbability).toArray()), crossed,
                new Interval(bounds.low(), bounds.high())));
        });
        return rows;
    }
}

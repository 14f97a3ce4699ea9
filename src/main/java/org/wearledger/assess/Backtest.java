package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.BacktestCase;
import org.wearledger.model.Calibration;
import org.wearledger.stats.GammaProcess;
import org.wearledger.stats.RateBelief;
import org.wearledger.stats.Scores;
import org.wearledger.stats.Steps;

/**
 * Forecasts from each past sweep, with that sweep's knowledge only, held against what came. The fleet is fitted anew at
 * each origin from readings up to it; drives are not drawn at random, since that would let a shock common to all leak from
 * the future into the past.
 */
public final class Backtest {
    /** The horizons, in quarters. */
    public static final List<Integer> HORIZONS = List.of(1, 2, 4, 8);
    private static final int LEAST_QUARTERS_BEFORE = 2;
    private static final double LEAST_DEVIATION = 1e-9;

    private Backtest() {
    }

    /** One reading a calendar quarter, the last; by quarter number (4 x year + quarter). */
    private record Sampled(WearPast past, TreeMap<Integer, Integer> readingByQuarter) {
        static Sampled of(WearPast past) {
            TreeMap<Integer, Integer> byQuarter = new TreeMap<>();
            for (int i = 0; i < past.atMillis().length; i++) {
                LocalDate on = LocalDate.ofInstant(Instant.ofEpochMilli(past.atMillis()[i]), ZoneOffset.UTC);
                byQuarter.put(4 * on.getYear() + (on.getMonthValue() - 1) / 3, i);
            }
            return new Sampled(past, byQuarter);
        }
    }

    /** Every forecast that can be held against a reading, by origin, drive, horizon and method. */
    public static List<BacktestCase> run(Collection<WearPast> fleet, Collection<Integer> horizons) {
        List<Sampled> drives = fleet.stream().sorted(Comparator.comparing(WearPast::id)).map(Sampled::of).toList();
        TreeSet<Integer> quarters = new TreeSet<>();
        drives.forEach(drive -> quarters.addAll(drive.readingByQuarter.keySet()));
        List<BacktestCase> cases = new ArrayList<>();
        for (int origin : quarters) {
            if (quarters.headSet(origin, true).size() >= LEAST_QUARTERS_BEFORE && quarters.higher(origin) != null) {
                addOrigin(origin, drives, horizons, cases);
            }
        }
        return cases;
    }

    /** How many of the pooled model's 90 % intervals, one quarter ahead, held; all 0 with too few sweeps. */
    public static Calibration calibration(Collection<WearPast> fleet) {
        List<BacktestCase> cases = run(fleet, List.of(1)).stream().filter(c -> c.method() == BacktestCase.Method.POOLED).toList();
        return new Calibration((int) cases.stream().mapToInt(BacktestCase::originQuarter).distinct().count(), cases.size(),
            cases.stream().filter(c -> c.isWithin(0.9)).count());
    }

    private static void addOrigin(int origin, List<Sampled> drives, Collection<Integer> horizons, List<BacktestCase> cases) {
        List<DriveSteps> known = new ArrayList<>();
        for (Sampled drive : drives) {
            Map.Entry<Integer, Integer> last = drive.readingByQuarter.floorEntry(origin);
            if (last != null) {
                known.add(drive.past.asOf(last.getValue() + 1));
            }
        }
        WearModel model = WearModel.fit(known);
        double variation = variation(known);
        for (Sampled drive : drives) {
            Integer base = drive.readingByQuarter.get(origin);
            if (base == null) {
                continue;
            }
            Steps steps = drive.past.steps(base + 1);
            for (int horizon : horizons) {
                Integer target = drive.readingByQuarter.get(origin + horizon);
                if (target != null) {
                    addCases(model, variation, drive.past, steps, base, target, origin, horizon, cases);
                }
            }
        }
    }

    private static void addCases(WearModel model, double variation, WearPast past, Steps steps, int base, int target, int origin,
                                 int horizon, List<BacktestCase> cases) {
        double quarters = WearPast.quarters(past.atMillis()[base], past.atMillis()[target]);
        double came = Math.max(past.wear()[target] - past.wear()[base], past.leastIncrement());
        double remaining = 1 - past.wear()[base];
        boolean below = remaining > 0;
        boolean crossed = past.wear()[target] >= 1;
        RateBelief ahead = model.drift().ahead(model.beliefAfter(past.id().model(), steps), quarters);
        double eta = model.population().eta();
        cases.add(new BacktestCase(BacktestCase.Method.POOLED, origin, horizon, ahead.cdf(eta, quarters, came),
            ahead.crps(eta, quarters, came), below, below ? ahead.probabilityOfReaching(eta, quarters, remaining) : 1, crossed));
        if (steps.size() == 0) {
            return;
        }
        GammaProcess alone = GammaProcess.byMoments(steps);
        cases.add(new BacktestCase(BacktestCase.Method.DRIVE_ALONE, origin, horizon, alone.cdf(quarters, came),
            Scores.crpsOfGamma(alone.shapePerTime() * quarters, alone.rate(), came), below,
            alone.probabilityOfReaching(quarters, remaining), crossed));
        double mean = steps.totalIncrement() / steps.totalDuration() * quarters;
        double deviation = Math.max(LEAST_DEVIATION, variation * mean / Math.sqrt(quarters));
        cases.add(new BacktestCase(BacktestCase.Method.LIFETIME_AVERAGE, origin, horizon, Scores.normalCdf(mean, deviation, came),
            Scores.crpsOfNormal(mean, deviation, came), below, 1 - Scores.normalCdf(mean, deviation, remaining), crossed));
    }

    /** Coefficient of variation of a quarter's increment about its drive's mean, over all known steps. */
    private static double variation(List<DriveSteps> known) {
        double[] squares = known.stream().map(DriveSteps::steps).filter(steps -> steps.size() >= 2).flatMapToDouble(steps -> {
            double rate = steps.totalIncrement() / steps.totalDuration();
            return Arrays.stream(java.util.stream.IntStream.range(0, steps.size()).mapToDouble(j ->
                Math.pow(steps.increments()[j] / rate - steps.durations()[j], 2) / steps.durations()[j]).toArray());
        }).sorted().toArray();
        return squares.length == 0 ? 1 : Math.sqrt(Arrays.stream(squares).sum() / squares.length);
    }
}

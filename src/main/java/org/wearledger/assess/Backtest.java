package org.wearledger.assess;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.wearledger.model.BacktestCase;
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

    /** One reading a calendar quarter, the last; by number of the {@linkplain WearPast#calendarQuarter quarter}. */
    record Sampled(WearPast past, TreeMap<Integer, Integer> readingByQuarter) {
        static Sampled of(WearPast past) {
            TreeMap<Integer, Integer> byQuarter = new TreeMap<>();
            for (int i = 0; i < past.atMillis().length; i++) {
                byQuarter.put(WearPast.calendarQuarter(past.atMillis()[i]), i);
            }
            return new Sampled(past, byQuarter);
        }
    }

    /** What was known at one past sweep. */
    record Origin(int quarter, WearModel model, double variation) {
        static Origin of(int quarter, List<Sampled> drives) {
            List<WearPast> known = new ArrayList<>();
            for (Sampled drive : drives) {
                Map.Entry<Integer, Integer> last = drive.readingByQuarter.floorEntry(quarter);
                if (last != null) {
                    known.add(drive.past.upTo(last.getValue() + 1));
                }
            }
            return new Origin(quarter, WearModel.of(known), Backtest.variation(known.stream().map(WearPast::asOfNow).toList()));
        }

        /** One drive's readings at this sweep and {@code horizon} quarters on, by their numbers; empty when either is missing. */
        Optional<Meeting> meeting(Sampled drive, int horizon) {
            Integer base = drive.readingByQuarter.get(quarter);
            Integer target = drive.readingByQuarter.get(quarter + horizon);
            return base == null || target == null ? Optional.empty() : Optional.of(new Meeting(this, drive.past, base, target, horizon));
        }
    }

    /** A forecast and the later reading that it meets. */
    record Meeting(Origin origin, WearPast past, int base, int target, int horizon) {
        double quarters() {
            return WearPast.quarters(past.atMillis()[base], past.atMillis()[target]);
        }

        private double came() {
            return Math.max(past.wear()[target] - past.wear()[base], past.leastIncrement());
        }

        private Steps steps() {
            return past.steps(base + 1);
        }

        private RateBelief ahead() {
            WearModel model = origin.model;
            long at = past.atMillis()[base];
            return model.drift().ahead(UserChanges.beliefAfter(model, past, steps(), at, at), quarters());
        }

        /** The pooled model's distribution function at what came. */
        double pit() {
            return ahead().cdf(origin.model.population().eta(), quarters(), came());
        }

        /** By every method that can forecast from so many steps. */
        List<BacktestCase> cases() {
            double quarters = quarters();
            double came = came();
            double remaining = 1 - past.wear()[base];
            boolean below = remaining > 0;
            boolean crossed = past.wear()[target] >= 1;
            RateBelief ahead = ahead();
            double eta = origin.model.population().eta();
            BacktestCase pooled = new BacktestCase(BacktestCase.Method.POOLED, origin.quarter, horizon, ahead.cdf(eta, quarters, came),
                ahead.crps(eta, quarters, came), below, below ? ahead.probabilityOfReaching(eta, quarters, remaining) : 1, crossed);
            Steps steps = steps();
            if (steps.size() == 0) {
                return List.of(pooled);
            }
            GammaProcess alone = GammaProcess.byMoments(steps);
            double mean = steps.totalIncrement() / steps.totalDuration() * quarters;
            double deviation = Math.max(LEAST_DEVIATION, origin.variation * mean / Math.sqrt(quarters));
            return List.of(pooled,
                new BacktestCase(BacktestCase.Method.DRIVE_ALONE, origin.quarter, horizon, alone.cdf(quarters, came),
                    Scores.crpsOfGamma(alone.shapePerTime() * quarters, alone.rate(), came), below,
                    alone.probabilityOfReaching(quarters, remaining), crossed),
                new BacktestCase(BacktestCase.Method.LIFETIME_AVERAGE, origin.quarter, horizon, Scores.normalCdf(mean, deviation, came),
                    Scores.crpsOfNormal(mean, deviation, came), below, 1 - Scores.normalCdf(mean, deviation, remaining), crossed));
        }
    }

    /** Every forecast that can be held against a reading, by origin, drive, horizon and method. */
    public static List<BacktestCase> run(Collection<WearPast> fleet, Collection<Integer> horizons) {
        return meetings(fleet, horizons).parallelStream().flatMap(meeting -> meeting.cases().stream()).toList();
    }

    static List<Meeting> meetings(Collection<WearPast> fleet, Collection<Integer> horizons) {
        List<Sampled> drives = fleet.stream().sorted(Comparator.comparing(WearPast::id)).map(Sampled::of).toList();
        TreeSet<Integer> quarters = new TreeSet<>();
        drives.forEach(drive -> quarters.addAll(drive.readingByQuarter.keySet()));
        List<Integer> origins = quarters.stream()
            .filter(quarter -> quarters.headSet(quarter, true).size() >= LEAST_QUARTERS_BEFORE && quarters.higher(quarter) != null).toList();
        return origins.parallelStream().map(quarter -> Origin.of(quarter, drives)).flatMap(origin -> drives.stream()
            .flatMap(drive -> horizons.stream().map(horizon -> origin.meeting(drive, horizon)).flatMap(Optional::stream))).toList();
    }

    /** Coefficient of variation of a quarter's increment about its drive's mean, over all known steps. */
    private static double variation(List<DriveSteps> known) {
        double[] squares = known.stream().map(DriveSteps::steps).filter(steps -> steps.size() >= 2).flatMapToDouble(steps -> {
            double rate = steps.totalIncrement() / steps.totalDuration();
            return IntStream.range(0, steps.size()).mapToDouble(j -> Math.pow(steps.increments()[j] / rate - steps.durations()[j], 2) / steps.durations()[j]);
        }).sorted().toArray();
        return squares.length == 0 ? 1 : Math.sqrt(Arrays.stream(squares).sum() / squares.length);
    }
}

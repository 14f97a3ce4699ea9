package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What a backtest found.
 *
 * @param origins sweeps that were forecast from
 * @param firstOrigin as {@code 2024-Q1}; empty when there is none, as is {@code lastOrigin}
 */
public record BacktestReport(int origins, String firstOrigin, String lastOrigin, List<Coverage> coverages,
                             List<Score> scores, List<PitBin> pitBins, List<Reliability> reliabilities) implements Serializable {
    /** With fewer sweeps to forecast from, the spread between sweeps looks like a fault of the method. */
    public static final int LEAST_ORIGINS = 6;

    public BacktestReport {
        coverages = List.copyOf(coverages);
        scores = List.copyOf(scores);
        pitBins = List.copyOf(pitBins);
        reliabilities = List.copyOf(reliabilities);
    }

    /** Whether there are enough sweeps to forecast from to call the shares a property of the method. */
    public boolean isEstablished() {
        return origins >= LEAST_ORIGINS;
    }

    /**
     * How often the central interval of a level held.
     *
     * @param level 0 to 1, such as 0.9
     * @param slower forecasts where the drive wore less than the interval's lower end
     * @param faster where it wore more than the upper end: the costly miss
     * @param coverage95 95 % interval of the share contained, from drawing the sweeps anew; {@code null} with one sweep
     */
    public record Coverage(BacktestCase.Method method, int horizonQuarters, double level, int forecasts, int contained,
                           int slower, int faster, Interval coverage95) implements Serializable {
        /** contained / forecasts, 0 to 1. There is at least one forecast in each line. */
        public double share() {
            return contained / (double) forecasts;
        }
    }

    /**
     * How far forecasts were off, and how many crossings they foretold.
     *
     * @param meanPit mean of the forecast's distribution function at what came, 0.5 if right
     * @param meanCrpsPercent mean continuous ranked probability score, in percent of the rated endurance
     * @param crossingForecasts forecasts for drives that were below their rating
     * @param crossings how many of those crossed it
     * @param expectedCrossings the sum of their probabilities
     * @param brier mean squared difference of probability and outcome; {@code NaN} without such forecasts
     */
    public record Score(BacktestCase.Method method, int horizonQuarters, int forecasts, double meanPit, double meanCrpsPercent,
                        int crossingForecasts, int crossings, double expectedCrossings, double brier) implements Serializable {
    }

    /**
     * Forecasts whose distribution function at what came lies in a tenth of 0 to 1; a tenth of all if they are right.
     *
     * @param tenth 0 to 9, the one from tenth / 10 on
     */
    public record PitBin(BacktestCase.Method method, int horizonQuarters, int tenth, int forecasts) implements Serializable {
        /** The tenth in numbers, such as {@code 0.3 to 0.4}. */
        public String label() {
            return String.format(java.util.Locale.ROOT, "%.1f to %.1f", tenth / 10.0, (tenth + 1) / 10.0);
        }
    }

    /**
     * Forecasts whose crossing probability lies in one tenth of 0 to 1.
     *
     * @param tenth 0 to 9, the one from tenth / 10 on
     * @param meanProbability of the stated ones, 0 to 1
     * @param crossed how many were past the rating at the horizon
     * @param crossed95 exact 95 % interval of the share that crossed, as if drives were independent
     */
    public record Reliability(BacktestCase.Method method, int horizonQuarters, int tenth, int forecasts, double meanProbability,
                              int crossed, Interval crossed95) implements Serializable {
    }
}

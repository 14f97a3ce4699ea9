package org.wearledger.model;

import java.io.Serializable;
import java.util.List;
import java.util.OptionalDouble;

/**
 * How the 90 % ranges of forecasts fared on the fleet's own past.
 *
 * @param checks one for each measure and horizon, in their order; of a measure that could not be checked at all there is none
 */
public record Calibration(List<Check> checks) implements Serializable {
    /** With fewer sweeps to forecast from, one odd quarter would pass for a property of the method: no share is given. */
    public static final int LEAST_ORIGINS_TOLD = 3;
    /** A share of fewer ranges says little of one sweep. */
    private static final int LEAST_RANGES_OF_A_SWEEP = 20;
    private static final double LEAST_SHARE = 0.85;
    private static final double LEAST_SHARE_OF_A_SWEEP = 0.70;
    private static final double WIDE_SHARE = 0.95;

    public Calibration {
        checks = List.copyOf(checks);
    }

    /** What was forecast. */
    public enum Measure {
        /** Host writes against the rating. */
        WRITES,
        /** The controller's own percentage. */
        CONTROLLER
    }

    /**
     * One past sweep, as forecast from.
     *
     * @param ranges how many met a later reading, at least one
     * @param held how many of those contained it
     */
    public record Origin(long ranges, long held) implements Serializable {
        /** held / ranges. */
        public double share() {
            return held / (double) ranges;
        }
    }

    /**
     * One measure over one horizon.
     *
     * @param origins by quarter, none twice
     */
    public record Check(Measure measure, int quarters, List<Origin> origins) implements Serializable {
        public Check {
            origins = List.copyOf(origins);
        }

        /** Of all sweeps. */
        public long ranges() {
            return origins.stream().mapToLong(Origin::ranges).sum();
        }

        /** Of all sweeps. */
        public long held() {
            return origins.stream().mapToLong(Origin::held).sum();
        }

        /** held / ranges of all sweeps; {@code NaN} without any. */
        public double share() {
            return held() / (double) ranges();
        }

        /** The lowest share of a single sweep, of those of 20 ranges or more; empty when there is none. */
        public OptionalDouble leastShare() {
            return origins.stream().filter(origin -> origin.ranges >= LEAST_RANGES_OF_A_SWEEP).mapToDouble(Origin::share).min();
        }

        /** Whether {@link #LEAST_ORIGINS_TOLD} sweeps could be forecast from. */
        public boolean isTold() {
            return origins.size() >= LEAST_ORIGINS_TOLD;
        }

        /** As in a backtest, from {@link BacktestReport#LEAST_ORIGINS} sweeps on. */
        public boolean isEstablished() {
            return origins.size() >= BacktestReport.LEAST_ORIGINS;
        }

        /** At least 85 % held, and at least 70 % after each single sweep: drives of one sweep miss together. */
        public boolean holds() {
            return share() >= LEAST_SHARE && leastShare().orElse(1) >= LEAST_SHARE_OF_A_SWEEP;
        }

        /** More than 95 % held. */
        public boolean isWide() {
            return share() > WIDE_SHARE;
        }
    }
}

package org.wearledger.model;

import java.io.Serializable;

/**
 * How the 90 % intervals of forecasts one quarter ahead fared on the fleet's own past.
 *
 * @param origins how many sweeps were forecast from
 * @param intervals how many intervals met a later reading
 * @param contained how many of those contained it
 */
public record Calibration(int origins, long intervals, long contained) implements Serializable {
    /** With fewer sweeps to forecast from, one odd quarter would pass for a property of the method: no share is told. */
    public static final int LEAST_ORIGINS_TOLD = 3;

    /** Whether {@link #LEAST_ORIGINS_TOLD} sweeps could be forecast from and at least one interval met a later reading. */
    public boolean isTold() {
        return origins >= LEAST_ORIGINS_TOLD && intervals > 0;
    }

    /** As in a backtest, from {@link BacktestReport#LEAST_ORIGINS} sweeps on. */
    public boolean isEstablished() {
        return origins >= BacktestReport.LEAST_ORIGINS && isTold();
    }
}

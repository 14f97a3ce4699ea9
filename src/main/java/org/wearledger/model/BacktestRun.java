package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * A backtest with what it rests on.
 *
 * @param drives with a history of bytes written and a rating
 * @param drivesForecast how many of them were drawn for it
 * @param problems in {@link Problem}'s order
 */
public record BacktestRun(String version, Accounting accounting, long drives, int drivesForecast, BacktestReport report,
                          List<Problem> problems) implements Serializable {
    public BacktestRun {
        problems = List.copyOf(problems);
    }
}

package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * The fleet in one calendar quarter, by the latest reading of each drive up to the quarter's end.
 *
 * @param from first day of the quarter
 * @param drives how many have a consumed endurance
 * @param medianConsumedPercent of these; {@code null} for none
 * @param ninetiethConsumedPercent their 90th percentile: a tenth of the drives has consumed more; {@code null} for none
 * @param machinesPastRating with a drive at 100 % or more by host writes or by the controller, urgent ones too
 */
public record TrendQuarter(LocalDate from, long drives, Double medianConsumedPercent, Double ninetiethConsumedPercent, int machinesPastRating) implements Serializable {
    private static final int MONTHS = 3;

    /** The last day of the quarter. */
    public LocalDate until() {
        return from.plusMonths(MONTHS).minusDays(1);
    }
}

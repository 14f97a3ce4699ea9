package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * What a user may set of the assessment.
 *
 * @param asOf date of the assessment, {@code null} for the latest report's date (UTC)
 * @param leadTimeDays from order to installed replacement; {@code due} is lead time + one quarter
 * @param recentDays a machine whose latest report is older than this at the as-of date is "not reported this sweep"
 */
public record SweepSettings(LocalDate asOf, int leadTimeDays, int recentDays) implements Serializable {
    /** Days in a quarter of a mean Gregorian year: 365.25 / 4. */
    public static final double DAYS_PER_QUARTER = 91.3125;

    public static SweepSettings withDefaults() {
        return new SweepSettings(null, 30, 45);
    }
}

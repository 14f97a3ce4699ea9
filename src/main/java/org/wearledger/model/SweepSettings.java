package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * What a user may set of the assessment.
 *
 * @param asOf date of the assessment, {@code null} for the latest report's date (UTC)
 * @param leadTimeDays from order to delivery; {@code due} looks at lead time + one quarter
 * @param recentDays a machine whose latest report is older than this at the as-of date is "not reported this sweep"
 * @param method what {@code due} and {@code watch} rest on
 * @param dueProbability least probability of crossing within lead time + one quarter that makes a drive {@code due}
 * @param watchProbability least probability of crossing within four quarters that makes a drive {@code watch}
 * @param ownership of each machine of which the inventory does not say it
 */
public record SweepSettings(LocalDate asOf, int leadTimeDays, int recentDays, ProjectionMethod method,
                            double dueProbability, double watchProbability, Ownership ownership) implements Serializable {
    /** Days in a quarter of a mean Gregorian year: 365.25 / 4. */
    public static final double DAYS_PER_QUARTER = 91.3125;

    /**
     * The latest report's date, 30 days of lead time, 45 days to count as reported, pooled forecasts, due at 50 %,
     * watch at 10 %, own machines.
     */
    public static SweepSettings withDefaults() {
        return new SweepSettings(null, 30, 45, ProjectionMethod.POOLED, 0.5, 0.1, Ownership.OWN);
    }

    /** The same with another method of projection. */
    public SweepSettings with(ProjectionMethod other) {
        return new SweepSettings(asOf, leadTimeDays, recentDays, other, dueProbability, watchProbability, ownership);
    }

    /** The same with the date of the assessment settled. */
    public SweepSettings withAsOf(LocalDate date) {
        return new SweepSettings(date, leadTimeDays, recentDays, method, dueProbability, watchProbability, ownership);
    }
}

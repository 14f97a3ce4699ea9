package org.wearledger.assess;

import java.io.Serializable;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.Steps;

/**
 * A drive's wear over time, in fractions of its rated endurance, and the increments the fleet's model learns from.
 *
 * <p>The first step reaches from the in-service date to the first reading, when that date is the drive's. A missed sweep
 * makes the next step longer. Readings less than a day apart are one. After a reset the totals go on, so no step is
 * negative; one without writes counts half a data unit, the counter's resolution.
 *
 * @param startMillis when the drive went into service, {@code null} when unknown
 * @param atMillis times of the readings, rising, at least a day apart
 * @param wear total written / rated at each
 * @param leastIncrement half a data unit in the same fractions
 * @param powerOnQuarters of the first reading, 0 when not reported: a lower bound of the drive's age
 * @param userChanges when the machine got a new user, rising
 */
public record WearPast(DriveId id, Long startMillis, long[] atMillis, double[] wear, double leastIncrement,
                       double powerOnQuarters, long... userChanges) implements Serializable {
    static final double MILLIS_PER_QUARTER = SweepSettings.DAYS_PER_QUARTER * 86_400_000;
    private static final double HOURS_PER_QUARTER = SweepSettings.DAYS_PER_QUARTER * 24;
    private static final double LEAST_QUARTERS = 1 / SweepSettings.DAYS_PER_QUARTER;
    private static final BigInteger HALF_DATA_UNIT = BigInteger.valueOf(256_000);

    /** {@code null} when no bytes are reported or no rating is known. */
    static WearPast of(DriveHistory history, Endurance endurance, LocalDate startOfService) {
        List<HistoryPoint> written = history.points().stream().filter(p -> p.totalBytesWritten() != null).toList();
        if (written.isEmpty() || endurance == null) {
            return null;
        }
        BigDecimal ratedBytes = endurance.ratedTerabytesWritten().movePointRight(12);
        List<HistoryPoint> apart = new ArrayList<>();
        for (HistoryPoint point : written) {
            if (apart.isEmpty() || quarters(at(apart.get(apart.size() - 1)), at(point)) >= LEAST_QUARTERS) {
                apart.add(point);
            }
        }
        Instant start = startOfService == null ? null : startOfService.atStartOfDay(ZoneOffset.UTC).toInstant();
        boolean known = start != null && quarters(start.toEpochMilli(), at(apart.get(0))) >= LEAST_QUARTERS;
        BigInteger hours = apart.get(0).reading().health().powerOnHours();
        return new WearPast(history.id(), known ? start.toEpochMilli() : null,
            apart.stream().mapToLong(WearPast::at).toArray(),
            apart.stream().mapToDouble(p -> p.totalBytesWritten().doubleValue() / ratedBytes.doubleValue()).toArray(),
            HALF_DATA_UNIT.doubleValue() / ratedBytes.doubleValue(), hours == null ? 0 : hours.doubleValue() / HOURS_PER_QUARTER,
            UserChanges.millis(history));
    }

    static double quarters(long fromMillis, long toMillis) {
        return (toMillis - fromMillis) / MILLIS_PER_QUARTER;
    }

    private static long at(HistoryPoint point) {
        return point.reading().collectedAt().toEpochMilli();
    }

    /** The increments up to and including the first {@code readings} readings, of which there is at least one. */
    Steps steps(int readings) {
        int offset = startMillis == null ? 0 : 1;
        double[] durations = new double[readings - 1 + offset];
        double[] increments = new double[readings - 1 + offset];
        if (startMillis != null) {
            durations[0] = quarters(startMillis, atMillis[0]);
            increments[0] = Math.max(wear[0], leastIncrement);
        }
        for (int i = 1; i < readings; i++) {
            durations[i - 1 + offset] = quarters(atMillis[i - 1], atMillis[i]);
            increments[i - 1 + offset] = Math.max(wear[i] - wear[i - 1], leastIncrement);
        }
        return new Steps(durations, increments);
    }

    Steps steps() {
        return steps(atMillis.length);
    }

    /** The drive as one of a fleet to be fitted, by its first {@code readings} readings. */
    DriveSteps asOf(int readings) {
        return new DriveSteps(id, steps(readings));
    }

    /** As one of a fleet, by all its readings. */
    public DriveSteps asOfNow() {
        return asOf(atMillis.length);
    }

    /** The age is known by nothing but the power-on hours. */
    boolean isAgeInferred() {
        return startMillis == null && atMillis.length == 1 && powerOnQuarters >= LEAST_QUARTERS;
    }

    /** As {@link #steps()}; a single reading without an in-service date is taken over its power-on hours. */
    Steps stepsForForecast() {
        return isAgeInferred() ? new Steps(new double[] {powerOnQuarters}, new double[] {Math.max(wear[0], leastIncrement)}) : steps();
    }
}

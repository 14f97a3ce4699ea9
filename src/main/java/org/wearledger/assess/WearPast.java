package org.wearledger.assess;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Endurance;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.SweepSettings;
import org.wearledger.stats.Steps;

/**
 * A drive's wear over time, in fractions of its rated endurance, and the increments the fleet's model learns from. Where bytes or
 * rating are not known, it is the controller's own percentage instead.
 *
 * <p>The first step reaches from the in-service date to the first reading, when that date is the drive's. A missed sweep
 * makes the next step longer. Readings less than a day apart are one. After a reset the totals go on, so no step is
 * negative; one without writes counts half a data unit, the counter's resolution. Steps of the percentage are joined until each has
 * five points, against which rounding is small.
 *
 * @param startMillis when the drive went into service, {@code null} when unknown
 * @param atMillis times of the readings, rising, at least a day apart
 * @param wear total written / rated at each; or percentage used / 100
 * @param leastIncrement half a data unit in the same fractions; or half a percent
 * @param used the controller's percentage at each, {@link #NOT_REPORTED} where it does not speak of the same writes
 * @param byPercentage wear is the controller's percentage
 * @param userChanges when the machine got a new user, rising
 */
public record WearPast(DriveId id, Long startMillis, long[] atMillis, double[] wear, double leastIncrement, int[] used, boolean byPercentage,
                       PowerOn powerOn, long... userChanges) implements Serializable {
    static final double MILLIS_PER_QUARTER = SweepSettings.DAYS_PER_QUARTER * 86_400_000;
    static final int NOT_REPORTED = -1;
    private static final double HOURS_PER_QUARTER = SweepSettings.DAYS_PER_QUARTER * 24;
    static final double LEAST_QUARTERS = 1 / SweepSettings.DAYS_PER_QUARTER;
    /** Over less than a month, a few days off decide the share of the day. */
    private static final double LEAST_QUARTERS_FOR_SHARE = 1 / 3.0;
    private static final double LEAST_PERCENTAGE_STEP = 0.05;
    private static final BigInteger HALF_DATA_UNIT = BigInteger.valueOf(256_000);

    /**
     * What the hours under power tell.
     *
     * @param quarters at the first reading, 0 when not reported
     * @param share of the time that this drive is under power, as far as both are known; 0 when they are not
     * @param machineModel {@code null} when not reported
     */
    record PowerOn(double quarters, double share, String machineModel) implements Serializable {
    }

    /** Of bytes, without a percentage. */
    WearPast(DriveId id, Long startMillis, long[] atMillis, double[] wear, double leastIncrement, double powerOnQuarters, long... userChanges) {
        this(id, startMillis, atMillis, wear, leastIncrement, filled(atMillis.length), false, new PowerOn(powerOnQuarters, 0, null), userChanges);
    }

    private static int[] filled(int readings) {
        int[] used = new int[readings];
        Arrays.fill(used, NOT_REPORTED);
        return used;
    }

    /** By bytes; {@code null} when none are reported or no rating is known. */
    static WearPast of(DriveHistory history, Endurance endurance, LocalDate startOfService) {
        List<HistoryPoint> written = history.points().stream().filter(p -> p.totalBytesWritten() != null).toList();
        if (written.isEmpty() || endurance == null) {
            return null;
        }
        double ratedBytes = endurance.ratedTerabytesWritten().movePointRight(12).doubleValue();
        return of(history, written, startOfService, p -> p.totalBytesWritten().doubleValue() / ratedBytes, HALF_DATA_UNIT.doubleValue() / ratedBytes, false);
    }

    /** By the controller's percentage since the counters last went back, below 100; {@code null} when it is not reported. */
    static WearPast ofPercentage(DriveHistory history, LocalDate startOfService) {
        int epoch = history.latest().epoch();
        List<HistoryPoint> reported = history.points().stream()
            .filter(p -> p.epoch() == epoch && p.reading().health().percentageUsed() != null && p.reading().health().percentageUsed() < 100).toList();
        return reported.isEmpty() ? null : of(history, reported, epoch == 0 ? startOfService : null,
            p -> p.reading().health().percentageUsed() / 100.0, 0.005, true);
    }

    private static WearPast of(DriveHistory history, List<HistoryPoint> points, LocalDate startOfService, ToDoubleFunction<HistoryPoint> wear, double leastIncrement,
                               boolean byPercentage) {
        List<HistoryPoint> apart = new ArrayList<>();
        for (HistoryPoint point : points) {
            if (apart.isEmpty() || quarters(at(apart.get(apart.size() - 1)), at(point)) >= LEAST_QUARTERS) {
                apart.add(point);
            }
        }
        Instant start = startOfService == null ? null : startOfService.atStartOfDay(ZoneOffset.UTC).toInstant();
        boolean known = start != null && quarters(start.toEpochMilli(), at(apart.get(0))) >= LEAST_QUARTERS;
        Long startMillis = known ? start.toEpochMilli() : null;
        return new WearPast(history.id(), startMillis, apart.stream().mapToLong(WearPast::at).toArray(), apart.stream().mapToDouble(wear).toArray(), leastIncrement,
            apart.stream().mapToInt(WearPast::used).toArray(), byPercentage, powerOn(apart, startMillis), userChanges(history));
    }

    /** When each user of its machine began, rising. Of a machine that the drive was moved to, only those after its first report from there. */
    static long[] userChanges(DriveHistory history) {
        TreeSet<Long> changes = new TreeSet<>();
        Instant movedAt = Instant.MIN;
        String machine = null;
        for (HistoryPoint point : history.points()) {
            String now = DriveId.fold(point.reading().machine().id());
            if (machine != null && !now.equals(machine)) {
                movedAt = point.reading().collectedAt();
            }
            machine = now;
            LocalDate since = point.reading().machine().userSince();
            if (since != null && since.atStartOfDay(ZoneOffset.UTC).toInstant().isAfter(movedAt)) {
                changes.add(since.atStartOfDay(ZoneOffset.UTC).toInstant().toEpochMilli());
            }
        }
        return changes.stream().mapToLong(Long::longValue).toArray();
    }

    private static int used(HistoryPoint point) {
        Integer used = point.reading().health().percentageUsed();
        return used == null || point.epoch() > 0 ? NOT_REPORTED : used;
    }

    private static PowerOn powerOn(List<HistoryPoint> points, Long startMillis) {
        HistoryPoint first = points.get(0);
        HistoryPoint last = points.get(points.size() - 1);
        double before = powerOnQuarters(first);
        double rise = last.epoch() == first.epoch() ? powerOnQuarters(last) - before : 0;
        double sinceStart = startMillis == null ? 0 : share(before, quarters(startMillis, at(first)));
        double betweenReadings = before > 0 ? share(rise, quarters(at(first), at(last))) : 0;
        return new PowerOn(before, startMillis != null ? sinceStart : betweenReadings, first.reading().machine().model());
    }

    private static double share(double underPower, double quarters) {
        return quarters < LEAST_QUARTERS_FOR_SHARE || underPower <= 0 ? 0 : Math.min(1, underPower / quarters);
    }

    static double powerOnQuarters(HistoryPoint point) {
        Long hours = point.reading().health().powerOnHours();
        return hours == null ? 0 : hours.doubleValue() / HOURS_PER_QUARTER;
    }

    static double quarters(long fromMillis, long toMillis) {
        return (toMillis - fromMillis) / MILLIS_PER_QUARTER;
    }

    /** The calendar quarter in UTC: 4 x year + 0 to 3. */
    static int calendarQuarter(long millis) {
        LocalDate day = LocalDate.ofInstant(Instant.ofEpochMilli(millis), ZoneOffset.UTC);
        return 4 * day.getYear() + (day.getMonthValue() - 1) / 3;
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
        Steps steps = new Steps(durations, increments);
        return byPercentage ? steps.joinedTo(LEAST_PERCENTAGE_STEP) : steps;
    }

    Steps steps() {
        return steps(atMillis.length);
    }

    /** What was known at its reading of that number, from 1; of the share of the day only what the in-service date tells. */
    WearPast upTo(int readings) {
        return new WearPast(id, startMillis, Arrays.copyOf(atMillis, readings), Arrays.copyOf(wear, readings), leastIncrement, Arrays.copyOf(used, readings), byPercentage,
            startMillis == null ? new PowerOn(powerOn.quarters, 0, powerOn.machineModel) : powerOn, userChanges);
    }

    /** The drive as one of a fleet to be fitted, by its first {@code readings} readings. */
    DriveSteps asOf(int readings) {
        return new DriveSteps(id, steps(readings));
    }

    /** As one of a fleet, by all its readings. */
    DriveSteps asOfNow() {
        return asOf(atMillis.length);
    }

    /** The age is known by nothing but the power-on hours. */
    boolean isAgeInferred() {
        return startMillis == null && atMillis.length == 1 && powerOn.quarters >= LEAST_QUARTERS;
    }
}

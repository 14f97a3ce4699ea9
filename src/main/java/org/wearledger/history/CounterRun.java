package org.wearledger.history;

import java.time.Duration;
import java.time.Instant;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * One run of a drive's counters: what they last said, and whether a fall of data units written begins another. A counter that a
 * reading leaves out keeps its last value. Rates are in data units a day; less than a day counts as one.
 */
final class CounterRun {
    /** What speaks for counters that began anew. */
    enum Restart { PROVEN, POSSIBLE, NONE }

    private static final long TOLERANCE_HOURS = 24;
    private static final double SECONDS_PER_DAY = 86_400;
    /** A drive may write three times as fast as it ever did. */
    private static final double MOST_OF_OWN_PACE = 3;
    /** Where no pace is known, what was written since a restart is taken to be less than an eighth of a whole life. */
    private static final int LIFE_OVER_RESTART = 8;

    /** A counter's last reported value. */
    record Seen(long value, Instant at, SourcePlace source) {
        static Seen of(Long value, Reading reading, Seen before) {
            return value == null ? before : new Seen(value, reading.collectedAt(), reading.source());
        }
    }

    private Seen units;
    private Seen hours;
    private Seen cycles;
    private Reading withUsed;
    private int steps;
    private double fastestPerDay;

    /** The largest so far; {@code null} when none was reported. */
    Seen units() {
        return units;
    }

    Seen hours() {
        return hours;
    }

    Seen cycles() {
        return cycles;
    }

    /** The latest that reports percentage used; {@code null} for none. */
    Reading withUsed() {
        return withUsed;
    }

    /** How many earlier steps there are to tell a pace by. */
    int steps() {
        return steps;
    }

    double fastestPerDay() {
        return fastestPerDay;
    }

    void add(Reading reading) {
        Health health = reading.health();
        Long now = health.dataUnitsWritten();
        if (units == null || now != null && !fell(now)) {
            if (units != null && now != null) {
                fastestPerDay = Math.max(fastestPerDay, perDay(reading));
                steps++;
            }
            units = Seen.of(now, reading, units);
        }
        hours = Seen.of(health.powerOnHours(), reading, hours);
        cycles = Seen.of(health.powerCycles(), reading, cycles);
        withUsed = health.percentageUsed() == null ? withUsed : reading;
    }

    /** A run in which data units written go on from this one's. */
    CounterRun withUnitsOnly() {
        CounterRun next = new CounterRun();
        next.units = units;
        return next;
    }

    boolean fell(Long unitsNow) {
        return units != null && Counters.fell(units.value(), unitsNow);
    }

    /** The rise to the reading's data units written. */
    double perDay(Reading reading) {
        return (double) (reading.health().dataUnitsWritten() - units.value()) / days(units.at(), reading.collectedAt());
    }

    /**
     * For a reading whose data units written fell. Proven: hours under power fell to no more than have passed since. Possible: no
     * other counter goes on, and the figure is small enough to be written since. Rising percentage used, or a fall by less than a
     * half, speaks against both unless the hours prove it.
     */
    Restart restart(Reading reading) {
        Health health = reading.health();
        if (hours != null && Counters.fell(hours.value(), health.powerOnHours())) {
            long passed = Duration.between(hours.at(), reading.collectedAt()).toHours();
            return health.powerOnHours() <= passed + TOLERANCE_HOURS ? Restart.PROVEN : Restart.NONE;
        }
        Long now = health.dataUnitsWritten();
        boolean byHalf = Counters.isBelowHalf(now, units.value());
        return byHalf && !companionsGoOn(reading) && isSmallEnough(now, reading) ? Restart.POSSIBLE : Restart.NONE;
    }

    /** Whether hours or cycles went on, or percentage used rose: then the drive was not reset. */
    boolean companionsGoOn(Reading reading) {
        Health health = reading.health();
        return hours != null && Counters.wentOn(hours.value(), health.powerOnHours()) || cycles != null && Counters.wentOn(cycles.value(), health.powerCycles())
            || withUsed != null && health.percentageUsed() != null && health.percentageUsed() > withUsed.health().percentageUsed();
    }

    private boolean isSmallEnough(long now, Reading reading) {
        return steps > 0 ? now <= MOST_OF_OWN_PACE * fastestPerDay * days(units.at(), reading.collectedAt())
            : now <= units.value() / LIFE_OVER_RESTART;
    }

    /** Whether a fall to {@code low}, and the rise from {@code last} to {@code back} later, may be a restart at the drive's own pace. */
    boolean restartFits(Reading low, Reading last, Reading back) {
        double sinceRestart = low.health().dataUnitsWritten();
        double elapsed = days(units.at(), low.collectedAt());
        double pace = steps > 0 ? fastestPerDay : sinceRestart / elapsed;
        double rise = back.health().dataUnitsWritten() - last.health().dataUnitsWritten();
        return sinceRestart <= MOST_OF_OWN_PACE * pace * elapsed && rise <= MOST_OF_OWN_PACE * pace * days(last.collectedAt(), back.collectedAt());
    }

    /** Whether the rise to the reading is faster than this drive's others allow; false when there are none. */
    boolean outrunsOwnPace(Reading reading) {
        return steps > 0 && perDay(reading) > MOST_OF_OWN_PACE * fastestPerDay;
    }

    static double days(Instant from, Instant to) {
        return Math.max(1, Duration.between(from, to).toSeconds() / SECONDS_PER_DAY);
    }
}

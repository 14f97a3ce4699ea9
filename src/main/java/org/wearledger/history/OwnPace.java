package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;

/**
 * Holds a rise of bytes written against the drive's own past. The bounds are wide: a change of user, or a laptop that leaves the
 * shelf, is no slip. Their sizes are judgement, held by a simulation of slips and of clean fleets.
 */
final class OwnPace {
    /** Below this share of the capacity a day a rise is common, whatever the past. */
    private static final double COMMON_WRITES_PER_DAY = 0.1;
    private static final double USUAL_CAPACITY_BYTES = 256e9;
    private static final double LEAST_GROWTH = 1.5;
    private static final double IN_LINE_PER_HOUR = 4;
    private static final int FEWEST_HOURS = 100;
    /** How many times the fastest earlier pace is too much, with one, and with more, earlier steps to tell it by. */
    private static final double MOST_OF_ONE_STEP = 12;
    private static final double MOST_OF_STEPS = 8;
    /** What a wrong date makes of a quarter's writes: many within days. */
    private static final double SHORT_DAYS = 14;
    private static final double MOST_OF_SHORT_STEP = 15;
    /** With no earlier step: a total so many times larger, by more than half of the capacity a day. */
    private static final double MOST_GROWTH = 8;
    private static final double MUCH_WRITES_PER_DAY = 0.5;
    /** Below this percentage used is too coarse to divide by. */
    private static final int LEAST_USED_PERCENT = 5;
    private static final double MOST_PARTED = 4;
    private static final double PARTED_POINTS = 10;
    private static final double BYTES_PER_DATA_UNIT = Health.BYTES_PER_DATA_UNIT.doubleValue();

    private OwnPace() {
    }

    static boolean isOutrun(CounterRun run, Reading reading, Long capacityBytes) {
        Long now = reading.health().dataUnitsWritten();
        if (run.units() == null || now == null) {
            return false;
        }
        if (isBeyondLink(run, reading)) {
            return true;
        }
        double capacity = capacityBytes == null || capacityBytes <= 0 ? USUAL_CAPACITY_BYTES : capacityBytes;
        double writesPerDay = run.perDay(reading) * BYTES_PER_DATA_UNIT / capacity;
        if (run.steps() > 0 && writesPerDay > MUCH_WRITES_PER_DAY && run.perDay(reading) > MOST_OF_SHORT_STEP * run.fastestPerDay()
            && CounterRun.days(run.units().at(), reading.collectedAt()) < SHORT_DAYS) {
            return true;
        }
        if (now < LEAST_GROWTH * run.units().value() || writesPerDay <= COMMON_WRITES_PER_DAY || hoursAgree(run, reading) || usedAgrees(run, reading)) {
            return false;
        }
        if (run.steps() == 0) {
            return now >= MOST_GROWTH * run.units().value() && writesPerDay > MUCH_WRITES_PER_DAY;
        }
        return run.perDay(reading) > (run.steps() == 1 ? MOST_OF_ONE_STEP : MOST_OF_STEPS) * run.fastestPerDay();
    }

    /** More than the fastest link carries in the time between; a clock to the minute is allowed for. */
    private static boolean isBeyondLink(CounterRun run, Reading reading) {
        BigInteger rise = BigInteger.valueOf(reading.health().dataUnitsWritten() - run.units().value()).multiply(Health.BYTES_PER_DATA_UNIT);
        return rise.compareTo(WriteLimits.mostOverLink(Duration.between(run.units().at(), reading.collectedAt()))) > 0;
    }

    /** As much for each hour under power as over its life so far. */
    private static boolean hoursAgree(CounterRun run, Reading reading) {
        Long hours = reading.health().powerOnHours();
        if (run.hours() == null || hours == null || run.hours().value() < FEWEST_HOURS) {
            return false;
        }
        double more = Math.max(1, hours - run.hours().value());
        double rise = reading.health().dataUnitsWritten() - run.units().value();
        return rise / more <= IN_LINE_PER_HOUR * run.units().value() / run.hours().value();
    }

    private static boolean usedAgrees(CounterRun run, Reading reading) {
        Integer used = reading.health().percentageUsed();
        Integer was = run.withUsed() == null ? null : run.withUsed().health().percentageUsed();
        return used != null && was != null && was >= LEAST_USED_PERCENT && used > was
            && (double) reading.health().dataUnitsWritten() / run.units().value() <= 2.0 * (used + 1) / (was - 1);
    }

    /** Whether what is written for each percent used grew fourfold, or percentage used rose by far more than the writes say. */
    static boolean measuresPart(Health was, Health now) {
        if (was.dataUnitsWritten() == null || now.dataUnitsWritten() == null || was.dataUnitsWritten() == 0 || Counters.fell(was.dataUnitsWritten(), now.dataUnitsWritten())) {
            return false;
        }
        double growth = (double) now.dataUnitsWritten() / was.dataUnitsWritten();
        double rise = now.percentageUsed() - was.percentageUsed();
        return rise > PARTED_POINTS + MOST_PARTED * (was.percentageUsed() + 1) * (growth - 1)
            || rise >= 0 && was.percentageUsed() >= LEAST_USED_PERCENT && !Health.isUsedOpenAbove(now.percentageUsed())
            && growth > MOST_PARTED * (now.percentageUsed() + 1) / (was.percentageUsed() - 1);
    }
}

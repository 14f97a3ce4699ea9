package org.wearledger.simulate;

import java.util.Locale;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.simulate.SeededStream.Purpose;

/** One drive of the fleet: what it was drawn with, and its counters. */
final class FleetDrive {
    private static final double BYTES_PER_DATA_UNIT = Health.BYTES_PER_DATA_UNIT.doubleValue();
    /** Where counters start: the specification reads 0 as "not reported". */
    private static final long FIRST_DATA_UNIT = 1;
    private static final double BYTES_PER_TERABYTE = 1e12;
    private static final double IDLE_HOURS_PER_QUARTER = 2;
    /** Just below what a reader takes for a wrong unit; only absurd settings get there. */
    private static final double MOST_CAPACITY_WRITES_PER_DAY = 18;

    final DriveModel model;
    final double inverseScale;
    final double startRatePerQuarter;
    final int installedAfterSweep;
    private final FleetCourse course;
    private final int machine;
    private final int replacement;
    private final DriveHabits habits;
    private final double factor;
    private double driftLogRate;
    private double ratePerQuarter;
    private long dataUnitsOfEarlierEpochs;
    private long dataUnitsWritten = FIRST_DATA_UNIT;
    private double poweredOnHours;
    private int resets;

    /** @param installedAfterSweep -1 for a drive that was there before the first sweep */
    FleetDrive(FleetCourse course, int machine, int replacement, int memoryGibibytes, int installedAfterSweep) {
        this.course = course;
        this.machine = machine;
        this.replacement = replacement;
        this.installedAfterSweep = installedAfterSweep;
        FleetSettings settings = course.settings;
        SeededStream random = course.stream(Purpose.DRIVE, machine, replacement);
        model = DriveModel.ALL.get(random.nextInt(DriveModel.ALL.size()));
        habits = DriveHabits.drawn(random);
        inverseScale = course.stream(Purpose.INVERSE_SCALE, machine, replacement)
            .gamma(settings.value(FleetSetting.SPREAD_SHAPE), settings.inverseScaleRate());
        factor = course.modelFactor(model) * (memoryGibibytes == 8 ? settings.value(FleetSetting.MEMORY_EFFECT) : 1);
        startRatePerQuarter = rate(course.shockLogRate(Math.max(0, installedAfterSweep)));
        ratePerQuarter = startRatePerQuarter;
    }

    private double rate(double logRate) {
        return course.settings.value(FleetSetting.INCREMENT_SHAPE) / inverseScale * factor * StrictMath.exp(logRate);
    }

    /** Writes before the first sweep, at the starting rate. */
    void advanceBeforeFirstSweep(long days) {
        write(course.stream(Purpose.EARLIER_WRITES, machine, replacement), days, factor);
        poweredOnHours += habits.hoursPerDay() * days;
    }

    /** Through the quarter that ends with this sweep. */
    void advance(int sweep) {
        FleetSettings settings = course.settings;
        driftLogRate += settings.value(FleetSetting.DRIFT) * course.stream(Purpose.DRIFT, machine, replacement, sweep).nextGaussian();
        double logRate = driftLogRate + course.shockLogRate(sweep);
        ratePerQuarter = rate(logRate);
        if (course.stream(Purpose.IDLE, machine, replacement, sweep).happens(settings.value(FleetSetting.IDLE))) {
            poweredOnHours += IDLE_HOURS_PER_QUARTER;
            return;
        }
        long days = course.daysUpTo(sweep);
        SeededStream random = course.stream(Purpose.WRITES, machine, replacement, sweep);
        write(random, days, factor * StrictMath.exp(logRate + course.seasonLogRate(sweep)));
        poweredOnHours += habits.hoursPerDay() * days * DriveHabits.between(random, 0.9, 1.1);
    }

    private void write(SeededStream random, long days, double writesFactor) {
        double shape = course.settings.value(FleetSetting.INCREMENT_SHAPE) * days / FleetCourse.DAYS_PER_QUARTER;
        double bytes = random.gamma(shape, inverseScale) * writesFactor * ratedBytes();
        double mostBytes = MOST_CAPACITY_WRITES_PER_DAY * model.capacityBytes() * days;
        dataUnitsWritten += Math.round(Math.min(bytes, mostBytes) / BYTES_PER_DATA_UNIT);
    }

    void resetCounters() {
        dataUnitsOfEarlierEpochs += dataUnitsWritten;
        dataUnitsWritten = FIRST_DATA_UNIT;
        poweredOnHours = 0;
        resets++;
    }

    double ratedBytes() {
        return model.ratedTerabytesWritten() * BYTES_PER_TERABYTE;
    }

    /** Of the last quarter so far, without the season. */
    double ratePerQuarter() {
        return ratePerQuarter;
    }

    /** Over all epochs, whatever the counter says now. */
    long totalDataUnitsWritten() {
        return dataUnitsOfEarlierEpochs + dataUnitsWritten;
    }

    int resets() {
        return resets;
    }

    /** Example: {@code ON70000012R0}. */
    String serial() {
        return model.name().substring(0, 2).toUpperCase(Locale.ROOT) + (70_000_000 + machine) + "R" + replacement;
    }

    Drive drive(Attachment attachment) {
        return new Drive(serial(), model.name(), model.firmware(), model.capacityBytes(), attachment);
    }

    Health health(int kelvin) {
        return habits.health(model, kelvin, dataUnitsWritten * BYTES_PER_DATA_UNIT, poweredOnHours).set(HealthField.DATA_UNITS_WRITTEN, dataUnitsWritten).build();
    }
}

package org.wearledger.simulate;

import org.apache.commons.math3.random.RandomGenerator;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/** How one drive is used: what its counters show beside the data written. */
record DriveHabits(double hoursPerDay, double bytesPerWrite, double readsPerWrite, double busyShare) {
    static final int SPARE_THRESHOLD_PERCENT = 10;
    private static final double BYTES_PER_DATA_UNIT = Health.BYTES_PER_DATA_UNIT.doubleValue();
    private static final double BYTES_PER_TERABYTE = 1e12;
    private static final double BYTES_PER_READ = 48_000;
    private static final double HOURS_PER_POWER_CYCLE = 4.5;
    private static final double POWER_CYCLES_PER_UNSAFE_SHUTDOWN = 70;

    static DriveHabits drawn(RandomGenerator random) {
        return new DriveHabits(between(random, 4.5, 8.5), between(random, 20_000, 40_000), between(random, 0.8, 2.2), between(random, 0.02, 0.10));
    }

    static double between(RandomGenerator random, double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** What a sound drive reports: every field, counts of errors at 0 and its spare whole. Part of a data unit counts as one. */
    Health.Builder health(DriveModel model, int kelvin, double bytesWritten, double poweredOnHours) {
        double bytesRead = bytesWritten * readsPerWrite;
        double powerCycles = poweredOnHours / HOURS_PER_POWER_CYCLE;
        Health.Builder health = Health.builder().sensors(kelvin, kelvin + 3);
        HealthField.ALL.stream().filter(field -> !field.isList()).forEach(field -> health.set(field, 0));
        return health.set(HealthField.COMPOSITE_TEMPERATURE, kelvin).set(HealthField.AVAILABLE_SPARE, 100).set(HealthField.AVAILABLE_SPARE_THRESHOLD, SPARE_THRESHOLD_PERCENT)
            .set(HealthField.PERCENTAGE_USED, (int) Math.min(255, bytesWritten / (model.apparentTerabytes() * BYTES_PER_TERABYTE) * 100))
            .set(HealthField.DATA_UNITS_READ, (long) Math.ceil(bytesRead / BYTES_PER_DATA_UNIT)).set(HealthField.DATA_UNITS_WRITTEN, (long) Math.ceil(bytesWritten / BYTES_PER_DATA_UNIT))
            .set(HealthField.HOST_READ_COMMANDS, (long) (bytesRead / BYTES_PER_READ)).set(HealthField.HOST_WRITE_COMMANDS, (long) (bytesWritten / bytesPerWrite))
            .set(HealthField.CONTROLLER_BUSY_MINUTES, (long) (poweredOnHours * 60 * busyShare)).set(HealthField.POWER_CYCLES, (long) powerCycles)
            .set(HealthField.POWER_ON_HOURS, (long) poweredOnHours).set(HealthField.UNSAFE_SHUTDOWNS, (long) (powerCycles / POWER_CYCLES_PER_UNSAFE_SHUTDOWN));
    }
}

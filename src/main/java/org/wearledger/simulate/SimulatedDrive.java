package org.wearledger.simulate;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/** One drive's counters as they grow from sweep to sweep. */
final class SimulatedDrive {
    static final int SPARE_THRESHOLD_PERCENT = 10;
    private static final double BYTES_PER_GIGABYTE = 1e9;
    private static final double HOURS_PER_POWER_CYCLE = 4.5;
    private static final double POWER_CYCLES_PER_UNSAFE_SHUTDOWN = 70;
    private static final double BYTES_PER_READ = 48_000;
    /** Shape of the increments around their mean: a standard deviation of about a quarter. */
    private static final double INCREMENT_SHAPE = 16;

    private final RandomGenerator random;
    private final DriveModel model;
    private final Attachment attachment;
    private final double gigabytesPerDay;
    private final double hoursPerDay;
    private final double bytesPerWrite;
    private final double readsPerWrite;
    private final double busyShare;
    private boolean steady;
    private boolean reportsPercentageUsed = true;
    private String serial;
    private double bytesWritten;
    private double poweredOnHours;
    private int criticalWarning;
    private int availableSparePercent = 100;
    private int mediaErrors;

    SimulatedDrive(RandomGenerator random, DriveModel model, String serial, Attachment attachment, double gigabytesPerDay) {
        this.random = random;
        this.model = model;
        this.serial = serial;
        this.attachment = attachment;
        this.gigabytesPerDay = gigabytesPerDay;
        hoursPerDay = between(4.5, 8.5);
        bytesPerWrite = between(20_000, 40_000);
        readsPerWrite = between(0.8, 2.2);
        busyShare = between(0.02, 0.10);
    }

    private double between(double low, double high) {
        return low + (high - low) * random.nextDouble();
    }

    /** Sets what was written so far, and lets it grow from here without noise. */
    SimulatedDrive steadyFrom(double terabytesWritten) {
        steady = true;
        bytesWritten = terabytesWritten * 1e12;
        return this;
    }

    void advance(long days) {
        double noise = new GammaDistribution(random, INCREMENT_SHAPE, 1 / INCREMENT_SHAPE).sample();
        bytesWritten += gigabytesPerDay * BYTES_PER_GIGABYTE * days * (steady ? 1 : noise);
        poweredOnHours += hoursPerDay * days * between(0.9, 1.1);
    }

    /** Time in service before the first sweep, of a drive whose writes up to there are known. */
    void powerOn(long days) {
        poweredOnHours += hoursPerDay * days;
    }

    /** All counters start again, as after a controller lost its log. */
    void resetCounters() {
        bytesWritten = gigabytesPerDay * BYTES_PER_GIGABYTE * 3;
        poweredOnHours = hoursPerDay * 3;
        mediaErrors = 0;
    }

    void setCriticalWarning(int bits) {
        criticalWarning = bits;
    }

    void setAvailableSparePercent(int percent) {
        availableSparePercent = percent;
    }

    void setMediaErrors(int errors) {
        mediaErrors = errors;
    }

    void hidePercentageUsed() {
        reportsPercentageUsed = false;
    }

    void setSerial(String serial) {
        this.serial = serial;
    }

    Drive drive() {
        return new Drive(serial, model.name(), model.firmware(), model.capacityBytes(), attachment);
    }

    Health health() {
        int kelvin = 303 + random.nextInt(15);
        double cycles = poweredOnHours / HOURS_PER_POWER_CYCLE;
        BigInteger bytesPerDataUnit = Health.BYTES_PER_DATA_UNIT;
        long unitsWritten = whole(bytesWritten / bytesPerDataUnit.doubleValue(), RoundingMode.CEILING);
        double bytesRead = bytesWritten * readsPerWrite;
        int percentageUsed = (int) Math.min(255, Math.floor(bytesWritten / (model.apparentTerabytes() * 1e12) * 100));
        Health.Builder health = sound(kelvin)
            .set(HealthField.CRITICAL_WARNING, criticalWarning).set(HealthField.AVAILABLE_SPARE, availableSparePercent)
            .set(HealthField.DATA_UNITS_READ, whole(bytesRead / bytesPerDataUnit.doubleValue(), RoundingMode.CEILING))
            .set(HealthField.DATA_UNITS_WRITTEN, unitsWritten)
            .set(HealthField.HOST_READ_COMMANDS, whole(bytesRead / BYTES_PER_READ)).set(HealthField.HOST_WRITE_COMMANDS, whole(bytesWritten / bytesPerWrite))
            .set(HealthField.CONTROLLER_BUSY_MINUTES, whole(poweredOnHours * 60 * busyShare)).set(HealthField.POWER_CYCLES, whole(cycles))
            .set(HealthField.POWER_ON_HOURS, whole(poweredOnHours)).set(HealthField.UNSAFE_SHUTDOWNS, whole(cycles / POWER_CYCLES_PER_UNSAFE_SHUTDOWN))
            .set(HealthField.MEDIA_ERRORS, mediaErrors).set(HealthField.ERROR_LOG_ENTRIES, mediaErrors + 2L);
        return reportsPercentageUsed ? health.set(HealthField.PERCENTAGE_USED, percentageUsed).build() : health.build();
    }

    /** What a sound drive of this temperature reports: every field, its counts at 0 and its spare whole. */
    static Health.Builder sound(int kelvin) {
        Health.Builder health = Health.builder().sensors(kelvin, kelvin + 3);
        HealthField.ALL.stream().filter(field -> !field.isList() && field != HealthField.PERCENTAGE_USED).forEach(field -> health.set(field, 0));
        return health.set(HealthField.COMPOSITE_TEMPERATURE, kelvin).set(HealthField.AVAILABLE_SPARE, 100)
            .set(HealthField.AVAILABLE_SPARE_THRESHOLD, SPARE_THRESHOLD_PERCENT);
    }

    private static long whole(double value) {
        return whole(value, RoundingMode.FLOOR);
    }

    private static long whole(double value, RoundingMode rounding) {
        return new BigDecimal(value).setScale(0, rounding).longValueExact();
    }
}

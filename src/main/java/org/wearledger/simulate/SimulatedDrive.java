package org.wearledger.simulate;

import org.apache.commons.math3.distribution.GammaDistribution;
import org.apache.commons.math3.random.RandomGenerator;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/** One drive's counters as they grow from sweep to sweep. */
final class SimulatedDrive {
    private static final double BYTES_PER_GIGABYTE = 1e9;
    /** Shape of the increments around their mean: a standard deviation of about a quarter. */
    private static final double INCREMENT_SHAPE = 16;

    private final RandomGenerator random;
    private final DriveModel model;
    private final Attachment attachment;
    private final double gigabytesPerDay;
    private final DriveHabits habits;
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
        habits = DriveHabits.drawn(random);
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
        poweredOnHours += habits.hoursPerDay() * days * DriveHabits.between(random, 0.9, 1.1);
    }

    /** Time in service before the first sweep, of a drive whose writes up to there are known. */
    void powerOn(long days) {
        poweredOnHours += habits.hoursPerDay() * days;
    }

    /** All counters start again, as after a controller lost its log. */
    void resetCounters() {
        bytesWritten = gigabytesPerDay * BYTES_PER_GIGABYTE * 3;
        poweredOnHours = habits.hoursPerDay() * 3;
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
        Health.Builder health = habits.health(model, 303 + random.nextInt(15), bytesWritten, poweredOnHours)
            .set(HealthField.CRITICAL_WARNING, criticalWarning).set(HealthField.AVAILABLE_SPARE, availableSparePercent)
            .set(HealthField.MEDIA_ERRORS, mediaErrors).set(HealthField.ERROR_LOG_ENTRIES, mediaErrors + 2L);
        return reportsPercentageUsed ? health.build() : health.clear(HealthField.PERCENTAGE_USED).build();
    }
}

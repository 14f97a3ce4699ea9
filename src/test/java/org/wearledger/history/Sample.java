package org.wearledger.history;

import java.time.Instant;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** A reading of an invented 500 GB drive with all that the tests vary; each {@code with} returns a changed copy. */
public record Sample(String file, String at, String machine, String serial, Long capacityBytes, Long units, Long hours,
                     Long cycles, Long writeCommands, Integer percentageUsed, Integer warning, Integer spare,
                     Integer threshold, Long mediaErrors) {
    public static final String MODEL = "Kestrel K2";
    public static final DriveId ID = DriveId.of(MODEL, "KX-0001");

    public static Sample at(String at) {
        String full = at.length() == 10 ? at + "T12:00:00Z" : at;
        return new Sample(full + ".json", full, "PC-1", "KX-0001", 500_000_000_000L, null, null, null, null, null,
            null, null, null, null);
    }

    public Sample file(String value) {
        return new Sample(value, at, machine, serial, capacityBytes, units, hours, cycles, writeCommands,
            percentageUsed, warning, spare, threshold, mediaErrors);
    }

    public Sample machine(String value) {
        return new Sample(file, at, value, serial, capacityBytes, units, hours, cycles, writeCommands, percentageUsed,
            warning, spare, threshold, mediaErrors);
    }

    public Sample serial(String value) {
        return new Sample(file, at, machine, value, capacityBytes, units, hours, cycles, writeCommands, percentageUsed,
            warning, spare, threshold, mediaErrors);
    }

    public Sample capacity(Long value) {
        return new Sample(file, at, machine, serial, value, units, hours, cycles, writeCommands, percentageUsed,
            warning, spare, threshold, mediaErrors);
    }

    public Sample units(long value) {
        return new Sample(file, at, machine, serial, capacityBytes, value, hours, cycles, writeCommands,
            percentageUsed, warning, spare, threshold, mediaErrors);
    }

    /** 1 TB is 1,953,125 data units. */
    public Sample terabytes(double value) {
        return units(Math.round(value * 1_953_125));
    }

    public Sample hours(long value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, value, cycles, writeCommands,
            percentageUsed, warning, spare, threshold, mediaErrors);
    }

    public Sample cycles(long value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, value, writeCommands, percentageUsed,
            warning, spare, threshold, mediaErrors);
    }

    public Sample writeCommands(long value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, cycles, value, percentageUsed,
            warning, spare, threshold, mediaErrors);
    }

    public Sample used(int value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, cycles, writeCommands, value,
            warning, spare, threshold, mediaErrors);
    }

    public Sample warning(int value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, cycles, writeCommands,
            percentageUsed, value, spare, threshold, mediaErrors);
    }

    public Sample spare(int value, int itsThreshold) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, cycles, writeCommands,
            percentageUsed, warning, value, itsThreshold, mediaErrors);
    }

    public Sample mediaErrors(long value) {
        return new Sample(file, at, machine, serial, capacityBytes, units, hours, cycles, writeCommands,
            percentageUsed, warning, spare, threshold, value);
    }

    public Reading reading() {
        Health health = Health.builder().set(HealthField.CRITICAL_WARNING, warning).set(HealthField.AVAILABLE_SPARE, spare)
            .set(HealthField.AVAILABLE_SPARE_THRESHOLD, threshold).set(HealthField.PERCENTAGE_USED, percentageUsed).set(HealthField.DATA_UNITS_WRITTEN, units)
            .set(HealthField.HOST_WRITE_COMMANDS, writeCommands).set(HealthField.POWER_CYCLES, cycles).set(HealthField.POWER_ON_HOURS, hours)
            .set(HealthField.MEDIA_ERRORS, mediaErrors).build();
        return new Reading(SourcePlace.wholeFile(file), Instant.parse(at),
            new Machine(machine, null, null, null, null, null, null, null),
            new Drive(serial, MODEL, null, capacityBytes, Attachment.UNKNOWN), health);
    }
}

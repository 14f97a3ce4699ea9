package org.wearledger.model;

import java.util.List;

/**
 * The fields of the SMART / Health Information log page (log identifier 02h): NVM Express Base Specification 2.1, Figure 206, in the
 * order of the page. Whatever reads, writes, packs, compares or judges a field asks this table.
 */
public enum HealthField {
    /**
     * Bit field, state at the moment of reading: bit 0 spare below threshold, 1 temperature, 2 reliability degraded, 3 media
     * read-only, 4 volatile-memory backup failed, 5 persistent memory region.
     */
    CRITICAL_WARNING("criticalWarning", 0, 1, Quantity.FLAGS),
    /** Of the whole drive at the moment of reading. */
    COMPOSITE_TEMPERATURE("compositeTemperatureKelvin", 1, 2, Quantity.KELVIN),
    /** Spare capacity left, of what the drive had when new. */
    AVAILABLE_SPARE("availableSparePercent", 3, 1, Quantity.PERCENT),
    /** Below it the drive raises bit 0 of the critical warning. */
    AVAILABLE_SPARE_THRESHOLD("availableSpareThresholdPercent", 4, 1, Quantity.PERCENT),
    /** The controller's own estimate of life used, may pass 100; 255 means "255 or more". */
    PERCENTAGE_USED("percentageUsed", 5, 1, Quantity.PERCENT_USED),
    /** Bit field, the critical warnings of all endurance groups together. */
    ENDURANCE_GROUP_WARNING("enduranceGroupCriticalWarningSummary", 6, 1, Quantity.FLAGS),
    /** Thousands of 512-byte units, rounded up: one data unit is 512,000 bytes. */
    DATA_UNITS_READ("dataUnitsRead", 32, 16, Quantity.DATA_UNITS),
    /** As {@link #DATA_UNITS_READ}, for host writes only. */
    DATA_UNITS_WRITTEN("dataUnitsWritten", 48, 16, Quantity.DATA_UNITS),
    /** Read commands of the host. */
    HOST_READ_COMMANDS("hostReadCommands", 64, 16, Quantity.COUNT),
    /** Write commands of the host. */
    HOST_WRITE_COMMANDS("hostWriteCommands", 80, 16, Quantity.COUNT),
    /** Minutes with a command outstanding. */
    CONTROLLER_BUSY_MINUTES("controllerBusyMinutes", 96, 16, Quantity.MINUTES),
    /** Times the drive was switched on. */
    POWER_CYCLES("powerCycles", 112, 16, Quantity.COUNT),
    /** Hours under power; some controllers do not count those in a low-power state. */
    POWER_ON_HOURS("powerOnHours", 128, 16, Quantity.HOURS),
    /** Times power was lost without notice. */
    UNSAFE_SHUTDOWNS("unsafeShutdowns", 144, 16, Quantity.COUNT),
    /** Times the controller met data that it could not make good. */
    MEDIA_ERRORS("mediaAndDataIntegrityErrors", 160, 16, Quantity.COUNT),
    /** Entries ever made in the error information log. */
    ERROR_LOG_ENTRIES("errorLogEntries", 176, 16, Quantity.COUNT),
    /** Minutes at or above the warning and below the critical composite temperature. */
    WARNING_TEMPERATURE_MINUTES("warningTemperatureMinutes", 192, 4, Quantity.COUNT),
    /** Minutes at or above the critical composite temperature. */
    CRITICAL_TEMPERATURE_MINUTES("criticalTemperatureMinutes", 196, 4, Quantity.COUNT),
    /** Up to eight sensors of two bytes, 0 for one that is not implemented. */
    TEMPERATURE_SENSORS("temperatureSensorsKelvin", 200, 16, Quantity.KELVIN),
    /** Times the lighter throttling set in. */
    THERMAL_MANAGEMENT_1_TRANSITIONS("thermalManagement1Transitions", 216, 4, Quantity.COUNT),
    /** Times the heavier throttling set in. */
    THERMAL_MANAGEMENT_2_TRANSITIONS("thermalManagement2Transitions", 220, 4, Quantity.COUNT),
    /** Seconds of the lighter throttling, unlike the minutes above. */
    THERMAL_MANAGEMENT_1_SECONDS("thermalManagement1Seconds", 224, 4, Quantity.COUNT),
    /** Seconds of the heavier throttling. */
    THERMAL_MANAGEMENT_2_SECONDS("thermalManagement2Seconds", 228, 4, Quantity.COUNT);

    /** What a field measures, and so in which units an export may give it. */
    public enum Quantity {
        /** Bits with a meaning each. */
        FLAGS,
        /** A number of times, or of units that nobody writes otherwise. */
        COUNT,
        /** Host data, in units of 512,000 bytes. */
        DATA_UNITS,
        /** Memory or capacity. */
        BYTES,
        /** Absolute temperature. */
        KELVIN,
        /** A part of a whole: 0 to 100. */
        PERCENT,
        /** The controller's estimate, whose byte holds 0 to 255. */
        PERCENT_USED,
        /** Time in hours. */
        HOURS,
        /** Time in minutes. */
        MINUTES
    }

    /** Every field, in the order of the page. */
    public static final List<HealthField> ALL = List.of(values());
    /** Before a field's own name in the report form. */
    public static final String GROUP = "health.";
    /** Sensors of a page. */
    public static final int MOST_SENSORS = 8;
    /** Bytes of each sensor. */
    public static final int SENSOR_BYTES = 2;
    private static final int COUNTER_BYTES = 16;

    private final String ownName;
    private final int offset;
    private final int bytes;
    private final Quantity quantity;

    HealthField(String ownName, int offset, int bytes, Quantity quantity) {
        this.ownName = ownName;
        this.offset = offset;
        this.bytes = bytes;
        this.quantity = quantity;
    }

    /** Its name in reports, behind {@code health.}: {@code powerOnHours}. */
    public String ownName() {
        return ownName;
    }

    /** Its name in the report form: {@code health.powerOnHours}. */
    public String dotted() {
        return GROUP + ownName;
    }

    /** First byte in the page. */
    public int offset() {
        return offset;
    }

    /** Bytes in the page, little-endian and unsigned. */
    public int bytes() {
        return bytes;
    }

    /** What it measures. */
    public Quantity quantity() {
        return quantity;
    }

    /** Whether it holds several numbers, as the sensors do. */
    public boolean isList() {
        return this == TEMPERATURE_SENSORS;
    }

    /** Whether it is a counter of 128 bits. */
    public boolean isCounter() {
        return bytes == COUNTER_BYTES && !isList();
    }

    /** The largest value, of a sensor for the sensors: what its bytes hold, or what they may mean. A counter's goes on beyond that of a {@code long}. */
    public long largest() {
        return quantity == Quantity.PERCENT ? 100 : isCounter() ? Long.MAX_VALUE : (1L << Byte.SIZE * (isList() ? SENSOR_BYTES : bytes)) - 1;
    }

    /** Whether the specification says of 0h that nothing is reported. */
    public boolean isZeroNotReported() {
        return quantity == Quantity.DATA_UNITS;
    }

    /** Whether a verdict rests on it, so that a fault in it refuses the report. */
    public boolean isDecisive() {
        return switch (this) {
            case CRITICAL_WARNING, AVAILABLE_SPARE, PERCENTAGE_USED, DATA_UNITS_WRITTEN, MEDIA_ERRORS -> true;
            default -> false;
        };
    }
}

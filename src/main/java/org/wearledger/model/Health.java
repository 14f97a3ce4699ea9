package org.wearledger.model;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.Instant;
import java.util.List;

/**
 * The fields of the SMART / Health Information log page (log identifier 02h, NVM Express Base Specification, section
 * "SMART / Health Information") with the specification's units. {@code null} means "not reported". The sixteen-byte
 * counters are unsigned 128-bit in the specification, hence {@link BigInteger}.
 *
 * @param criticalWarning bit field, state at the moment of reading: bit 0 spare below threshold, 1 temperature,
 *     2 reliability degraded, 3 media read-only, 4 volatile-memory backup failed, 5 persistent memory region
 * @param compositeTemperatureKelvin of the whole drive at the moment of reading
 * @param availableSparePercent spare capacity left, of what the drive had when new
 * @param availableSpareThresholdPercent below it the drive raises bit 0 of the critical warning
 * @param percentageUsed the controller's own estimate of life used, may pass 100; 255 means "255 or more"
 * @param enduranceGroupCriticalWarningSummary bit field, the critical warnings of all endurance groups together
 * @param dataUnitsRead thousands of 512-byte units, rounded up: one data unit is 512,000 bytes
 * @param dataUnitsWritten as {@code dataUnitsRead}, for host writes only
 * @param controllerBusyMinutes minutes with a command outstanding
 * @param unsafeShutdowns times power was lost without notice
 * @param mediaAndDataIntegrityErrors times the controller met data that it could not make good
 * @param errorLogEntries entries ever made in the error information log
 * @param warningTemperatureMinutes minutes at or above the warning and below the critical composite temperature
 * @param temperatureSensorsKelvin up to eight sensors, 0 for one that is not implemented; empty when not reported
 * @param thermalManagement1Transitions times the lighter throttling set in; 2 the heavier
 * @param thermalManagement1Seconds seconds, unlike the minutes above
 */
public record Health(
    Integer criticalWarning,
    Integer compositeTemperatureKelvin,
    Integer availableSparePercent,
    Integer availableSpareThresholdPercent,
    Integer percentageUsed,
    Integer enduranceGroupCriticalWarningSummary,
    BigInteger dataUnitsRead,
    BigInteger dataUnitsWritten,
    BigInteger hostReadCommands,
    BigInteger hostWriteCommands,
    BigInteger controllerBusyMinutes,
    BigInteger powerCycles,
    BigInteger powerOnHours,
    BigInteger unsafeShutdowns,
    BigInteger mediaAndDataIntegrityErrors,
    BigInteger errorLogEntries,
    Long warningTemperatureMinutes,
    Long criticalTemperatureMinutes,
    List<Integer> temperatureSensorsKelvin,
    Long thermalManagement1Transitions,
    Long thermalManagement2Transitions,
    Long thermalManagement1Seconds,
    Long thermalManagement2Seconds) implements Serializable {

    /** Bytes in one data unit: 1,000 units of 512 bytes. */
    public static final BigInteger BYTES_PER_DATA_UNIT = BigInteger.valueOf(512_000);
    /** The first NVM Express specification is of 2011: no report and no counter can be older. */
    public static final Instant FIRST_SPECIFICATION = Instant.parse("2011-01-01T00:00:00Z");
    private static final int NOTHING_REMAINING = 100;
    /** The most that the byte of percentage used holds: so much or more. */
    public static final int USED_AT_ITS_LIMIT = 255;

    /**
     * Whether a percentage used may stand for a higher one: at 255, the most that its byte holds, and at 100, as which a life remaining of 0
     * is read, below which few controllers count.
     */
    public static boolean isUsedOpenAbove(int percentageUsed) {
        return percentageUsed == NOTHING_REMAINING || percentageUsed >= USED_AT_ITS_LIMIT;
    }

    /** Example: {@code 97 %}; {@code 255 % or more}. */
    public static String usedInWords(int percentageUsed) {
        return percentageUsed + (percentageUsed >= USED_AT_ITS_LIMIT ? " % or more" : " %");
    }

    private static final int RELIABILITY_DEGRADED = 1 << 2;
    private static final int MEDIA_READ_ONLY = 1 << 3;
    private static final int SPARE_BELOW_THRESHOLD = 1;

    public Health {
        temperatureSensorsKelvin = List.copyOf(temperatureSensorsKelvin);
    }

    /** {@code dataUnitsWritten} x 512,000; {@code null} when not reported. Example: 309,667,839 is 158,549,933,568,000. */
    public BigInteger bytesWritten() {
        return dataUnitsWritten == null ? null : dataUnitsWritten.multiply(BYTES_PER_DATA_UNIT);
    }

    /** Bit 2 of the critical warning; false when not reported. */
    public boolean reliabilityDegraded() {
        return criticalWarningHas(RELIABILITY_DEGRADED);
    }

    /** Bit 3 of the critical warning; false when not reported. */
    public boolean mediaReadOnly() {
        return criticalWarningHas(MEDIA_READ_ONLY);
    }

    /** Bit 0 of the critical warning; false when not reported. */
    public boolean spareBelowThreshold() {
        return criticalWarningHas(SPARE_BELOW_THRESHOLD);
    }

    private boolean criticalWarningHas(int bit) {
        return criticalWarning != null && (criticalWarning & bit) != 0;
    }
}

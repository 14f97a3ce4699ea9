package org.wearledger.intake;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/**
 * Health without what the specification calls "0h: not reported" and without figures that cannot be. Temperatures and
 * power-on hours beyond belief are noted and taken as not reported; no verdict rests on them.
 */
final class PlausibleHealth {
    /** -50 to 150 degrees Celsius; memory chips are graded within -40 to 125 (JEDEC, from memory). */
    private static final int COLDEST_KELVIN = 223;
    private static final int HOTTEST_KELVIN = 423;
    private static final int FREEZING_POINT_KELVIN = 273;

    /** Bit 0 of the critical warning: the spare has fallen below the threshold (NVMe Base Specification, SMART / Health Information). */
    private static final int SPARE_IS_LOW = 1;
    private static final List<HealthField> ZERO_NOT_REPORTED = HealthField.ALL.stream().filter(HealthField::isZeroNotReported).toList();

    private PlausibleHealth() {
    }

    /** @param collectedAt {@code null} when it could not be read */
    static Health of(Health.Builder h, Instant collectedAt, Fields fields) {
        judgeSpare(h, fields);
        if (h.has(HealthField.COMPOSITE_TEMPERATURE) && !isPlausible(h.value(HealthField.COMPOSITE_TEMPERATURE))) {
            note(null, h.value(HealthField.COMPOSITE_TEMPERATURE), fields);
            h.clear(HealthField.COMPOSITE_TEMPERATURE);
        }
        for (HealthField field : ZERO_NOT_REPORTED) {
            if (h.value(field) == 0) {
                h.clear(field);
            }
        }
        judgeHours(h, collectedAt, fields);
        judgeSensors(h, fields);
        return h.build();
    }

    /** A drive whose spare is used up says so in its warning; one that counts none leaves all of it at zero. */
    private static void judgeSpare(Health.Builder h, Fields fields) {
        boolean allZero = h.has(HealthField.AVAILABLE_SPARE) && h.value(HealthField.AVAILABLE_SPARE) == 0
            && h.has(HealthField.AVAILABLE_SPARE_THRESHOLD) && h.value(HealthField.AVAILABLE_SPARE_THRESHOLD) == 0;
        if (allZero && h.has(HealthField.CRITICAL_WARNING) && (h.value(HealthField.CRITICAL_WARNING) & SPARE_IS_LOW) == 0) {
            fields.note(fields.of(Finding.SPARE_NOT_COUNTED));
            h.clear(HealthField.AVAILABLE_SPARE).clear(HealthField.AVAILABLE_SPARE_THRESHOLD);
        }
    }

    /** A sensor of 0 is not there; those at the end are left out, so that all formats agree. */
    private static void judgeSensors(Health.Builder h, Fields fields) {
        int[] kelvins = h.sensors();
        int there = 0;
        for (int i = 0; i < kelvins.length; i++) {
            if (kelvins[i] != 0) {
                there = i + 1;
                if (!isPlausible(kelvins[i])) {
                    note(there, kelvins[i], fields);
                    kelvins[i] = 0;
                }
            }
        }
        h.sensors(Arrays.copyOf(kelvins, there));
    }

    private static boolean isPlausible(long kelvin) {
        return kelvin >= COLDEST_KELVIN && kelvin <= HOTTEST_KELVIN;
    }

    /** @param sensor its number, {@code null} for the composite temperature */
    private static void note(Integer sensor, long kelvin, Fields fields) {
        boolean celsius = kelvin > 0 && isPlausible(kelvin + FREEZING_POINT_KELVIN);
        fields.note(fields.of(celsius ? Finding.TEMPERATURE_IN_CELSIUS : Finding.TEMPERATURE).with(Fact.COUNT, sensor).with(Fact.VALUE, kelvin)
            .with(Fact.LEAST, COLDEST_KELVIN).with(Fact.MOST, HOTTEST_KELVIN));
    }

    private static void judgeHours(Health.Builder h, Instant collectedAt, Fields fields) {
        if (collectedAt == null || h.value(HealthField.POWER_ON_HOURS) <= Duration.between(Health.FIRST_SPECIFICATION, collectedAt).toHours()) {
            return;
        }
        fields.note(fields.of(Finding.HOURS_BEYOND_TIME).with(Fact.VALUE, h.exact(HealthField.POWER_ON_HOURS))
            .with(Fact.MOST, Duration.between(Health.FIRST_SPECIFICATION, collectedAt).toHours()));
        h.clear(HealthField.POWER_ON_HOURS);
    }
}

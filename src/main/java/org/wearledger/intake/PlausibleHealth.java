package org.wearledger.intake;

import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.ProblemKind;

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

    interface Notes {
        void note(ProblemKind kind, String found, String expected, String remedy);
    }

    private PlausibleHealth() {
    }

    /** @param collectedAt {@code null} when it could not be read */
    static Health of(Health.Builder h, Instant collectedAt, Notes notes) {
        judgeSpare(h, notes);
        if (h.has(HealthField.COMPOSITE_TEMPERATURE) && !isPlausible(h.value(HealthField.COMPOSITE_TEMPERATURE))) {
            note("composite temperature", h.value(HealthField.COMPOSITE_TEMPERATURE), notes);
            h.clear(HealthField.COMPOSITE_TEMPERATURE);
        }
        for (HealthField field : ZERO_NOT_REPORTED) {
            if (h.value(field) == 0) {
                h.clear(field);
            }
        }
        judgeHours(h, collectedAt, notes);
        judgeSensors(h, notes);
        return h.build();
    }

    /** A drive whose spare is used up says so in its warning; one that counts none leaves all of it at zero. */
    private static void judgeSpare(Health.Builder h, Notes notes) {
        boolean allZero = h.has(HealthField.AVAILABLE_SPARE) && h.value(HealthField.AVAILABLE_SPARE) == 0
            && h.has(HealthField.AVAILABLE_SPARE_THRESHOLD) && h.value(HealthField.AVAILABLE_SPARE_THRESHOLD) == 0;
        if (allZero && h.has(HealthField.CRITICAL_WARNING) && (h.value(HealthField.CRITICAL_WARNING) & SPARE_IS_LOW) == 0) {
            notes.note(ProblemKind.OPTIONAL_FIELD_INVALID, "available spare of 0 % with a threshold of 0 % and no warning of it", "a spare that the drive counts",
                "both are taken as not reported; ask the drive's maker whether it counts its spare");
            h.clear(HealthField.AVAILABLE_SPARE).clear(HealthField.AVAILABLE_SPARE_THRESHOLD);
        }
    }

    /** A sensor of 0 is not there; those at the end are left out, so that all formats agree. */
    private static void judgeSensors(Health.Builder h, Notes notes) {
        int[] kelvins = h.sensors();
        int there = 0;
        for (int i = 0; i < kelvins.length; i++) {
            if (kelvins[i] != 0) {
                there = i + 1;
                if (!isPlausible(kelvins[i])) {
                    note("temperature sensor " + there, kelvins[i], notes);
                    kelvins[i] = 0;
                }
            }
        }
        h.sensors(Arrays.copyOf(kelvins, there));
    }

    private static boolean isPlausible(long kelvin) {
        return kelvin >= COLDEST_KELVIN && kelvin <= HOTTEST_KELVIN;
    }

    private static void note(String sensor, long kelvin, Notes notes) {
        String meaning = kelvin > 0 && isPlausible(kelvin + FREEZING_POINT_KELVIN) ? "; it may be degrees Celsius" : "";
        notes.note(ProblemKind.TEMPERATURE_IMPLAUSIBLE, sensor + " of " + kelvin + " K" + meaning,
            COLDEST_KELVIN + " to " + HOTTEST_KELVIN + " K", "it is taken as not reported; export kelvins, degrees Celsius plus 273");
    }

    private static void judgeHours(Health.Builder h, Instant collectedAt, Notes notes) {
        if (collectedAt == null || h.value(HealthField.POWER_ON_HOURS) <= Duration.between(Health.FIRST_SPECIFICATION, collectedAt).toHours()) {
            return;
        }
        notes.note(ProblemKind.POWER_ON_HOURS_IMPLAUSIBLE, h.exact(HealthField.POWER_ON_HOURS) + " power-on hours",
            "at most " + Duration.between(Health.FIRST_SPECIFICATION, collectedAt).toHours() + ", the hours from 2011 to the report's time",
            "they are taken as not reported; check the unit, which is hours, and the machine's clock");
        h.clear(HealthField.POWER_ON_HOURS);
    }
}

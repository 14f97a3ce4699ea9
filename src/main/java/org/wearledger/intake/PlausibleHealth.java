package org.wearledger.intake;

import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.wearledger.model.Health;
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

    interface Notes {
        void note(ProblemKind kind, String found, String expected, String remedy);
    }

    private PlausibleHealth() {
    }

    /** @param collectedAt {@code null} when it could not be read */
    static Health of(Health h, Instant collectedAt, Notes notes) {
        boolean spareUnknown = isSpareUnknown(h, notes);
        return new Health(h.criticalWarning(), composite(h.compositeTemperatureKelvin(), notes), spareUnknown ? null : h.availableSparePercent(),
            spareUnknown ? null : h.availableSpareThresholdPercent(), h.percentageUsed(), h.enduranceGroupCriticalWarningSummary(),
            nonZero(h.dataUnitsRead()), nonZero(h.dataUnitsWritten()), h.hostReadCommands(), h.hostWriteCommands(),
            h.controllerBusyMinutes(), h.powerCycles(), hours(h.powerOnHours(), collectedAt, notes), h.unsafeShutdowns(),
            h.mediaAndDataIntegrityErrors(), h.errorLogEntries(), h.warningTemperatureMinutes(),
            h.criticalTemperatureMinutes(), sensors(h.temperatureSensorsKelvin(), notes), h.thermalManagement1Transitions(),
            h.thermalManagement2Transitions(), h.thermalManagement1Seconds(), h.thermalManagement2Seconds());
    }

    /** A drive whose spare is used up says so in its warning; one that counts none leaves all of it at zero. */
    private static boolean isSpareUnknown(Health h, Notes notes) {
        boolean unknown = h.availableSparePercent() != null && h.availableSparePercent() == 0 && h.availableSpareThresholdPercent() != null
            && h.availableSpareThresholdPercent() == 0 && h.criticalWarning() != null && (h.criticalWarning() & SPARE_IS_LOW) == 0;
        if (unknown) {
            notes.note(ProblemKind.OPTIONAL_FIELD_INVALID, "available spare of 0 % with a threshold of 0 % and no warning of it", "a spare that the drive counts",
                "both are taken as not reported; ask the drive's maker whether it counts its spare");
        }
        return unknown;
    }

    private static BigInteger nonZero(BigInteger counter) {
        return counter == null || counter.signum() == 0 ? null : counter;
    }

    private static Integer composite(Integer kelvin, Notes notes) {
        if (kelvin == null || isPlausible(kelvin)) {
            return kelvin;
        }
        note("composite temperature", kelvin, notes);
        return null;
    }

    /** A sensor of 0 is not there; those at the end are left out, so that all formats agree. */
    private static List<Integer> sensors(List<Integer> kelvins, Notes notes) {
        int last = kelvins.size();
        boolean plausible = true;
        while (last > 0 && kelvins.get(last - 1) == 0) {
            last--;
        }
        for (int i = 0; i < last; i++) {
            int kelvin = kelvins.get(i);
            if (kelvin != 0 && !isPlausible(kelvin)) {
                plausible = false;
                note("temperature sensor " + (i + 1), kelvin, notes);
            }
        }
        return plausible ? last == kelvins.size() ? kelvins : kelvins.subList(0, last)
            : kelvins.subList(0, last).stream().map(kelvin -> isPlausible(kelvin) ? kelvin : 0).toList();
    }

    private static boolean isPlausible(int kelvin) {
        return kelvin >= COLDEST_KELVIN && kelvin <= HOTTEST_KELVIN;
    }

    private static void note(String sensor, int kelvin, Notes notes) {
        String meaning = kelvin > 0 && isPlausible(kelvin + FREEZING_POINT_KELVIN) ? "; it may be degrees Celsius" : "";
        notes.note(ProblemKind.TEMPERATURE_IMPLAUSIBLE, sensor + " of " + kelvin + " K" + meaning,
            COLDEST_KELVIN + " to " + HOTTEST_KELVIN + " K", "it is taken as not reported; export kelvins, degrees Celsius plus 273");
    }

    private static BigInteger hours(BigInteger hours, Instant collectedAt, Notes notes) {
        if (hours == null || collectedAt == null) {
            return hours;
        }
        long most = Duration.between(Health.FIRST_SPECIFICATION, collectedAt).toHours();
        if (hours.compareTo(BigInteger.valueOf(most)) <= 0) {
            return hours;
        }
        notes.note(ProblemKind.POWER_ON_HOURS_IMPLAUSIBLE, hours + " power-on hours",
            "at most " + most + ", the hours from 2011 to the report's time",
            "they are taken as not reported; check the unit, which is hours, and the machine's clock");
        return null;
    }
}

package org.wearledger.assess;

import java.math.BigInteger;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;

/**
 * What the drive itself reports of failing.
 *
 * @param urgent findings that make a drive urgent, each a clause
 * @param noted findings to mention without acting on them
 * @param errorsReported whether the drive reports warnings or media errors at all
 */
record WarningSigns(List<String> urgent, List<String> noted, boolean errorsReported) {

    static WarningSigns of(DriveHistory history) {
        Health latest = lastReported(history);
        List<String> urgent = new ArrayList<>();
        if (latest.mediaReadOnly()) {
            urgent.add("the drive reports that its media is read-only");
        }
        if (latest.reliabilityDegraded()) {
            urgent.add("the drive reports degraded reliability");
        }
        Integer spare = latest.availableSparePercent();
        Integer threshold = latest.availableSpareThresholdPercent();
        if (spare != null && threshold != null && spare <= threshold) {
            urgent.add("spare blocks are down to " + spare + " %, the drive's threshold is " + threshold + " %");
        } else if (latest.spareBelowThreshold()) {
            urgent.add("the drive reports its spare blocks below the threshold");
        }
        List<String> noted = new ArrayList<>();
        String rise = latestRiseOfMediaErrors(history);
        BigInteger errors = latest.mediaAndDataIntegrityErrors();
        if (rise != null) {
            urgent.add(rise);
        } else if (errors != null && errors.signum() > 0) {
            noted.add(errors + (errors.equals(BigInteger.ONE) ? " media error is" : " media errors are")
                + " on the counter, " + (history.points().size() == 1 ? "with one reading to judge by"
                    : "with no rise seen within the last year"));
        }
        return new WarningSigns(List.copyOf(urgent), List.copyOf(noted), latest.criticalWarning() != null || errors != null);
    }

    /** A warning does not lapse because the next report leaves its field out. */
    private static Health lastReported(DriveHistory history) {
        Health health = history.latest().reading().health();
        for (int i = history.points().size() - 2; i >= 0; i--) {
            Health before = history.points().get(i).reading().health();
            health = new Health(or(health.criticalWarning(), before.criticalWarning()), health.compositeTemperatureKelvin(),
                or(health.availableSparePercent(), before.availableSparePercent()),
                or(health.availableSpareThresholdPercent(), before.availableSpareThresholdPercent()), health.percentageUsed(),
                health.enduranceGroupCriticalWarningSummary(), health.dataUnitsRead(), health.dataUnitsWritten(),
                health.hostReadCommands(), health.hostWriteCommands(), health.controllerBusyMinutes(), health.powerCycles(),
                health.powerOnHours(), health.unsafeShutdowns(),
                or(health.mediaAndDataIntegrityErrors(), before.mediaAndDataIntegrityErrors()), health.errorLogEntries(),
                health.warningTemperatureMinutes(), health.criticalTemperatureMinutes(), health.temperatureSensorsKelvin(),
                health.thermalManagement1Transitions(), health.thermalManagement2Transitions(),
                health.thermalManagement1Seconds(), health.thermalManagement2Seconds());
        }
        return health;
    }

    private static <T> T or(T value, T before) {
        return value != null ? value : before;
    }

    /** A rise counts when the reading that shows it lies within 365 days of the latest; gaps are bridged. */
    private static String latestRiseOfMediaErrors(DriveHistory history) {
        Instant since = history.latest().reading().collectedAt().minus(WriteRates.LATELY);
        BigInteger before = null;
        String rise = null;
        int epoch = 0;
        for (HistoryPoint point : history.points()) {
            BigInteger errors = point.reading().health().mediaAndDataIntegrityErrors();
            if (point.epoch() != epoch) {
                before = null;
                epoch = point.epoch();
            }
            if (errors == null) {
                continue;
            }
            Instant at = point.reading().collectedAt();
            if (before != null && errors.compareTo(before) > 0 && !at.isBefore(since)) {
                rise = "media errors rose from " + before + " to " + errors + " by "
                    + LocalDate.ofInstant(at, ZoneOffset.UTC);
            }
            before = errors;
        }
        return rise;
    }
}

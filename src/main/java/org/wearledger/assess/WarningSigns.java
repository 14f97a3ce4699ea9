package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.WarningSign.Kind;
import org.wearledger.model.WarningSign;

/**
 * What the drive itself reports of failing.
 *
 * @param urgent findings that make a drive urgent
 * @param noted findings to mention without acting on them
 * @param errorsReported whether the drive reports warnings or media errors at all
 */
record WarningSigns(List<WarningSign> urgent, List<String> noted, boolean errorsReported) {
    private static final List<HealthField> SIGNS = List.of(HealthField.CRITICAL_WARNING, HealthField.AVAILABLE_SPARE, HealthField.AVAILABLE_SPARE_THRESHOLD,
        HealthField.MEDIA_ERRORS);

    static WarningSigns of(DriveHistory history) {
        Health latest = lastReported(history);
        List<WarningSign> urgent = new ArrayList<>();
        if (latest.mediaReadOnly()) {
            urgent.add(WarningSign.of(Kind.READ_ONLY));
        }
        if (latest.reliabilityDegraded()) {
            urgent.add(WarningSign.of(Kind.RELIABILITY_DEGRADED));
        }
        Integer spare = latest.availableSparePercent();
        Integer threshold = latest.availableSpareThresholdPercent();
        if (spare != null && threshold != null && spare <= threshold) {
            urgent.add(new WarningSign(Kind.SPARE_AT_THRESHOLD, spare, threshold, null));
        } else if (latest.spareBelowThreshold()) {
            urgent.add(WarningSign.of(Kind.SPARE_BELOW_THRESHOLD));
        }
        List<String> noted = new ArrayList<>();
        WarningSign rise = latestRiseOfMediaErrors(history);
        Long errors = latest.mediaAndDataIntegrityErrors();
        if (rise != null) {
            urgent.add(rise);
        } else if (errors != null && errors > 0) {
            noted.add(errors + (errors == 1 ? " media error is" : " media errors are")
                + " on the counter, " + (history.points().size() == 1 ? "with one reading to judge by"
                    : "with no rise seen within the last year"));
        }
        return new WarningSigns(List.copyOf(urgent), List.copyOf(noted), latest.criticalWarning() != null || errors != null);
    }

    /** A warning does not lapse because the next report leaves its field out. */
    private static Health lastReported(DriveHistory history) {
        Health.Builder health = history.latest().reading().health().toBuilder();
        for (int i = history.points().size() - 2; i >= 0; i--) {
            Health before = history.points().get(i).reading().health();
            SIGNS.stream().filter(sign -> !health.has(sign)).forEach(sign -> health.fill(sign, before));
        }
        return health.build();
    }

    /** A rise counts when the reading that shows it lies within 365 days of the latest; gaps are bridged. */
    private static WarningSign latestRiseOfMediaErrors(DriveHistory history) {
        Instant since = history.latest().reading().collectedAt().minus(WriteRates.LATELY);
        Long before = null;
        WarningSign rise = null;
        int epoch = 0;
        for (HistoryPoint point : history.points()) {
            Long errors = point.reading().health().mediaAndDataIntegrityErrors();
            if (point.epoch() != epoch) {
                before = null;
                epoch = point.epoch();
            }
            if (errors == null) {
                continue;
            }
            Instant at = point.reading().collectedAt();
            if (before != null && errors > before && !at.isBefore(since)) {
                rise = new WarningSign(Kind.MEDIA_ERRORS_ROSE, before, errors, LocalDate.ofInstant(at, ZoneOffset.UTC));
            }
            before = errors;
        }
        return rise;
    }
}

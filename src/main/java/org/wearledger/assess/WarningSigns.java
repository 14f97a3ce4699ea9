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

/**
 * What the drive itself reports of failing.
 *
 * @param urgent findings that make a drive urgent, each a clause
 * @param noted findings to mention without acting on them
 * @param errorsReported whether the drive reports warnings or media errors at all
 */
record WarningSigns(List<String> urgent, List<String> noted, boolean errorsReported) {
    private static final List<HealthField> SIGNS = List.of(HealthField.CRITICAL_WARNING, HealthField.AVAILABLE_SPARE, HealthField.AVAILABLE_SPARE_THRESHOLD,
        HealthField.MEDIA_ERRORS);

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
    private static String latestRiseOfMediaErrors(DriveHistory history) {
        Instant since = history.latest().reading().collectedAt().minus(WriteRates.LATELY);
        Long before = null;
        String rise = null;
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
                rise = "media errors rose from " + before + " to " + errors + " by "
                    + LocalDate.ofInstant(at, ZoneOffset.UTC);
            }
            before = errors;
        }
        return rise;
    }
}

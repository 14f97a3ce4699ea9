package org.wearledger.job;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Consumer;
import org.wearledger.history.DriveHistories;
import org.wearledger.history.HistoryOutcome;
import org.wearledger.history.Limits;
import org.wearledger.intake.PackedReading;
import org.wearledger.model.DriveId;
import org.wearledger.model.Reading;

/** Joins the readings of one share of the drives to their histories. All of a drive's readings are in the same share. */
final class Joining {
    private Joining() {
    }

    /** @param also sees each drive's outcome, in the order of their ids */
    static JoinFindings findings(Iterator<ReadingBatch> batches, Limits limits, Consumer<HistoryOutcome> also) {
        JoinFindings findings = new JoinFindings();
        List<Reading> readings = new ArrayList<>();
        batches.forEachRemaining(batch -> {
            readings.addAll(batch.unpacked(KeptHistories.Wanted.ALL));
            if (batch.tally() != null) {
                findings.intake.add(batch.tally());
            }
        });
        LatestReport.latest(readings, limits).values().forEach(reading -> findings.latestReports.add(PackedReading.pack(reading)));
        outcomes(readings, limits, outcome -> {
            findings.add(outcome);
            also.accept(outcome);
        });
        return findings;
    }

    /** The wanted drives alone. */
    static void outcomes(Iterator<ReadingBatch> batches, KeptHistories.Wanted wanted, Limits limits, Consumer<HistoryOutcome> to) {
        List<Reading> readings = new ArrayList<>();
        batches.forEachRemaining(batch -> readings.addAll(batch.unpacked(wanted)));
        outcomes(readings, limits, to);
    }

    private static void outcomes(Collection<Reading> readings, Limits limits, Consumer<HistoryOutcome> to) {
        Map<DriveId, List<Reading>> byDrive = new TreeMap<>();
        readings.forEach(reading -> byDrive.computeIfAbsent(reading.drive().id(), id -> new ArrayList<>()).add(reading));
        byDrive.forEach((id, own) -> to.accept(DriveHistories.build(id, own, limits)));
    }
}

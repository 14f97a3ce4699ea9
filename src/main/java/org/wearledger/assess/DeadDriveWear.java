package org.wearledger.assess;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Interval;
import org.wearledger.model.Repair;
import org.wearledger.model.RepairSummary.DeadDrives;
import org.wearledger.stats.Scores;

/** How many of the drives that came in dead were worn. */
public final class DeadDriveWear {
    private static final double CONFIDENCE = 0.95;
    static final double FULL_PERCENT = 100;

    private DeadDriveWear() {
    }

    /**
     * Of n dead drives r tell their wear and w of them were worn: the share of all lies from w / n to (w + n - r) / n, with the lower end of the exact
     * interval (Clopper and Pearson 1934) of the one and the upper end of that of the other.
     *
     * @param driveOf the drives of the repairs of which it is known
     * @param assessments of those drives at their last report
     */
    public static DeadDrives of(Collection<Repair> repairs, Map<Repair, DriveId> driveOf, Map<DriveId, DriveAssessment> assessments) {
        Set<String> counted = new HashSet<>();
        int read = 0;
        int worn = 0;
        for (Repair repair : repairs) {
            if (repair.reason() == Repair.Reason.DEAD_DRIVE && counted.add(DriveId.fold(repair.ticket()) + "\0" + DriveId.fold(repair.machineId()))) {
                DriveAssessment drive = assessments.get(driveOf.get(repair));
                Double percent = drive == null ? null : percentOn(drive, repair.date());
                read += percent == null ? 0 : 1;
                worn += percent != null && percent >= FULL_PERCENT ? 1 : 0;
            }
        }
        int dead = counted.size();
        Interval share = dead == 0 ? null
            : new Interval(Scores.clopperPearson(worn, dead, CONFIDENCE).low(), Scores.clopperPearson(worn + dead - read, dead, CONFIDENCE).high());
        return new DeadDrives(dead, read, worn, share);
    }

    /** The larger of the two measures on that day, of a drive that went on writing as before; {@code null} when neither is known. */
    static Double percentOn(DriveAssessment drive, LocalDate day) {
        Double consumed = drive.wear().consumedPercent();
        Integer used = drive.percentageUsed();
        if (consumed == null && used == null) {
            return null;
        }
        double percent = Math.max(consumed == null ? 0 : consumed, used == null ? 0 : used);
        Double rate = drive.pace().gigabytesPerDay();
        Double written = drive.terabytesWritten();
        if (rate == null || written == null || written <= 0) {
            return percent;
        }
        long days = Math.max(0, ChronoUnit.DAYS.between(drive.latest().collectedOn(), day));
        return percent * (1 + rate * days / 1_000 / written);
    }
}

package org.wearledger.assess;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;

/** Puts a drive's standing into one plain sentence of clauses, without a final stop. */
final class Reasons {
    /** Further apart than this, in points of percentage, the two clocks are both named. */
    private static final double CLOCKS_DISAGREE_POINTS = 50;

    private Reasons() {
    }

    static String of(DriveAssessment drive, WarningSigns signs) {
        List<String> clauses = new ArrayList<>(signs.urgent());
        clauses.add(clocks(drive));
        addTime(drive, clauses);
        clauses.addAll(signs.noted());
        if (drive.standing() == Standing.WITHIN_RATING && signs.noted().isEmpty()) {
            clauses.add("no wear or error signal seen");
        }
        if (drive.consumedPercent() != null && drive.endurance().assumed()) {
            clauses.add("the rating is assumed, 0.6 TB per GB of capacity");
        }
        if (drive.epochs() > 1) {
            int resets = drive.epochs() - 1;
            clauses.add("its counters went back " + (resets == 1 ? "once" : resets + " times")
                + " and the writes are added up");
        }
        return String.join("; ", clauses);
    }

    private static String clocks(DriveAssessment drive) {
        Double consumed = drive.consumedPercent();
        Integer used = drive.percentageUsed();
        if (consumed == null) {
            String missing = drive.bytesWritten() == null ? "bytes written are not reported"
                : "neither a rating nor a capacity is known";
            return used == null ? missing + ", and the controller reports no percentage used"
                : "the controller itself reports " + used + " % used; " + missing
                    + ", so this rests on the controller alone";
        }
        boolean disagree = used != null && (consumed >= 100 != used >= 100
            || Math.abs(consumed - used) > CLOCKS_DISAGREE_POINTS);
        if (disagree) {
            return format("%.1f %% of the rating is written; the controller itself reports %d %% used", consumed, used);
        }
        return format("%.1f %% of the rating is written (%.1f of %s TB)", consumed, drive.terabytesWritten(),
            drive.endurance().ratedTerabytesWritten().stripTrailingZeros().toPlainString())
            + (used != null && used >= 100 ? "; the controller itself reports " + used + " % used" : "");
    }

    private static void addTime(DriveAssessment drive, List<String> clauses) {
        if (drive.consumedPercent() == null) {
            return;
        }
        if (drive.projection() instanceof Projection.Reaches reaches) {
            clauses.add(format("at %.1f GB a day the rating is reached on %s", drive.gigabytesPerDay(), reaches.date())
                + (reaches.beyondEvidence() ? ", a date well beyond what the readings cover" : ""));
        } else if (drive.gigabytesPerDay() == null && drive.projection() instanceof Projection.None none) {
            clauses.add("no write rate yet: " + none.basis());
        }
    }

    private static String format(String pattern, Object... values) {
        return String.format(Locale.ROOT, pattern, values);
    }
}

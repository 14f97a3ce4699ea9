package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.SweepResult;

/** What a fleet's figures look like, and how many of its drives are in doubt, in one line each. */
public final class GlanceText {
    /** Of the drives: with fewer left, a wrong unit would show in the others. */
    private static final double NEARLY_ALL = 0.9;
    private static final int MOST_RULES = 3;

    private GlanceText() {
    }

    /** Nothing of no drive. */
    static List<String> lines(FleetGlance glance) {
        List<String> lines = new ArrayList<>();
        String medians = Stream.of(figure("%,.1f TB written", glance.terabytesWritten(), glance), figure("%,.0f %% used", glance.percentageUsed(), glance),
            figure("%,.0f power-on hours", glance.powerOnHours(), glance)).filter(Objects::nonNull).collect(Collectors.joining(", "));
        if (!medians.isEmpty()) {
            lines.add("read of " + Wording.count(glance.drives(), "drive") + ", in the middle (median): " + medians);
        }
        if (isUnchecked(glance.unchecked(), glance.terabytesWritten().drives())) {
            lines.add(unchecked(glance.unchecked(), glance.terabytesWritten().drives()) + "; check that the median is plausible");
        }
        return lines;
    }

    /** That of a sweep's active drives nothing reported speaks for or against the unit of their bytes written; empty where something does. */
    static String unchecked(SweepResult result) {
        List<DriveAssessment> written = result.machines().stream().flatMap(machine -> machine.activeDrives().stream()).filter(drive -> drive.wear().bytesWritten() != null).toList();
        long unchecked = written.stream().map(drive -> drive.latest().health()).filter(health -> health.percentageUsed() == null && health.hostWriteCommands() == null).count();
        if (!isUnchecked(unchecked, written.size())) {
            return "";
        }
        // The most written drive alone would hide a site that is a thousand times too low.
        double[] terabytes = written.stream().mapToDouble(DriveAssessment::terabytesWritten).sorted().toArray();
        return unchecked(unchecked, written.size()) + String.format(Locale.ROOT, "; check that %,.1f TB is plausible for the most written drive, and %,.1f TB for the one in the middle",
            terabytes[terabytes.length - 1], terabytes[(terabytes.length - 1) / 2]);
    }

    private static boolean isUnchecked(long unchecked, long withBytes) {
        return unchecked > 0 && unchecked >= NEARLY_ALL * withBytes;
    }

    private static String unchecked(long unchecked, long withBytes) {
        return "neither percentage used nor write commands are reported for " + unchecked + " of " + Wording.count(withBytes, "drive") + (withBytes == 1 ? " that reports" : " that report")
            + " bytes written, so a wrong unit of bytes written would not show";
    }

    /**
     * Each rule with its fields and number of drives, three at most, and the file where all are in one of several. Example: {@code 7 of 7 drives are in doubt: before sweeping check unit and
     * meaning of health.percentageUsed from "Wear" (percentage-used-fell, 7 drives)}.
     */
    static String doubt(FleetGlance glance) {
        int more = glance.doubts().size() - MOST_RULES;
        return inDoubt(glance.inDoubt(), glance.drives()) + ": before sweeping check unit and meaning of " + glance.doubts().stream().limit(MOST_RULES)
            .map(doubt -> FactWords.joined(doubt.questioned(), FactWords::withUnit) + " (" + doubt.rule().id() + ", " + Wording.count(doubt.drives(), "drive")
                + (doubt.onlyFile().isEmpty() ? "" : ", all in " + VisibleText.of(doubt.onlyFile())) + ")").collect(Collectors.joining("; "))
            + (more > 0 ? "; and by " + Wording.count(more, "other rule") + ", listed above" : "");
    }

    /** The same at the end of a sweep, of its active drives; empty without a doubt. */
    public static String doubt(SweepResult result) {
        InDoubtSentence doubt = new InDoubtSentence(result);
        return doubt.count() == 0 ? "" : inDoubt(doubt.count(), doubt.drives()) + ": before ordering check what " + (doubt.count() == 1 ? "it reports" : "they report")
            + "; problems.csv names the readings, and under a mapping the headings";
    }

    private static String inDoubt(long inDoubt, long drives) {
        return inDoubt + " of " + Wording.count(drives, "drive") + (inDoubt == 1 ? " is" : " are") + " in doubt";
    }

    /** With the number of drives that report it, where not all do. */
    private static String figure(String pattern, FleetGlance.Middle figure, FleetGlance glance) {
        return figure.median() == null ? null
            : String.format(Locale.ROOT, pattern, figure.median()) + (figure.drives() == glance.drives() ? "" : " (of " + figure.drives() + ")");
    }
}

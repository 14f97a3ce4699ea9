package org.wearledger.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.FleetGlance;
import org.wearledger.model.SweepResult;

/** What a fleet's figures look like, and how many of its drives are in doubt, in one line each. */
public final class GlanceText {
    /** Of the drives: with fewer left, a wrong unit would show in the others. */
    private static final double NEARLY_ALL = 0.9;

    private GlanceText() {
    }

    /** Nothing of no drive. */
    static List<String> lines(FleetGlance glance) {
        List<String> lines = new ArrayList<>();
        String medians = Stream.of(figure("%,.1f TB written", glance.medianTerabytesWritten()), figure("%,.0f %% used", glance.medianPercentageUsed()),
            figure("%,.0f power-on hours", glance.medianPowerOnHours())).filter(Objects::nonNull).collect(Collectors.joining(", "));
        if (!medians.isEmpty()) {
            lines.add("read of " + Wording.count(glance.drives(), "drive") + ", in the middle (median): " + medians);
        }
        if (glance.unchecked() > 0 && glance.unchecked() >= NEARLY_ALL * glance.withBytes()) {
            lines.add("neither percentage used nor write commands are reported for " + glance.unchecked() + " of " + Wording.count(glance.drives(), "drive")
                + ": a wrong unit of bytes written cannot be seen from these reports, unless it leads beyond what a drive can do; see whether the median can be");
        }
        return lines;
    }

    /** Example: {@code 7 of 7 drives are in doubt: before sweeping check the unit of health.dataUnitsWritten from "Host writes" in TB}. */
    static String doubt(FleetGlance glance) {
        return inDoubt(glance.inDoubt(), glance.drives()) + ": before sweeping check the unit of " + glance.questioned();
    }

    /** The same at the end of a sweep, of its active drives; empty without a doubt. */
    public static String doubt(SweepResult result) {
        DoubtText doubt = new DoubtText(result);
        return doubt.count() == 0 ? "" : inDoubt(doubt.count(), doubt.drives()) + ": before ordering check the units of what they report; problems.csv names the readings, and under a mapping the headings";
    }

    private static String inDoubt(long inDoubt, long drives) {
        return inDoubt + " of " + Wording.count(drives, "drive") + (inDoubt == 1 ? " is" : " are") + " in doubt";
    }

    private static String figure(String pattern, Double value) {
        return value == null ? null : String.format(Locale.ROOT, pattern, value);
    }
}

package org.wearledger.report;

import java.util.Locale;
import org.wearledger.model.AgainstRest;
import org.wearledger.model.Interval;
import org.wearledger.model.MemoryContrast;

/** What a comparison of models or memory sizes found, in a clause; ranges are 95 % intervals. */
final class DifferenceWords {
    private DifferenceWords() {
    }

    /** Example: {@code wears faster than the rest: +2.1 % a year (0.6 to 3.2)}. */
    static String of(AgainstRest model) {
        String difference = String.format(Locale.ROOT, "%+.1f %% a year", model.shiftPercentPerYear()) + Wording.between(model.interval95(), 1, 1);
        return switch (model.separation()) {
            case MORE_THAN_TYPICAL -> "wears faster than the rest: " + difference;
            case LESS_THAN_TYPICAL -> "wears slower than the rest: " + difference;
            case NOT_COMPARED -> model.own() < AgainstRest.LEAST_DRIVES ? tooFew("drives", model.own()) : tooFew("other drives", model.others());
            default -> "no clear difference from the rest: " + difference;
        };
    }

    private static String tooFew(String what, int found) {
        return "too few " + what + " to compare: " + found + " of the " + AgainstRest.LEAST_DRIVES + " needed";
    }

    /** Example: {@code 8 GiB machines write 25.0 GB a day more than 16 GiB machines (10.4 to 40.9): possibly swapping, check}. */
    static String of(MemoryContrast contrast) {
        String smaller = contrast.smallerGibibytes() + " GiB machines";
        String larger = contrast.largerGibibytes() + " GiB machines";
        Interval interval = contrast.shiftInterval95();
        return switch (contrast.separation()) {
            case MORE_THAN_TYPICAL -> smaller + " write " + rate(contrast.shiftGigabytesPerDay()) + " more than " + larger + Wording.between(interval, 1, 1) + ": possibly swapping, check";
            case LESS_THAN_TYPICAL -> smaller + " write " + rate(-contrast.shiftGigabytesPerDay()) + " less than " + larger + Wording.between(new Interval(-interval.high(), -interval.low()), 1, 1)
                + ": memory does not explain that; look at what the machines do";
            case NOT_COMPARED -> smaller + " and " + larger + ": too few to compare (" + contrast.smallerMachines() + " and " + contrast.largerMachines() + " with a known rate; "
                + MemoryContrast.LEAST_MACHINES + " each are needed)";
            default -> smaller + " and " + larger + ": no clear difference, " + String.format(Locale.ROOT, "%+.1f GB a day", contrast.shiftGigabytesPerDay()) + Wording.between(interval, 1, 1);
        };
    }

    private static String rate(double gigabytesPerDay) {
        return Wording.number(gigabytesPerDay, 1) + " GB a day";
    }
}

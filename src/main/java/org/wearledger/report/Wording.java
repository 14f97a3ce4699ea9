package org.wearledger.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.wearledger.model.Endurance;
import org.wearledger.model.Interval;

/** Wordings that the tables, the workbook and the summary share, so that one fact reads the same everywhere. */
final class Wording {
    private Wording() {
    }

    /** The rating's source, beginning with "assumed" when it is; {@code null} without a rating. */
    static String ratingSource(Endurance endurance) {
        if (endurance == null) {
            return null;
        }
        boolean saysSo = endurance.source().startsWith("assumed");
        return endurance.assumed() && !saysSo ? "assumed: " + endurance.source() : endurance.source();
    }

    /** Example: {@code 158.5}; a dash when there is no figure. */
    static String number(Number value, int places) {
        if (value == null || !Double.isFinite(value.doubleValue())) {
            return "-";
        }
        return new BigDecimal(value.toString()).setScale(places, RoundingMode.HALF_UP).toPlainString();
    }

    /** Examples: {@code 150 to 160 TB}, {@code 150 TB or more}. */
    static String terabytes(Interval interval) {
        String low = number(interval.low(), 0);
        return Double.isInfinite(interval.high()) ? low + " TB or more"
            : low + " to " + number(interval.high(), 0) + " TB";
    }

    /** A date more than a year ahead of {@code asOf} is printed as its month: a straight line knows no more. */
    static String projectedDate(LocalDate date, LocalDate asOf) {
        boolean farAhead = asOf == null || date.isAfter(asOf.plusYears(1));
        return farAhead ? date.toString().substring(0, date.toString().length() - 3) : date.toString();
    }

    static LocalDate day(Instant instant) {
        return instant == null ? null : LocalDate.ofInstant(instant, ZoneOffset.UTC);
    }

    /** Example: {@code count(1, "machine")} is "1 machine", of 2 "2 machines". */
    static String count(long number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }
}

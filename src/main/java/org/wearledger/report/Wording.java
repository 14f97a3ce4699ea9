package org.wearledger.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.wearledger.model.Calibration;
import org.wearledger.model.Endurance;
import org.wearledger.model.Interval;
import org.wearledger.model.MappingUse;
import org.wearledger.model.SweepResult;

/** Wordings that the tables, the workbook and the summary share, so that one fact reads the same everywhere. */
final class Wording {
    /** Of a drive's wear. */
    static final String TWO_MEASURES = "Two measures: bytes written, and the controller's percentage used; the worse counts";

    /** Of drive models: why one group can hold a model that stands out. */
    static final String TWO_COMPARISONS = "choose between groups, not within one: inside a group no model clearly differs from its fastest. "
        + "\"Faster\" and \"slower\" compare a model with all other drives of the fleet";

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

    /** Example: {@code 2,712.00 EUR}; without a price list no currency. */
    static String amount(BigDecimal amount, String currency) {
        return String.format(Locale.ROOT, "%,.2f", amount) + (currency.isEmpty() ? "" : " " + currency);
    }

    /** Examples: {@code 150 to 160 TB}, {@code 150 TB or more}, {@code at most 160 TB}. */
    static String terabytes(Interval interval) {
        if (interval.low() == 0) {
            return "at most " + number(interval.high(), interval.high() < 100 ? 1 : 0) + " TB";
        }
        int places = interval.low() < 100 ? 1 : 0;
        String low = number(interval.low(), places);
        return Double.isInfinite(interval.high()) ? low + " TB or more"
            : low + " to " + number(interval.high(), places) + " TB";
    }

    /** Example: {@code mapping north/mapping.json: 12 files, north/a.csv to north/l.csv}. */
    static String mapping(MappingUse use) {
        return (use.mapping() == null ? "no mapping" : "mapping " + use.mapping()) + ": " + (use.files() == 0 ? "no report" : count(use.files(), "file") + ", " + use.first()
            + (use.files() == 1 ? "" : " to " + use.last()));
    }

    /** How far the stated probabilities have held on this fleet. */
    static String calibration(SweepResult result) {
        Calibration past = result.fleet().calibration();
        if (past == null) {
            return "Projected dates are straight lines without stated uncertainty: a rough guide.";
        }
        return SelfCheckText.of(past, result.machines().stream().filter(machine -> machine.activeDrives().stream().anyMatch(drive -> drive.seen().readings() == 1)).count());
    }

    static String sentenceCase(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    static LocalDate day(Instant instant) {
        return instant == null ? null : LocalDate.ofInstant(instant, ZoneOffset.UTC);
    }

    /** Example: {@code count(1, "machine")} is "1 machine", of 2 "2 machines". */
    static String count(long number, String noun) {
        return number + " " + noun + (number == 1 ? "" : "s");
    }

    /** The first of them, and how many more there are. */
    static <T> String named(List<T> models, int most, Function<T, String> words) {
        return models.stream().limit(most).map(words).collect(Collectors.joining(", ")) + (models.size() > most ? " and " + (models.size() - most) + " more" : "");
    }

    /** An interval, such as {@code  (1.2 to 3.4)}. */
    static String between(Interval interval, double unit, int places) {
        return " (" + number(unit * interval.low(), places) + " to " + number(unit * interval.high(), places) + ")";
    }
}

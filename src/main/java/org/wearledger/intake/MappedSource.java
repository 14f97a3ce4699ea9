package org.wearledger.intake;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.TemporalAccessor;
import java.time.zone.ZoneOffsetTransition;
import java.util.regex.Pattern;
import org.wearledger.model.ProblemKind;

/**
 * Where an export holds a field, and how it writes it.
 *
 * @param from a heading, or a pointer such as {@code /drive/size}, written with dots as records hold it
 * @param unit {@code null} for the report form's own
 * @param format of a date or time, {@code null} for the report form's own
 * @param zone of times without an offset, {@code null} for UTC
 * @param decimalComma numbers are written {@code 12,5}
 */
record MappedSource(String from, String unit, String format, String zone, boolean decimalComma) implements Serializable {
    private static final Pattern PLAIN_NUMBER = Pattern.compile("-?\\d{1,39}(\\.\\d{1,18})?");
    private static final Pattern PERCENT_SIGN = Pattern.compile("[\\s\u00a0\u2009\u202f]*%$");

    DatePattern pattern() {
        return new DatePattern(format);
    }

    /** What is no plain number, or does not fit the format, is handed on as it stands and judged as any other value. */
    MappedValue read(String field, String text) {
        return format != null ? time(field, text) : unit != null ? measured(field, text) : MappedValue.of(text);
    }

    private MappedValue measured(String field, String text) {
        boolean percent = FieldUnits.isOfPercent(field);
        String number = percent && !FieldUnits.isShare(unit) ? PERCENT_SIGN.matcher(text).replaceFirst("") : text;
        String value = decimalComma ? number.replace(',', '.') : number;
        // Where commas are decimal, dots part thousands: judged as it stands, not taken for a fraction.
        if (decimalComma && text.indexOf('.') >= 0 || !PLAIN_NUMBER.matcher(value).matches()) {
            return MappedValue.of(text);
        }
        BigDecimal exact = new BigDecimal(value);
        String converted = FieldUnits.converted(field, unit, exact);
        if (converted == null) {
            return percent ? MappedValue.none("out of range", expectedNumber(field), "leave out what is not known, or correct the unit in the mapping") : MappedValue.of(text);
        }
        if (percent && exact.signum() < 0) {
            return new MappedValue(converted, ProblemKind.PERCENTAGE_REMAINING_BELOW_ZERO, "below zero", FieldUnits.percentExpected(field, unit),
                "read as " + converted + " percent used, since some controllers count on below zero; if it stands for \"not known\", name it in \"notReported\" of the mapping");
        }
        return percent && number.equals(text) && mayBeShare(exact) ? new MappedValue(converted, ProblemKind.UNITS_DOUBTFUL, "at most one percent, or a share",
            "percent with their sign, or shares by their unit", "read as percent, which gives " + converted + "; where 0.52 means 52 percent, the unit in the mapping is "
            + FieldUnits.shareFor(unit)) : MappedValue.of(converted);
    }

    /** Shares read as percent would leave every drive at 0 or 1, and nobody would see it. */
    private boolean mayBeShare(BigDecimal percent) {
        return !FieldUnits.isShare(unit) && percent.scale() > 0 && percent.signum() > 0 && percent.compareTo(BigDecimal.ONE) <= 0;
    }

    /** What a number in this unit looks like, for the problem of one that does not. */
    String expectedNumber(String field) {
        if (FieldUnits.isCount(unit)) {
            return "a plain number of " + unit + ", such as 123456";
        }
        String example = FieldUnits.isShare(unit) ? "0.52" : "12.5";
        return (FieldUnits.isOfPercent(field) ? FieldUnits.percentExpected(field, unit) : "a plain number of " + unit) + ", such as "
            + (decimalComma ? example.replace('.', ',') : example);
    }

    /** As RFC 3339, or a date alone. */
    private MappedValue time(String field, String text) {
        try {
            if (!field.equals("collectedAt")) {
                return MappedValue.of(pattern().date(text).toString());
            }
            ZoneId in = zone == null ? ZoneOffset.UTC : ZoneId.of(zone);
            TemporalAccessor parsed = pattern().time(text);
            return parsed instanceof OffsetDateTime at ? MappedValue.of(at.toInstant().toString())
                : parsed instanceof LocalDateTime local ? local(local, in)
                : MappedValue.of(((LocalDate) parsed).atStartOfDay(in).toInstant().toString());
        } catch (DateTimeException e) {
            return MappedValue.of(text);
        }
    }

    /** Where clocks are put forward an hour never comes; where they are put back one comes twice, and the earlier is taken. */
    private static MappedValue local(LocalDateTime local, ZoneId in) {
        ZoneOffsetTransition change = in.getRules().getTransition(local);
        String utc = local.atZone(in).toInstant().toString();
        if (change == null) {
            return MappedValue.of(utc);
        }
        String clocks = in + ": its clocks were put " + (change.isGap() ? "forward" : "back") + " from " + change.getDateTimeBefore().toLocalTime() + " to "
            + change.getDateTimeAfter().toLocalTime();
        return change.isGap() ? MappedValue.none("a time that never was in " + clocks, "a time that clocks there showed",
                "correct the zone in the mapping, or the value; in UTC no hour is left out")
            : new MappedValue(utc, ProblemKind.LOCAL_TIME_TWICE, "a time that came twice in " + clocks, "a time that came once",
                "read as the earlier, " + utc + "; export times in UTC or with their offset");
    }
}

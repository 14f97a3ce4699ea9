package org.wearledger.intake;

import java.io.Serializable;
import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.TemporalAccessor;
import java.time.zone.ZoneOffsetTransition;
import java.util.Map;
import java.util.regex.Pattern;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

/**
 * Where an export holds a field, and how it writes it.
 *
 * @param from a heading, or a pointer such as {@code /drive/size}, written with dots as records hold it
 * @param unit {@code null} for the report form's own
 * @param format of a date or time, {@code null} for the report form's own
 * @param zone of times without an offset, {@code null} for UTC
 * @param numbers how they are written
 */
record MappedSource(String from, String unit, DatePattern format, String zone, NumberForm numbers) implements Serializable {
    private static final Pattern PLAIN_NUMBER = Pattern.compile("-?\\d{1,39}(\\.\\d{1,18})?");
    private static final Pattern PERCENT_SIGN = Pattern.compile("[\\s\u00a0\u2009\u202f]*%$");

    /** What is no plain number, or does not fit the format, is handed on as it stands and judged as any other value. */
    MappedValue read(String field, String text) {
        return format != null ? time(field, text) : unit != null ? measured(field, text)
            : MappedValue.of(ReportField.named(field).quantity() == null ? text : numbers.ungrouped(text));
    }

    private MappedValue measured(String field, String text) {
        boolean percent = FieldUnits.isOfPercent(field);
        String number = percent && !FieldUnits.isShare(unit) ? PERCENT_SIGN.matcher(text).replaceFirst("") : text;
        String value = numbers.plain(number);
        if (value == null || !PLAIN_NUMBER.matcher(value).matches()) {
            return MappedValue.of(text);
        }
        BigDecimal exact = new BigDecimal(value);
        String converted = FieldUnits.converted(field, unit, exact);
        if (converted == null) {
            return percent ? new MappedValue(null, invalid(field), Map.of(Fact.SLIP, "OUT_OF_RANGE", Fact.ADVICE, "LEAVE_OUT_OR_UNIT")) : MappedValue.of(text);
        }
        if (percent && exact.signum() < 0) {
            return new MappedValue(converted, FieldUnits.isShare(unit) ? Finding.SHARE_REMAINING_BELOW_ZERO : Finding.REMAINING_BELOW_ZERO, Map.of(Fact.VALUE, converted));
        }
        return percent && number.equals(text) && mayBeShare(exact) ? new MappedValue(converted, Finding.PERHAPS_SHARE,
            Map.of(Fact.VALUE, converted, Fact.UNIT, FieldUnits.shareFor(unit))) : MappedValue.of(converted);
    }

    /** Shares read as percent would leave every drive at 0 or 1, and nobody would see it. */
    private boolean mayBeShare(BigDecimal percent) {
        return !FieldUnits.isShare(unit) && percent.scale() > 0 && percent.signum() > 0 && percent.compareTo(BigDecimal.ONE) <= 0;
    }

    /** What is found of a number in this unit that cannot be. */
    Finding invalid(String field) {
        return FieldUnits.isCount(unit) ? Finding.COUNT_IN_UNIT : !FieldUnits.isOfPercent(field) ? Finding.NUMBER_IN_UNIT
            : FieldUnits.isShare(unit) ? Finding.SHARE_INVALID : Finding.PERCENT_INVALID;
    }

    /** The problem with what a number in this unit looks like; as it is without a unit. */
    Problem expecting(String field, Problem problem) {
        if (unit == null) {
            return problem;
        }
        String example = FieldUnits.isShare(unit) ? "0.52" : "12.5";
        Problem inUnit = problem.with(Fact.EXAMPLE, numbers.decimalComma() ? example.replace('.', ',') : example);
        return FieldUnits.isOfPercent(field) ? FieldUnits.inRange(inUnit, field, unit) : inUnit.with(Fact.UNIT, unit);
    }

    /** Of times without an offset. */
    ZoneId zoneId() {
        return zone == null ? ZoneOffset.UTC : ZoneId.of(zone);
    }

    /** {@code null} where it does not fit the format, or clocks were changed. */
    Instant instant(String text, ZoneId in) {
        Instant counted = format.counted(text);
        if (counted != null) {
            return counted;
        }
        try {
            TemporalAccessor parsed = format.time(text.strip());
            return parsed instanceof OffsetDateTime at ? at.toInstant() : parsed instanceof LocalDate day ? day.atStartOfDay(in).toInstant()
                : in.getRules().getTransition((LocalDateTime) parsed) != null ? null : ((LocalDateTime) parsed).toInstant(in.getRules().getOffset((LocalDateTime) parsed));
        } catch (DateTimeException e) {
            return null;
        }
    }

    /** As RFC 3339, or a date alone. */
    private MappedValue time(String field, String text) {
        try {
            ZoneId in = zoneId();
            if (!field.equals(ReportField.COLLECTED_AT.dotted())) {
                return MappedValue.of(format.date(text, in).toString());
            }
            TemporalAccessor parsed = format.time(text);
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
        return new MappedValue(change.isGap() ? null : utc, change.isGap() ? Finding.TIME_NEVER : Finding.TIME_TWICE, Map.of(Fact.ZONE, in, Fact.AT, utc,
            Fact.BEFORE, change.getDateTimeBefore().toLocalTime(), Fact.AFTER, change.getDateTimeAfter().toLocalTime()));
    }
}

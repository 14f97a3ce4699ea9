package org.wearledger.intake;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Fact;
import org.wearledger.model.HealthField;
import org.wearledger.model.HealthField.Quantity;
import org.wearledger.model.Problem;

/**
 * The units in which a mapped export may give a field, and their conversion to the report form's own: exact, then rounded to a whole
 * number of bytes, data units (512,000 bytes), kelvin, hours or minutes half up, of percent down. A range is that of the exact number.
 *
 * <p>Percent are rounded down, so that a drive is past its rating (100 used) when the figure itself is, and not before; a spare is called
 * at its threshold up to one percent early, never late. Implied endurance and forecasts take the whole number p as anything from p - 1 to
 * p + 1, which holds the figure; implied endurance 100, as which nothing remaining is read, as 99 or more.
 */
final class FieldUnits {
    private static final String PERCENT = "percent";
    /** A hundredth part of it is a percent. */
    private static final String SHARE = "share";
    /** Behind either, of the controller's estimate: 100 percent, or 1, less what is used. */
    private static final String REMAINING = "Remaining";
    private static final Set<String> COUNTS = Set.of("bytes", "sectors", "dataUnits");
    private static final int DIGITS_BEHIND_THE_POINT = 12;
    private static final Scale SAME = new Scale(BigDecimal.ONE, BigDecimal.ONE, BigDecimal.ZERO);
    private static final Map<String, Scale> SIZES = Map.ofEntries(Map.entry("bytes", SAME), size("KB", 1000, 1), size("MB", 1000, 2), size("GB", 1000, 3), size("TB", 1000, 4),
        size("KiB", 1024, 1), size("MiB", 1024, 2), size("GiB", 1024, 3), size("TiB", 1024, 4), size("sectors", 512, 1), size("dataUnits", 512_000, 1));
    private static final Map<Quantity, Measure> MEASURES = Map.of(
        Quantity.BYTES, new Measure("bytes", "GB", SIZES),
        Quantity.DATA_UNITS, new Measure("data units", "TB", SIZES.entrySet().stream().collect(Collectors.toMap(Map.Entry::getKey, size -> size.getValue().over(512_000)))),
        Quantity.KELVIN, new Measure("kelvins", "celsius", Map.of("celsius", new Scale(BigDecimal.ONE, BigDecimal.ONE, new BigDecimal("273.15")), "kelvin", SAME)),
        Quantity.HOURS, new Measure("hours", "hours", Map.of("days", times(24), "hours", SAME, "minutes", SAME.over(60))),
        Quantity.MINUTES, new Measure("minutes", "minutes", Map.of("hours", times(60), "minutes", SAME)),
        Quantity.PERCENT, new Measure(null, null, Map.of(PERCENT, SAME, SHARE, times(100))),
        Quantity.PERCENT_USED, new Measure(null, null, Map.of(PERCENT, SAME, SHARE, times(100), PERCENT + REMAINING, remaining(1), SHARE + REMAINING, remaining(100))));
    private static final Measure NONE = new Measure(null, null, Map.of());

    /** From a unit to the report form's own. */
    private record Scale(BigDecimal times, BigDecimal over, BigDecimal plus) {
        Scale over(long divisor) {
            return new Scale(times, BigDecimal.valueOf(divisor), plus);
        }

        BigDecimal applied(BigDecimal number) {
            return quotient(number.multiply(times), over).add(plus);
        }
    }

    /**
     * @param wholes what a number is rounded to
     * @param usual the unit in which decimals are most often written
     * @param units those to choose from; none of a count, a text or a time
     */
    private record Measure(String wholes, String usual, Map<String, Scale> units) {
    }

    private FieldUnits() {
    }

    private static Scale times(long factor) {
        return new Scale(BigDecimal.valueOf(factor), BigDecimal.ONE, BigDecimal.ZERO);
    }

    private static Scale remaining(long percent) {
        return new Scale(BigDecimal.valueOf(-percent), BigDecimal.ONE, BigDecimal.valueOf(100));
    }

    private static Map.Entry<String, Scale> size(String unit, long base, int power) {
        return Map.entry(unit, times(BigDecimal.valueOf(base).pow(power).longValueExact()));
    }

    private static Measure measure(String field) {
        Quantity quantity = ReportField.named(field).quantity();
        return quantity == null ? NONE : MEASURES.getOrDefault(quantity, NONE);
    }

    /** Sorted; empty for a field that has none to choose. */
    static Set<String> allowed(String field) {
        return new TreeMap<>(measure(field).units).keySet();
    }

    /** Of a field that has units to choose and is not of percent: the one in which decimals are most often written. */
    static String usualWithDecimals(String field) {
        return ReportField.MEMORY_BYTES.dotted().equals(field) ? "GiB" : measure(field).usual;
    }

    /** What {@link #converted} rounds to, but for percent. */
    static String wholes(String field) {
        return measure(field).wholes;
    }

    /** The problem with the range of a field of percent, in the unit that the mapping names. */
    static Problem inRange(Problem problem, String field, String unit) {
        boolean remaining = unit.endsWith(REMAINING);
        BigDecimal most = BigDecimal.valueOf(remaining ? 100 : mostPercent(field));
        return problem.with(Fact.MOST, isShare(unit) ? most.movePointLeft(2).stripTrailingZeros().toPlainString() : most).with(Fact.REMAINING, remaining ? "yes" : null);
    }

    /** What the byte of the log page may hold. */
    private static long mostPercent(String field) {
        return ReportField.of(HealthField.PERCENTAGE_USED).dotted().equals(field) ? HealthField.PERCENTAGE_USED.largest() : HealthField.AVAILABLE_SPARE.largest();
    }

    static boolean isShare(String unit) {
        return unit.startsWith(SHARE);
    }

    /** The unit of shares that stands beside one of percent. */
    static String shareFor(String unit) {
        return unit.replace(PERCENT, SHARE);
    }

    static boolean isOfPercent(String field) {
        return measure(field).units.containsKey(PERCENT);
    }

    /** Whether it counts things that are not divided. */
    static boolean isCount(String unit) {
        return COUNTS.contains(unit);
    }

    /**
     * {@code null} for what cannot be in that unit: what is below zero, exactly and not when rounded, and percent out of range. Of a life
     * some controllers count on below zero: -4 remaining are 104 used.
     */
    static String converted(String field, String unit, BigDecimal number) {
        BigDecimal converted = measure(field).units.get(unit).applied(number);
        if (converted.signum() < 0) {
            return null;
        }
        if (!isOfPercent(field)) {
            return converted.setScale(0, RoundingMode.HALF_UP).toPlainString();
        }
        BigDecimal most = BigDecimal.valueOf(mostPercent(field));
        return converted.compareTo(most) > 0 && !unit.endsWith(REMAINING) ? null : converted.min(most).setScale(0, RoundingMode.FLOOR).toPlainString();
    }

    /** A conversion that whole numbers take without decimals on the way: times, and over with halves up. */
    record Whole(long times, long over) {
        /** Below zero for anything but a whole number that has room. */
        long converted(String text) {
            long number = Fields.digits(text);
            return number < 0 || number > Long.MAX_VALUE / 4 / times ? -1 : (2 * number * times + over) / (2 * over);
        }
    }

    /** {@code null} for a unit that is not only a multiple or a part of the report form's own, and for percent, which have a range. */
    static Whole whole(String field, String unit) {
        Scale scale = measure(field).units.get(unit);
        return isOfPercent(field) || scale.plus.signum() != 0 ? null : new Whole(scale.times.longValueExact(), scale.over.longValueExact());
    }

    /** A size in one of the units of bytes, in plain digits: 64 * 10^9 bytes in MB are {@code 64000}. */
    static String inUnit(long bytes, String unit) {
        return quotient(BigDecimal.valueOf(bytes), SIZES.get(unit).times).stripTrailingZeros().toPlainString();
    }

    /** Exact where nothing is divided. */
    private static BigDecimal quotient(BigDecimal number, BigDecimal divisor) {
        return divisor.equals(BigDecimal.ONE) ? number : number.divide(divisor, DIGITS_BEHIND_THE_POINT, RoundingMode.HALF_UP);
    }
}

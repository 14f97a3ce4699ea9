package org.wearledger.intake;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.model.Fact;
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
    private static final String USED = "health.percentageUsed";
    private static final Set<String> PERCENT_FIELDS = Set.of(USED, "health.availableSparePercent", "health.availableSpareThresholdPercent");
    private static final Set<String> COUNTS = Set.of("bytes", "sectors", "dataUnits");
    private static final BigDecimal BYTES_PER_DATA_UNIT = BigDecimal.valueOf(512_000);
    private static final BigDecimal CELSIUS_ZERO = new BigDecimal("273.15");
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);
    /** The byte of the log page holds no more (NVM Express Base Specification, SMART / Health Information, Percentage Used). */
    private static final BigDecimal MOST_USED = BigDecimal.valueOf(255);
    private static final int DIGITS_BEHIND_THE_POINT = 12;
    private static final Map<String, BigDecimal> BYTES = new TreeMap<>(Map.ofEntries(Map.entry("bytes", BigDecimal.ONE), size("KB", 1000, 1),
        size("MB", 1000, 2), size("GB", 1000, 3), size("TB", 1000, 4), size("KiB", 1024, 1), size("MiB", 1024, 2), size("GiB", 1024, 3),
        size("TiB", 1024, 4), Map.entry("sectors", BigDecimal.valueOf(512)), Map.entry("dataUnits", BYTES_PER_DATA_UNIT)));

    private FieldUnits() {
    }

    private static Map.Entry<String, BigDecimal> size(String unit, int base, int power) {
        return Map.entry(unit, BigDecimal.valueOf(base).pow(power));
    }

    /** Empty for a field that has none to choose. */
    static SortedSet<String> allowed(String field) {
        boolean bytes = field.endsWith("Bytes") || field.equals("health.dataUnitsWritten") || field.equals("health.dataUnitsRead");
        return bytes ? new TreeSet<>(BYTES.keySet()) : field.endsWith("Kelvin") ? new TreeSet<>(List.of("celsius", "kelvin"))
            : field.endsWith("Hours") ? new TreeSet<>(List.of("days", "hours", "minutes")) : field.endsWith("BusyMinutes") ? new TreeSet<>(List.of("hours", "minutes"))
            : field.equals(USED) ? new TreeSet<>(List.of(PERCENT, PERCENT + REMAINING, SHARE, SHARE + REMAINING)) : isOfPercent(field) ? new TreeSet<>(List.of(PERCENT, SHARE))
            : new TreeSet<>();
    }

    /** Of a field that has units to choose and is not of percent: the one in which decimals are most often written. */
    static String usualWithDecimals(String field) {
        return field.endsWith("Hours") ? "hours" : field.endsWith("Minutes") ? "minutes" : field.endsWith("Kelvin") ? "celsius"
            : field.equals("machine.memoryBytes") ? "GiB" : field.endsWith("Bytes") ? "GB" : "TB";
    }

    /** What {@link #converted} rounds to. */
    static String wholes(String field) {
        return field.endsWith("Hours") ? "hours" : field.endsWith("Minutes") ? "minutes" : field.endsWith("Kelvin") ? "kelvins"
            : field.endsWith("Bytes") ? "bytes" : "data units";
    }

    /** The problem with the range of a field of percent, in the unit that the mapping names. */
    static Problem inRange(Problem problem, String field, String unit) {
        BigDecimal most = mostPercent(field, unit);
        return problem.with(Fact.MOST, isShare(unit) ? most.movePointLeft(2).stripTrailingZeros().toPlainString() : most)
            .with(Fact.REMAINING, unit.endsWith(REMAINING) ? "yes" : null);
    }

    private static BigDecimal mostPercent(String field, String unit) {
        return field.equals(USED) && !unit.endsWith(REMAINING) ? MOST_USED : HUNDRED;
    }

    static boolean isShare(String unit) {
        return unit.startsWith(SHARE);
    }

    /** The unit of shares that stands beside one of percent. */
    static String shareFor(String unit) {
        return unit.replace(PERCENT, SHARE);
    }

    static boolean isOfPercent(String field) {
        return PERCENT_FIELDS.contains(field);
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
        if (isOfPercent(field)) {
            BigDecimal percent = isShare(unit) ? number.multiply(HUNDRED) : number;
            boolean remaining = unit.endsWith(REMAINING);
            return percent.signum() < 0 && !remaining || percent.compareTo(mostPercent(field, unit)) > 0 ? null
                : (remaining ? HUNDRED.subtract(percent).min(MOST_USED) : percent).setScale(0, RoundingMode.FLOOR).toPlainString();
        }
        BigDecimal converted = switch (unit) {
            case "celsius" -> number.add(CELSIUS_ZERO);
            case "kelvin", "hours" -> field.endsWith("BusyMinutes") ? number.multiply(BigDecimal.valueOf(60)) : number;
            case "days" -> number.multiply(BigDecimal.valueOf(24));
            case "minutes" -> field.endsWith("Hours") ? quotient(number, BigDecimal.valueOf(60)) : number;
            default -> field.endsWith("Bytes") ? number.multiply(BYTES.get(unit)) : quotient(number.multiply(BYTES.get(unit)), BYTES_PER_DATA_UNIT);
        };
        return converted.signum() < 0 ? null : converted.setScale(0, RoundingMode.HALF_UP).toPlainString();
    }

    /** A size in one of the units of bytes, in plain digits: 64 * 10^9 bytes in MB are {@code 64000}. */
    static String inUnit(long bytes, String unit) {
        return quotient(BigDecimal.valueOf(bytes), BYTES.get(unit)).stripTrailingZeros().toPlainString();
    }

    private static BigDecimal quotient(BigDecimal number, BigDecimal divisor) {
        return number.divide(divisor, DIGITS_BEHIND_THE_POINT, RoundingMode.HALF_UP);
    }
}

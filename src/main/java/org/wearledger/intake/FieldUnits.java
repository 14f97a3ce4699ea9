package org.wearledger.intake;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * The units in which a mapped export may give a field, and their conversion to the report form's own: exact, then rounded to a whole
 * number of bytes, data units (512,000 bytes), kelvin, hours or minutes half up, of percent down.
 *
 * <p>Percent are rounded down, so that a drive is past its rating (100 used) when the figure itself is, and not before; a spare is called
 * at its threshold up to one percent early, never late. Implied endurance and forecasts take the whole number p as anything from p - 1 to
 * p + 1, which holds the figure.
 */
final class FieldUnits {
    static final String PERCENT = "percent";
    /** Of the controller's estimate: 100 less what is used. */
    static final String PERCENT_REMAINING = "percentRemaining";
    private static final String USED = "health.percentageUsed";
    private static final Set<String> PERCENT_FIELDS = Set.of(USED, "health.availableSparePercent", "health.availableSpareThresholdPercent");
    private static final BigDecimal BYTES_PER_DATA_UNIT = BigDecimal.valueOf(512_000);
    private static final BigDecimal CELSIUS_ZERO = new BigDecimal("273.15");
    private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);
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
            : field.equals(USED) ? new TreeSet<>(List.of(PERCENT, PERCENT_REMAINING)) : isOfPercent(field) ? new TreeSet<>(List.of(PERCENT))
            : new TreeSet<>();
    }

    /** The range of a field of percent in words, in the unit that the mapping names. */
    static String percentExpected(String field, String unit) {
        return unit.equals(PERCENT_REMAINING) ? "0 to 100 percent remaining" : "0 to " + (field.equals(USED) ? 255 : 100) + " percent";
    }

    static boolean isOfPercent(String field) {
        return PERCENT_FIELDS.contains(field);
    }

    /** {@code null} for what cannot be in that unit: less than 0 or more than 100 percent remaining, which gives no percentage used. */
    static String converted(String field, String unit, BigDecimal number) {
        if (isOfPercent(field)) {
            boolean remaining = unit.equals(PERCENT_REMAINING);
            return remaining && (number.signum() < 0 || number.compareTo(HUNDRED) > 0) ? null
                : (remaining ? HUNDRED.subtract(number) : number).setScale(0, RoundingMode.FLOOR).toPlainString();
        }
        BigDecimal converted = switch (unit) {
            case "celsius" -> number.add(CELSIUS_ZERO);
            case "kelvin", "hours" -> field.endsWith("BusyMinutes") ? number.multiply(BigDecimal.valueOf(60)) : number;
            case "days" -> number.multiply(BigDecimal.valueOf(24));
            case "minutes" -> field.endsWith("Hours") ? quotient(number, BigDecimal.valueOf(60)) : number;
            default -> field.endsWith("Bytes") ? number.multiply(BYTES.get(unit)) : quotient(number.multiply(BYTES.get(unit)), BYTES_PER_DATA_UNIT);
        };
        return converted.setScale(0, RoundingMode.HALF_UP).toPlainString();
    }

    private static BigDecimal quotient(BigDecimal number, BigDecimal divisor) {
        return number.divide(divisor, DIGITS_BEHIND_THE_POINT, RoundingMode.HALF_UP);
    }
}

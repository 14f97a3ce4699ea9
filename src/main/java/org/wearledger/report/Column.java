package org.wearledger.report;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.util.function.Function;
import java.util.function.Predicate;

/**
 * One column of a table. The factories fix the Java type behind each cell type, so that a numeric column holds a number
 * or nothing: {@code String}, {@code BigDecimal}, {@code LocalDate} or {@code Instant}, and {@code null} for empty.
 *
 * @param name the CSV heading
 * @param heading the workbook heading
 * @param unit shown behind the workbook heading, empty for none
 * @param formula for the workbook, whose result is {@code value}, with {@code {name}} for the row's cell in another column;
 *     {@code null} for none
 */
record Column<T>(String name, String heading, String unit, CellType type, Function<T, Object> value,
                 Function<T, String> formula) {
    // The last day a spreadsheet's date can hold; a later one (a straight line over an idle drive) is left empty.
    private static final LocalDate LAST_DATE = LocalDate.of(9999, 12, 31);
    private static final LocalDate FIRST_DATE = LocalDate.of(1900, 3, 1);
    private static final double[] POWERS_OF_TEN = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    /** Up to here a shifted number is off by far less than {@link #IN_DOUBT}. */
    private static final double MOST_SHIFTED = 1e9;
    private static final double IN_DOUBT = 1e-6;

    static <T> Column<T> text(String name, String heading, Function<T, String> value) {
        return new Column<>(name, heading, "", CellType.TEXT, value::apply, null);
    }

    static <T> Column<T> longText(String name, String heading, Function<T, String> value) {
        return new Column<>(name, heading, "", CellType.LONG_TEXT, value::apply, null);
    }

    static <T> Column<T> yesNo(String name, String heading, Function<T, Boolean> value) {
        return text(name, heading, row -> value.apply(row) ? "yes" : "no");
    }

    static <T> Column<T> integer(String name, String heading, String unit, Function<T, ? extends Number> value) {
        return new Column<>(name, heading, unit, CellType.INTEGER, row -> rounded(value.apply(row), 0), null);
    }

    static <T> Column<T> decimal(String name, String heading, String unit, int places,
                                 Function<T, ? extends Number> value) {
        return new Column<>(name, heading, unit, CellType.decimal(places), row -> rounded(value.apply(row), places), null);
    }

    static <T> Column<T> date(String name, String heading, Function<T, LocalDate> value) {
        return new Column<>(name, heading, "", CellType.DATE, row -> holdable(value.apply(row)), null);
    }

    static <T> Column<T> instant(String name, String heading, Function<T, Instant> value) {
        return new Column<>(name, heading, "UTC", CellType.INSTANT, value::apply, null);
    }

    /** In the currency of the price list, in cents. */
    static <T> Column<T> money(String name, String heading, String currency, Function<T, BigDecimal> value) {
        return new Column<>(name, heading, currency, CellType.MONEY, row -> rounded(value.apply(row), 2), null);
    }

    /** To the row of the same machine on another sheet, found there however it is sorted; of the workbook alone. */
    static <T> Column<T> link(String sheet, Predicate<T> isThere) {
        return new Column<>("link", "See", "", CellType.LINK, row -> isThere.test(row) ? sheet : null,
            row -> isThere.test(row) ? "HYPERLINK(\"#'" + sheet + "'!A\"&MATCH({machineId},'" + sheet + "'!A:A,0),\"" + sheet + "\")" : null);
    }

    /** The same, worked out by the workbook itself. */
    Column<T> workedOut(Function<T, String> by) {
        return new Column<>(name, heading, unit, type, value, by);
    }

    Column<T> workedOut(String by) {
        return workedOut(row -> by);
    }

    /** The same, empty in all other rows. */
    Column<T> only(Predicate<T> rows) {
        return new Column<>(name, heading, unit, type, row -> rows.test(row) ? value.apply(row) : null, formula);
    }

    /** Example: {@code Written (TB)}. */
    String headingWithUnit() {
        return unit.isEmpty() ? heading : heading + " (" + unit + ")";
    }

    Object valueOf(T row) {
        return value.apply(row);
    }

    /** NaN and infinity stand for "no figure" and give an empty cell. */
    private static BigDecimal rounded(Number number, int places) {
        if (number instanceof Integer || number instanceof Long) {
            return BigDecimal.valueOf(number.longValue()).setScale(places, RoundingMode.HALF_UP);
        }
        if (number instanceof BigDecimal decimal) {
            return decimal.setScale(places, RoundingMode.HALF_UP);
        }
        return number == null || !Double.isFinite(number.doubleValue()) ? null : rounded(number.doubleValue(), places);
    }

    /** The number as it is written in decimal, rounded half up. That text is needed only where the rounding is in doubt: it takes longer than all else. */
    private static BigDecimal rounded(double number, int places) {
        double shifted = number * POWERS_OF_TEN[places];
        double below = Math.floor(shifted);
        return Math.abs(shifted) < MOST_SHIFTED && Math.abs(shifted - below - 0.5) > IN_DOUBT ? BigDecimal.valueOf((long) (shifted - below > 0.5 ? below + 1 : below), places)
            : BigDecimal.valueOf(number).setScale(places, RoundingMode.HALF_UP);
    }

    private static LocalDate holdable(LocalDate date) {
        return date == null || date.isAfter(LAST_DATE) || date.isBefore(FIRST_DATE) ? null : date;
    }
}

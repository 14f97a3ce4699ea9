package org.wearledger.report;

import java.util.Locale;
import java.util.function.Predicate;

/**
 * Of a sheet of facts, which no amount rests on.
 *
 * @param most rows, 1 or more
 */
record RowLimit(int most) {
    /** Those that matter, in their order, where there are more rows than the sheet may hold. */
    <T> Table<T> cut(Table<T> table, Predicate<T> matters) {
        return table.rows().size() <= most ? table : table.only(matters).firstRows(most);
    }

    /**
     * Says above a table that it was cut.
     *
     * @param which what the rows shown are, in words; empty for the first of all
     */
    void say(SheetWriter sheet, Table<?> shown, int all, String which, String csv) {
        if (shown.rows().size() < all) {
            sheet.above(String.format(Locale.ROOT, "%,d of %,d rows, worst first%s: all are in %s. For more here, sweep with --workbook-rows.", shown.rows().size(), all, which, csv));
        }
    }
}

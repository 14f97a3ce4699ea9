package org.wearledger.report;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Predicate;
import org.apache.poi.xssf.streaming.SXSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.openxmlformats.schemas.spreadsheetml.x2006.main.CTCol;

/** How wide a sheet's columns are, in characters. Kept here: the sheet looks through all its columns for the width of one. */
final class ColumnWidths {
    private static final int MOST_CHARACTERS = 28;
    private static final int MOST_CHARACTERS_WRAPPED = 46;
    private static final int ROWS_MEASURED = 2_000;
    /** Room for the filter's button, or a text's indent. */
    private static final int MARGIN_CHARACTERS = 3;
    private static final int WIDTH_UNITS_PER_CHARACTER = 256;
    /** Width of bold letters in percent of plain ones, on the safe side. */
    private static final int BOLD_PERCENT = 125;
    /** Narrower columns of numbers run into their neighbours' headings. */
    private static final int FEWEST_CHARACTERS_OF_NUMBERS = 11;

    private final SXSSFSheet sheet;
    private final Map<Integer, Integer> widths = new HashMap<>();

    ColumnWidths(SXSSFSheet sheet) {
        this.sheet = sheet;
    }

    void set(int column, int characters) {
        widths.put(column, characters);
        sheet.setColumnWidth(column, characters * WIDTH_UNITS_PER_CHARACTER);
    }

    int characters(int column) {
        return widths.computeIfAbsent(column, unset -> sheet.getColumnWidth(unset) / WIDTH_UNITS_PER_CHARACTER);
    }

    /** Hides the columns from {@code first} to before {@code end} behind a + in the next one. By hand: the library's own way gives columns that overlap, and slowly. */
    void fold(int first, int end) {
        XSSFSheet whole = sheet.getWorkbook().getXSSFWorkbook().getSheet(sheet.getSheetName());
        for (int i = first; i < end; i++) {
            set(i, characters(i));
            CTCol column = whole.getColumnHelper().getColumn(i, false);
            column.setOutlineLevel((short) 1);
            column.setHidden(true);
        }
        set(end, characters(end));
        whole.getColumnHelper().getColumn(end, false).setCollapsed(true);
        whole.getCTWorksheet().getSheetFormatPr().setOutlineLevelCol((short) 1);
    }

    /** Wide enough for this table, too. */
    <T> void widen(Table<T> table, Predicate<T> emphasised) {
        for (int i = 0; i < table.columns().size(); i++) {
            Column<T> column = table.columns().get(i);
            int heading = MARGIN_CHARACTERS + longestWord(column.headingWithUnit()) * BOLD_PERCENT / 100;
            int content = table.rows().stream().limit(ROWS_MEASURED)
                .mapToInt(row -> shownLength(column, row) * (emphasised.test(row) ? BOLD_PERCENT : 100) / 100).max()
                .orElse(0);
            // In a column of a table above, a long text wraps the sooner: figures would stand in a column too wide for them.
            int cap = column.type().kind() == CellType.Kind.LONG_TEXT && !widths.containsKey(i) ? MOST_CHARACTERS_WRAPPED : MOST_CHARACTERS;
            int least = column.type().isText() ? heading : Math.max(heading, FEWEST_CHARACTERS_OF_NUMBERS);
            set(i, Math.max(widths.getOrDefault(i, 0), Math.max(least, Math.min(content + MARGIN_CHARACTERS, cap))));
        }
    }

    private static int longestWord(String heading) {
        return Arrays.stream(heading.split(" ")).mapToInt(String::length).max().orElse(0);
    }

    private static <T> int shownLength(Column<T> column, T row) {
        Object value = column.valueOf(row);
        return value == null ? 0
            : value instanceof BigDecimal number ? number.toPlainString().length() : value.toString().length();
    }
}

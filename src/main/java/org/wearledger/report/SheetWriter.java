package org.wearledger.report;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Predicate;
import org.apache.commons.text.WordUtils;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.streaming.SXSSFSheet;

/** Writes one sheet from top to bottom, as the streaming workbook demands. */
final class SheetWriter {
    private static final int MOST_CHARACTERS = 28;
    private static final int MOST_CHARACTERS_WRAPPED = 46;
    private static final int ROWS_MEASURED = 2_000;
    /** Room for the filter's button, or a text's indent. */
    private static final int MARGIN_CHARACTERS = 3;
    private static final int WIDTH_UNITS_PER_CHARACTER = 256;
    private static final int INDENT_CHARACTERS = 2;
    private static final int NOTE_CHARACTERS = 120;
    /** Width of bold letters in percent of plain ones, on the safe side. */
    private static final int BOLD_PERCENT = 125;
    /** Narrower columns of numbers run into their neighbours' headings. */
    private static final int FEWEST_CHARACTERS_OF_NUMBERS = 11;
    /** The format's limit for a row. */
    private static final float MOST_POINTS = 409;
    private static final int CELL_LIMIT = SpreadsheetVersion.EXCEL2007.getMaxTextLength();

    private final SXSSFSheet sheet;
    private final Styles styles;
    private final Map<Integer, Integer> widths = new HashMap<>();
    private int nextRow;

    SheetWriter(SXSSFSheet sheet, Styles styles) {
        this.sheet = sheet;
        this.styles = styles;
        sheet.setFitToPage(true);
        PrintSetup print = sheet.getPrintSetup();
        print.setLandscape(true);
        print.setPaperSize(PrintSetup.A4_PAPERSIZE);
        print.setFitWidth((short) 1);
        print.setFitHeight((short) 0);
        sheet.getHeader().setLeft(styles.title());
        sheet.getHeader().setRight("&A");
        sheet.getFooter().setLeft("&A");
        sheet.getFooter().setRight("Page &P of &N");
    }

    /** A sheet that is one table: header row frozen, filtered and repeated in print. */
    <T> void dataSheet(Table<T> table, Predicate<T> emphasised) {
        int first = nextRow;
        table(table, emphasised);
        sheet.createFreezePane(1, first + 1);
        sheet.setRepeatingRows(new CellRangeAddress(first, first, -1, -1));
        sheet.setAutoFilter(new CellRangeAddress(first, nextRow - 1, 0, table.columns().size() - 1));
    }

    /** A table below what is there already; columns only ever get wider. */
    <T> void table(Table<T> table, Predicate<T> emphasised) {
        widen(table, emphasised);
        Row header = sheet.createRow(nextRow++);
        List<Column<T>> columns = table.columns();
        for (int i = 0; i < columns.size(); i++) {
            Cell cell = header.createCell(i);
            cell.setCellValue(columns.get(i).headingWithUnit());
            cell.setCellStyle(styles.header(columns.get(i).type()));
        }
        fitHeight(header);
        for (T item : table.rows()) {
            Row row = sheet.createRow(nextRow++);
            boolean bold = emphasised.test(item);
            for (int i = 0; i < columns.size(); i++) {
                Column<T> column = columns.get(i);
                Object value = column.valueOf(item);
                String formula = column.formula() == null ? null : column.formula().apply(item);
                put(row, i, formula == null ? value : new Formula(table.resolved(formula, nextRow), value, column.type()), column.type(), bold);
            }
            fitHeight(row);
        }
    }

    /** A row of loose cells: texts, numbers and dates side by side. */
    void line(boolean bold, Object... values) {
        Row row = sheet.createRow(nextRow++);
        for (int i = 0; i < values.length; i++) {
            put(row, i, valueOf(values[i]), typeOf(values[i]), bold);
            if (values[i] instanceof Input) {
                row.getCell(i).setCellStyle(styles.input(typeOf(values[i])));
            }
        }
        fitHeight(row);
    }

    /** One line across the columns beside it, to stand above a table. */
    void above(Object textOrFormula) {
        put(sheet.createRow(nextRow++), 0, textOrFormula, CellType.TEXT, true);
    }

    /** A text across the columns beside it, in as many rows as it takes: one long row would end at the edge of the paper. */
    void note(String text) {
        for (String line : WordUtils.wrap(text, NOTE_CHARACTERS, "\n", true).split("\n")) {
            put(sheet.createRow(nextRow++), 0, line, CellType.TEXT, false);
        }
    }

    /** Tall enough for its wrapped texts: a streamed sheet is not measured again by every program that opens it. */
    private void fitHeight(Row row) {
        int lines = 1;
        for (Cell cell : row) {
            if (styles.wraps(cell.getCellStyle())) {
                lines = Math.max(lines, linesOf(cell.getStringCellValue(), characters(cell.getColumnIndex()) - INDENT_CHARACTERS));
            }
        }
        if (lines > 1) {
            row.setHeightInPoints(Math.min(MOST_POINTS, lines * sheet.getDefaultRowHeightInPoints()));
        }
    }

    /** Kept here: the sheet looks through all its columns for the width of one. */
    private int characters(int column) {
        return widths.computeIfAbsent(column, unset -> sheet.getColumnWidth(unset) / WIDTH_UNITS_PER_CHARACTER);
    }

    private static int linesOf(String text, int charactersPerLine) {
        return text.length() <= charactersPerLine && text.indexOf('\n') < 0 ? 1 : WordUtils.wrap(text, Math.max(1, charactersPerLine), "\n", true).split("\n").length;
    }

    void printOnOnePage() {
        sheet.getPrintSetup().setLandscape(false);
        sheet.getPrintSetup().setFitHeight((short) 1);
    }

    /** The number of the last row written; the first is 1. */
    int row() {
        return nextRow;
    }

    /** Goes on at a later row. */
    void moveTo(int row) {
        nextRow = Math.max(nextRow, row);
    }

    void gap() {
        nextRow++;
    }

    void columnWidths(int... characters) {
        for (int i = 0; i < characters.length; i++) {
            widths.put(i, characters[i]);
            sheet.setColumnWidth(i, characters[i] * WIDTH_UNITS_PER_CHARACTER);
        }
    }

    private static Object valueOf(Object value) {
        return value instanceof Input input ? input.value() : value;
    }

    private static CellType typeOf(Object value) {
        return value instanceof Input input ? typeOf(input.value())
            : value instanceof Formula formula ? formula.type()
            : value instanceof Figure figure ? CellType.decimal(figure.decimals())
            : value instanceof BigDecimal ? CellType.MONEY
            : value instanceof LocalDate ? CellType.DATE
            : value instanceof Double ? CellType.decimal(1)
            : value instanceof Number ? CellType.INTEGER
            : CellType.LONG_TEXT;
    }

    private void put(Row row, int index, Object value, CellType type, boolean bold) {
        if (value == null) {
            return;
        }
        Cell cell = row.createCell(index);
        cell.setCellStyle(styles.cell(type, bold));
        if (value instanceof Formula formula) {
            cell.setCellFormula(formula.text());
            // The result too: what only shows a workbook, and does not work it out, shows it.
            set(cell, formula.result() == null ? "" : formula.result());
        } else {
            set(cell, value);
        }
    }

    private static void set(Cell cell, Object value) {
        if (value instanceof Figure figure) {
            cell.setCellValue(figure.value());
        } else if (value instanceof Number number) {
            cell.setCellValue(number.doubleValue());
        } else if (value instanceof LocalDate date) {
            cell.setCellValue(date);
        } else if (value instanceof Instant instant) {
            cell.setCellValue(LocalDateTime.ofInstant(instant, ZoneOffset.UTC));
        } else {
            cell.setCellValue(fitting(VisibleText.of(value.toString())));
        }
    }

    private static String fitting(String text) {
        return text.length() <= CELL_LIMIT ? text : text.substring(0, CELL_LIMIT - 1) + "\u2026";
    }

    private <T> void widen(Table<T> table, Predicate<T> emphasised) {
        for (int i = 0; i < table.columns().size(); i++) {
            Column<T> column = table.columns().get(i);
            int heading = MARGIN_CHARACTERS + longestWord(column.headingWithUnit()) * BOLD_PERCENT / 100;
            int content = table.rows().stream().limit(ROWS_MEASURED)
                .mapToInt(row -> shownLength(column, row) * (emphasised.test(row) ? BOLD_PERCENT : 100) / 100).max()
                .orElse(0);
            // In a column of a table above, a long text wraps the sooner: figures would stand in a column too wide for them.
            int cap = column.type().kind() == CellType.Kind.LONG_TEXT && !widths.containsKey(i) ? MOST_CHARACTERS_WRAPPED : MOST_CHARACTERS;
            int least = column.type().isText() ? heading : Math.max(heading, FEWEST_CHARACTERS_OF_NUMBERS);
            int wanted = Math.max(least, Math.min(content + MARGIN_CHARACTERS, cap));
            sheet.setColumnWidth(i, widths.merge(i, wanted, Math::max) * WIDTH_UNITS_PER_CHARACTER);
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

package org.wearledger.report;

import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.apache.commons.text.WordUtils;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellStyle;
import org.apache.poi.ss.usermodel.PageMargin;
import org.apache.poi.ss.usermodel.PrintSetup;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.util.CellRangeAddress;
import org.apache.poi.xssf.streaming.SXSSFSheet;

/** Writes one sheet from top to bottom, as the streaming workbook demands. */
final class SheetWriter {
    /** More would make a table too wide to read: the others are folded away. */
    static final int MOST_IN_VIEW = 15;
    private static final int INDENT_CHARACTERS = 2;
    private static final int NOTE_CHARACTERS = 120;
    /** Height of a line of text, and the room above and below all lines of a row: text that touches a rule is hard to read. */
    private static final float LINE_POINTS = 15;
    private static final float ROOM_POINTS = 4;
    private static final float TIGHT_POINTS = 13.5f;
    /** The format's limit for a row. */
    private static final float MOST_POINTS = 409;
    private static final Pattern BY_NUMBER = Pattern.compile("_(?=x[0-9A-Fa-f]{4}_)");
    private static final int CELL_LIMIT = SpreadsheetVersion.EXCEL2007.getMaxTextLength();

    private final SXSSFSheet sheet;
    private final Styles styles;
    private final ColumnWidths widths;
    private int nextRow;
    private int columnsWritten;

    SheetWriter(SXSSFSheet sheet, Styles styles) {
        this.sheet = sheet;
        this.styles = styles;
        widths = new ColumnWidths(sheet);
        sheet.setDefaultRowHeightInPoints(LINE_POINTS + ROOM_POINTS);
        sheet.setFitToPage(true);
        PrintSetup print = sheet.getPrintSetup();
        print.setLandscape(true);
        print.setPaperSize(PrintSetup.A4_PAPERSIZE);
        print.setFitWidth((short) 1);
        print.setFitHeight((short) 0);
        List.of(PageMargin.LEFT, PageMargin.RIGHT).forEach(side -> sheet.setMargin(side, PrintFit.MARGIN_INCHES));
        sheet.getHeader().setLeft(styles.title());
        sheet.getHeader().setRight("&A");
        sheet.getFooter().setLeft("&A");
        sheet.getFooter().setRight("Page &P of &N");
    }

    /** A sheet that is one table: header row frozen, filtered and repeated in print. */
    <T> void dataSheet(Table<T> table, Predicate<T> emphasised) {
        dataSheet(table, emphasised, MOST_IN_VIEW, MOST_IN_VIEW);
    }

    /**
     * @param inView as many columns, the first, are shown
     * @param printed as many are printed, if they are legible
     */
    <T> void dataSheet(Table<T> table, Predicate<T> emphasised, int inView, int printed) {
        int first = nextRow;
        table(table, emphasised);
        sheet.createFreezePane(1, first + 1);
        sheet.setRepeatingRows(new CellRangeAddress(first, first, -1, -1));
        view(inView, printed);
    }

    /** A table below what is there already; columns only ever get wider. */
    <T> void table(Table<T> table, Predicate<T> emphasised) {
        widths.widen(table, emphasised);
        int first = nextRow;
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
                CellStyle style = styles.row(column.type(), bold);
                if (formula != null) {
                    put(row, i, new Formula(table.resolved(formula, nextRow), value, column.type()), style);
                } else if (value != null) {
                    put(row, i, value, style);
                } else if (i < MOST_IN_VIEW) {
                    // For its rule.
                    row.createCell(i).setCellStyle(style);
                }
            }
            fitHeight(row);
        }
        columnsWritten = Math.max(columnsWritten, columns.size());
        NativeTable.over(sheet, table, first);
        Marks.on(sheet, table, first + 1);
    }

    /** Shows so many columns, and folds the others away; those are printed that are legible on one page's width. */
    void view(int inView, int mostPrinted) {
        if (columnsWritten > inView) {
            widths.fold(inView, columnsWritten);
        }
        int printed = PrintFit.columns(widths, Math.min(mostPrinted, columnsWritten), sheet.getPrintSetup().getLandscape());
        if (printed < columnsWritten) {
            sheet.getWorkbook().setPrintArea(sheet.getWorkbook().getSheetIndex(sheet), 0, printed - 1, 0, nextRow - 1);
        }
    }

    /** A row of loose cells: texts, numbers and dates side by side. */
    void line(boolean bold, Object... values) {
        Row row = sheet.createRow(nextRow++);
        for (int i = 0; i < values.length; i++) {
            put(row, i, valueOf(values[i]), styles.cell(typeOf(values[i]), bold));
            if (values[i] instanceof Input) {
                row.getCell(i, Row.MissingCellPolicy.CREATE_NULL_AS_BLANK).setCellStyle(styles.input(typeOf(values[i])));
            } else if (values[i] instanceof Heading) {
                row.getCell(i).setCellStyle(styles.cell(CellType.MONEY, true));
            }
        }
        fitHeight(row);
    }

    /** The same, no cell of which wraps. */
    void cells(boolean bold, Object... values) {
        sheet.createRow(nextRow++);
        for (int i = 0; i < values.length; i++) {
            beside(i, bold, values[i]);
        }
    }

    /** One cell more in the last row. */
    void beside(int column, boolean bold, Object value) {
        CellType type = typeOf(value);
        put(sheet.getRow(nextRow - 1), column, value, styles.cell(type.kind() == CellType.Kind.LONG_TEXT ? CellType.TEXT : type, bold));
    }

    /** A topic, and a text that wraps across several columns. */
    void wide(String topic, String text, int first, int last) {
        cells(true, topic);
        Row row = sheet.getRow(nextRow - 1);
        put(row, first, text, styles.cell(CellType.LONG_TEXT, false));
        sheet.addMergedRegion(new CellRangeAddress(nextRow - 1, nextRow - 1, first, last));
        int lines = linesOf(text, IntStream.rangeClosed(first, last).map(widths::characters).sum() - INDENT_CHARACTERS);
        row.setHeightInPoints(Math.min(MOST_POINTS, lines * LINE_POINTS + ROOM_POINTS));
    }

    /** One line across the columns beside it, to stand above a table. */
    void above(Object textOrFormula) {
        put(sheet.createRow(nextRow++), 0, textOrFormula, styles.cell(CellType.TEXT, true));
    }

    /** A text across the columns beside it, in as many rows as it takes: one long row would end at the edge of the paper. */
    void note(String text) {
        for (String line : WordUtils.wrap(text, NOTE_CHARACTERS, "\n", true).split("\n")) {
            put(sheet.createRow(nextRow++), 0, line, styles.cell(CellType.TEXT, false));
        }
    }

    /** Tall enough for its wrapped texts: a streamed sheet is not measured again by every program that opens it. */
    private void fitHeight(Row row) {
        int lines = 1;
        for (Cell cell : row) {
            // Columns beyond are folded away: their texts must not make every row tall.
            if (cell.getColumnIndex() < MOST_IN_VIEW && styles.wraps(cell.getCellStyle())) {
                lines = Math.max(lines, linesOf(cell.getStringCellValue(), widths.characters(cell.getColumnIndex()) - INDENT_CHARACTERS));
            }
        }
        if (lines > 1) {
            row.setHeightInPoints(Math.min(MOST_POINTS, lines * LINE_POINTS + ROOM_POINTS));
        }
    }

    private static int linesOf(String text, int charactersPerLine) {
        return text.length() <= charactersPerLine && text.indexOf('\n') < 0 ? 1 : WordUtils.wrap(text, Math.max(1, charactersPerLine), "\n", true).split("\n").length;
    }

    void printOnOnePage() {
        sheet.getPrintSetup().setLandscape(false);
        sheet.getPrintSetup().setFitHeight((short) 1);
    }

    /** What follows begins on a new page. */
    void pageBreak() {
        sheet.setRowBreak(nextRow - 1);
    }

    void printUpright() {
        sheet.getPrintSetup().setLandscape(false);
    }

    /** All of it on one page across. */
    void fillOnePage() {
        sheet.getPrintSetup().setFitHeight((short) 1);
        sheet.setDefaultRowHeightInPoints(TIGHT_POINTS);
        List.of(PageMargin.LEFT, PageMargin.RIGHT, PageMargin.TOP, PageMargin.BOTTOM).forEach(side -> sheet.setMargin(side, 0.4));
        List.of(PageMargin.HEADER, PageMargin.FOOTER).forEach(side -> sheet.setMargin(side, 0.2));
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
            widths.set(i, characters[i]);
        }
    }

    private static Object valueOf(Object value) {
        if (value instanceof Input input) {
            return input.value();
        }
        return value instanceof Heading heading ? heading.text() : value;
    }

    private static CellType typeOf(Object value) {
        if (value instanceof Input input) {
            return input.type() != null ? input.type() : typeOf(input.value());
        }
        if (value instanceof Formula formula) {
            return formula.type();
        }
        if (value instanceof Figure figure) {
            return CellType.decimal(figure.decimals());
        }
        if (value instanceof BigDecimal) {
            return CellType.MONEY;
        }
        if (value instanceof LocalDate) {
            return CellType.DATE;
        }
        if (value instanceof Double) {
            return CellType.decimal(1);
        }
        return value instanceof Number ? CellType.INTEGER : CellType.LONG_TEXT;
    }

    private static void put(Row row, int index, Object value, CellStyle style) {
        if (value == null) {
            return;
        }
        Cell cell = row.createCell(index);
        cell.setCellStyle(style);
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
            cell.setCellValue(fitting(asWritten(value.toString())));
        }
    }

    /** Visible, and never a character by its number: {@code _x202E_} in a name is those seven letters (ECMA-376 part 1, 22.9.2.19). */
    static String asWritten(String text) {
        String visible = VisibleText.of(text);
        return visible.contains("_x") ? BY_NUMBER.matcher(visible).replaceAll("_x005F_") : visible;
    }

    private static String fitting(String text) {
        return text.length() <= CELL_LIMIT ? text : text.substring(0, CELL_LIMIT - 1) + "\u2026";
    }
}

package org.wearledger.report;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Tables as CSV, the same bytes for the same table and form: UTF-8, line feeds, fixed decimals, ISO dates, times in UTC. */
record CsvWriter(CsvForm form) {
    private static final CSVFormat FORMAT = CSVFormat.DEFAULT.builder().setRecordSeparator('\n').get();
    /** What begins a formula; the last four are wide forms, which some spreadsheets take for the others. */
    private static final String SIGNS = "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20";
    private static final int PIECE = 1 << 16;

    <T> void write(Table<T> table, Path file) throws IOException {
        try (Writer writer = Files.newBufferedWriter(file, StandardCharsets.UTF_8)) {
            write(table, writer);
        }
    }

    /** In pieces, since a buffered writer takes a lock for each cell. */
    <T> void write(Table<T> table, Appendable out) throws IOException {
        StringBuilder piece = new StringBuilder();
        CSVPrinter printer = new CSVPrinter(piece, FORMAT.builder().setDelimiter(form.separator()).get());
        piece.append(form.mark());
        printer.printRecord(table.columns().stream().map(Column::name));
        for (T row : table.rows()) {
            for (Column<T> column : table.columns()) {
                printer.print(cell(column, row));
            }
            printer.println();
            if (piece.length() >= PIECE) {
                out.append(piece);
                piece.setLength(0);
            }
        }
        out.append(piece);
    }

    private <T> String cell(Column<T> column, T row) {
        Object value = column.valueOf(row);
        if (value == null) {
            return "";
        }
        if (value instanceof BigDecimal number) {
            return number.toPlainString().replace('.', form.decimalSign());
        }
        String text = value.toString();
        return column.type().isText() ? neutralised(VisibleText.of(text), form) : text;
    }

    /**
     * A text that a spreadsheet would run as a formula gets an apostrophe, also where a cell would begin in it for a spreadsheet that expects the
     * other separator. Examples: {@code '=1+1}, {@code a;'=1+1}.
     */
    static String neutralised(String text, CsvForm form) {
        String begun = !text.isEmpty() && SIGNS.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
        return begun.indexOf(form.otherSeparator()) < 0 ? begun : begun.replaceAll(form.otherSeparator() + "(?=[" + Pattern.quote(SIGNS) + "])", "$0'");
    }
}

package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;

/** A small workbook written to nowhere: what the library loads and prepares for it, the first workbook to be kept finds ready. */
final class WorkbookWarmUp {
    private static final LocalDate DAY = LocalDate.of(2025, 1, 6);

    private WorkbookWarmUp() {
    }

    static void run() {
        try (SXSSFWorkbook workbook = new LargeWorkbook(1)) {
            WorkbookProperties.set(workbook, "", "", DAY);
            Styles styles = new Styles(workbook, "");
            new SheetWriter(workbook.createSheet("a"), styles).dataSheet(new Table<>("a", List.of(Column.text("a", "A", text -> text), Column.longText("b", "B", text -> text),
                Column.date("c", "C", text -> DAY), Column.money("d", "D", "", text -> BigDecimal.ONE), Column.<String>decimal("e", "E", "", 1, text -> 1.5).workedOut(text -> "{d}")),
                List.of("a", "b")), row -> true);
            new BarCharts(workbook, "b", styles).compared("a", "b", "c", List.of("a"), List.of(new BarCharts.Series("a", new Double[] {1.0})));
            workbook.write(OutputStream.nullOutputStream());
        } catch (IOException | RuntimeException e) {
            // Nothing depends on it: the workbook to be kept will say it.
            return;
        }
    }
}

package org.wearledger.report;

import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import org.apache.poi.xssf.streaming.SXSSFWorkbook;

/**
 * Loads the workbook's library ahead, by a workbook of one row and two pictures that goes nowhere. It takes a good part of a second, as
 * long as a small sweep's own workbook, and a core that is idle while Spark opens.
 */
public final class Rehearsal {
    private final CompletableFuture<Void> running;

    private Rehearsal(CompletableFuture<Void> running) {
        this.running = running;
    }

    /** Starts it, beside what the caller does. */
    public static Rehearsal begin() {
        return new Rehearsal(CompletableFuture.runAsync(Rehearsal::write));
    }

    private static void write() {
        try (SXSSFWorkbook workbook = new LargeWorkbook(1)) {
            Styles styles = new Styles(workbook, "");
            List<Column<String>> columns = List.of(Column.longText("name", "Name", String::toString), Column.integer("length", "Length", "", String::length));
            SheetWriter sheet = new SheetWriter(workbook.createSheet("Table"), styles);
            sheet.dataSheet(new Table<>("Table", columns, List.of("rehearsal")), name -> true);
            sheet.line(false, "Sum", new Formula("B2", 9, CellType.INTEGER));
            BarCharts.Series series = new BarCharts.Series("series", new Double[] {1.0});
            BarCharts charts = new BarCharts(workbook, "Pictures", styles);
            charts.stacked("Parts", "name", "value", List.of("rehearsal"), List.of(series), series);
            charts.ranges("Ranges", "name", "value", List.of("rehearsal"), series, series, series);
            workbook.write(OutputStream.nullOutputStream());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Waits for its end, since it has files of its own meanwhile. What failed in it is told when the real workbook is written. */
    public void end() {
        running.handle((done, failed) -> null).join();
    }
}

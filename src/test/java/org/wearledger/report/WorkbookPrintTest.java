package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.PageMargin;
import org.apache.poi.ss.util.AreaReference;
import org.apache.poi.ss.util.CellReference;
import org.apache.poi.ss.SpreadsheetVersion;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.wearledger.model.SweepResult;

/** What a sheet looks like on paper and on a screen, worked out from its columns as a spreadsheet program does. */
class WorkbookPrintTest {
    private static final double POINTS = 11;
    private static final double LEAST_POINTS = 8;
    private static final int MOST_IN_VIEW = 15;
    /** ISO 216 and ANSI Y14.1, in inches. */
    private static final double[][] PAPERS = {{210 / 25.4, 297 / 25.4}, {8.5, 11}};
    private static XSSFWorkbook office;
    private static XSSFWorkbook chain;

    @BeforeAll
    static void write() throws Exception {
        office = book(Sweeps.small());
        chain = book(Sweeps.with(Stream.of("C-1", "C-2", "C-3").map(id -> Sweeps.ofCustomer(Sweeps.machine(id, org.wearledger.model.Standing.NO_VERDICT), "North", "Plover 14")).toList()));
    }

    private static XSSFWorkbook book(SweepResult result) throws Exception {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, 1000);
        return new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()));
    }

    /** Letters of 11 points, made smaller until the page's width holds all printed columns; a digit of Calibri is 7 pixels wide. */
    @TestFactory
    Stream<DynamicTest> everySheetPrintsInEightPointsOrMoreOnA4AndLetter() {
        return sheets(sheet -> {
            for (double[] paper : PAPERS) {
                boolean landscape = sheet.getPrintSetup().getLandscape();
                double across = ((landscape ? paper[1] : paper[0]) - sheet.getMargin(PageMargin.LEFT) - sheet.getMargin(PageMargin.RIGHT)) * 72;
                double scale = Math.min(1, across / width(sheet));
                if (sheet.getPrintSetup().getFitHeight() == 1) {
                    double down = ((landscape ? paper[0] : paper[1]) - sheet.getMargin(PageMargin.TOP) - sheet.getMargin(PageMargin.BOTTOM)) * 72;
                    scale = Math.min(scale, down / height(sheet));
                }
                System.out.printf("%s on %.1f x %.1f in: %.1f points%n", sheet.getSheetName(), paper[0], paper[1], POINTS * scale);
                assertThat(POINTS * scale).as(sheet.getSheetName()).isGreaterThanOrEqualTo(LEAST_POINTS);
            }
        });
    }

    @TestFactory
    Stream<DynamicTest> noSheetShowsMoreThanFifteenColumns() {
        return sheets(sheet -> assertThat(IntStream.range(0, columns(sheet)).filter(i -> !sheet.isColumnHidden(i))).as(sheet.getSheetName()).hasSizeLessThanOrEqualTo(MOST_IN_VIEW));
    }

    private static Stream<DynamicTest> sheets(java.util.function.Consumer<XSSFSheet> check) {
        return Stream.of(office, chain).flatMap(book -> IntStream.range(0, book.getNumberOfSheets()).filter(i -> !book.isSheetHidden(i)).mapToObj(book::getSheetAt)
            .map(sheet -> DynamicTest.dynamicTest((book == office ? "office, " : "chain, ") + sheet.getSheetName(), () -> check.accept(sheet))));
    }

    private static int columns(XSSFSheet sheet) {
        int last = 0;
        for (org.apache.poi.ss.usermodel.Row row : sheet) {
            last = Math.max(last, row.getLastCellNum());
        }
        return last;
    }

    private static double width(XSSFSheet sheet) {
        String area = sheet.getWorkbook().getPrintArea(sheet.getWorkbook().getSheetIndex(sheet));
        int last = area == null ? columns(sheet) - 1 : new CellReference(new AreaReference(area, SpreadsheetVersion.EXCEL2007).getLastCell().formatAsString()).getCol();
        return IntStream.rangeClosed(0, last).filter(i -> !sheet.isColumnHidden(i)).mapToDouble(i -> sheet.getColumnWidth(i) / 256.0 * 5.25).sum();
    }

    /** Down to the last cell, or the last chart, as far as it is printed. */
    private static double height(XSSFSheet sheet) {
        String area = sheet.getWorkbook().getPrintArea(sheet.getWorkbook().getSheetIndex(sheet));
        int printed = area == null ? Integer.MAX_VALUE : new AreaReference(area, SpreadsheetVersion.EXCEL2007).getLastCell().getRow();
        int charts = sheet.getDrawingPatriarch() == null ? 0 : sheet.getDrawingPatriarch().getShapes().stream().mapToInt(shape -> ((org.apache.poi.xssf.usermodel.XSSFClientAnchor) shape.getAnchor()).getRow2()).max().orElse(0);
        return IntStream.rangeClosed(0, Math.min(printed, Math.max(sheet.getLastRowNum(), charts))).mapToDouble(i -> sheet.getRow(i) == null ? sheet.getDefaultRowHeightInPoints() : sheet.getRow(i).getHeightInPoints()).sum();
    }
}

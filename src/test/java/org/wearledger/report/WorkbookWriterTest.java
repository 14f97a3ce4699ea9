package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.zip.ZipFile;
import org.apache.poi.ss.usermodel.HorizontalAlignment;
import org.apache.poi.xssf.usermodel.XSSFCellStyle;
import org.apache.poi.xssf.usermodel.XSSFChart;
import org.apache.poi.xssf.usermodel.XSSFClientAnchor;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.dhatim.fastexcel.reader.Cell;
import org.dhatim.fastexcel.reader.CellType;
import org.dhatim.fastexcel.reader.ReadableWorkbook;
import org.dhatim.fastexcel.reader.ReadingOptions;
import org.dhatim.fastexcel.reader.Row;
import org.dhatim.fastexcel.reader.Sheet;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.openxmlformats.schemas.drawingml.x2006.chart.CTBarChart;
import org.openxmlformats.schemas.drawingml.x2006.chart.STBarGrouping;
import org.wearledger.model.Budget;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Forecast;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.Projection;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

class WorkbookWriterTest {
    @TempDir
    private Path folder;
    /** {@link Sweeps#small}, written once. */
    private static byte[] small;

    @BeforeAll
    static void writeIt() throws IOException {
        small = bytes(Sweeps.small());
    }

    /** One own machine, for which nothing is bought, beside two of customers: what would be empty is left out, and the first sheet says so and answers. */
    @Test
    void aChainsWorkbookLeavesOutWhatHasNothingInIt() throws IOException {
        SweepResult chain = Sweeps.with(List.of(Sweeps.machine("LT-1", Standing.WITHIN_RATING), Sweeps.ofCustomer(Sweeps.machine("C-1", Standing.NO_VERDICT), "North", null),
            Sweeps.ofCustomer(Sweeps.machine("C-2", Standing.NO_VERDICT), "North", null)));
        assertThat(chain.plan().budget().lines()).isEmpty();
        byte[] workbook = bytes(chain);
        assertThat(sheets(workbook)).containsExactly("Summary", "To do", "Machines", "Customers", "Coverage", "Repairs", "Stock", "Failures", "Pictures", "Models", "Machine models", "Sites",
            "Memory and writes", "Problems", "Method and assumptions");
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(workbook))) {
            List<String> topics = new ArrayList<>();
            book.getSheet("Summary").forEach(row -> topics.add(row.getCell(0) == null ? "" : row.getCell(0).toString()));
            assertThat(topics).containsSubsequence("What machines and repairs say", "Machine models that write most", "Shops by what their machines write", "Own machines", "Found and used");
            assertThat(book.getSheet("Machine models").getRow(0).getLastCellNum()).isLessThanOrEqualTo((short) 12);
        }
    }

    /** Too little is known of the first one's time; the second will reach its rating; the third is likelier to, and so comes first. */
    @Test
    void aChainsMachinesStandMostPressingFirstAndHaveNoDateThatItsWordsDoNotGive() throws IOException {
        LocalDate evidence = LocalDate.parse("2025-04-30");
        SweepResult chain = Sweeps.with(List.of(due("C-1", "2026-06-01", "2026-09-01", 0.9, evidence), due("C-2", "2025-04-10", "2025-04-20", 0.6, evidence), due("C-3", "2025-01-05", "2025-01-20", 0.8, evidence)));
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes(chain)))) {
            XSSFSheet sheet = book.getSheet("Machines");
            List<String> headings = new ArrayList<>();
            sheet.getRow(0).forEach(cell -> headings.add(cell.getStringCellValue()));
            assertThat(headings).contains("When, in words", "Bytes reach rating around", "Next step").doesNotContain("User", "Cost centre", "What is bought", "Controller reaches 100 % around");
            List<String> rows = new ArrayList<>();
            IntStream.rangeClosed(1, 3).mapToObj(sheet::getRow).forEach(row -> rows.add(row.getCell(0) + " | " + row.getCell(headings.indexOf("When, in words")) + " | " + row.getCell(headings.indexOf("Bytes reach rating around"))));
            assertThat(rows).containsExactly("C-3 | Used as before, it has probably written what it is rated for already: since a day between 5 January and 29 January 2025 (8 chances in 10). | 2025-01-20",
                "C-2 | Used as before, it will have written what it is rated for in April 2025 (8 chances in 10). | 2025-04-20",
                "C-1 | Too little is known for a date. | null");
            List<String> topics = new ArrayList<>();
            book.getSheet("Summary").forEach(row -> topics.add(row.getCell(0) == null ? "" : row.getCell(0).toString()));
            assertThat(topics).contains("Owners to tell, due").doesNotContain("Not reported this sweep");
        }
        assertThat(SummaryText.of(chain).replace("\n  ", " ")).contains("- Owners to tell, due: C-3 at North between 5 January and 29 January 2025 (probably passed, seen once), C-2 at North in April 2025 (seen once); 3 of 3 seen once; no date for 1 (too little is known; most worn C-1 93 %) and 0 (check the figures). Dates not checked yet\n");
    }

    private static MachineAssessment due(String id, String p10On, String p50On, double chance, LocalDate evidenceUntil) {
        DriveAssessment d = Sweeps.drive("S-" + id, Standing.DUE, 140, 60, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("none"));
        LocalDate middle = LocalDate.parse(p50On);
        Forecast forecast = new Forecast(LocalDate.parse(p10On), middle, middle.plusDays(9), chance, chance, 1, 1, 1, evidenceUntil, "", null);
        return Sweeps.ofCustomer(Sweeps.machine(id, Standing.DUE, new DriveAssessment(d.id(), d.latest(), new DriveAssessment.Seen(null, Sweeps.COLLECTED, 1, 1), d.wear(), d.pace(),
            new DriveAssessment.Outlook(new Projection.None("none"), forecast, null), d.standing(), d.reason())), "North", "Plover 14");
    }

    @Test
    void theSheetsStandInTheAgreedOrder() throws IOException {
        assertThat(sheets(small)).containsExactly("Summary", "To do", "Budget", "Replacements", "Purchases", "Totals", "Orders", "Cost of waiting",
            "Machines", "Coverage", "Warranty", "Repairs", "Stock", "Failures", "Pictures", "Models", "Machine models", "Sites", "Memory and writes", "Problems", "Model outputs",
            "Assumptions", "Method and assumptions");
        assertThat(sheets(bytes(Sweeps.empty()))).containsExactly("Summary", "To do", "Machines", "Coverage", "Warranty", "Pictures", "Models", "Machine models",
            "Memory and writes", "Problems", "Method and assumptions");
    }

    private static List<String> sheets(byte[] bytes) throws IOException {
        try (ReadableWorkbook book = read(bytes)) {
            return book.getSheets().map(Sheet::getName).toList();
        }
    }

    @Test
    void machineCellsAreTyped() throws IOException {
        try (ReadableWorkbook book = read(small)) {
            List<Row> rows = book.findSheet("Machines").orElseThrow().read();
            assertThat(rows.get(0).getCellText(5)).isEqualTo("Written (TB)");
            Row worst = rows.get(1);
            assertThat(worst.getCellText(0)).isEqualTo("LT-002");
            assertThat(worst.getCell(5).getType()).isEqualTo(CellType.NUMBER);
            assertThat(worst.getCell(5).asNumber()).isEqualByComparingTo(new BigDecimal("156"));
            assertDate(worst.getCell(4), "yyyy-mm-dd hh:mm:ss");
            assertThat(worst.getCell(4).asDate()).isEqualTo("2025-03-30T08:15:00");
            assertThat(worst.getOptionalCell(11)).isEmpty();
            assertThat(worst.getCellText(12)).isEqualTo("past rating");
            assertDate(rows.get(2).getCell(11), "yyyy-mm-dd");
            assertThat(rows.get(2).getCell(11).asDate().toLocalDate()).isEqualTo(LocalDate.of(2031, 5, 1));
            assertThat(worst.getCell(15).getType()).as("a formula-like text stays a text").isEqualTo(CellType.STRING);
            assertThat(worst.getCellText(15)).isEqualTo("=A1");
        }
    }

    @Test
    void noSheetOfFactsHoldsAFormulaAndNoSheetAnError() throws IOException {
        try (ReadableWorkbook book = read(small)) {
            for (Sheet sheet : book.getSheets().toList()) {
                List<CellType> types = sheet.read().stream().flatMap(Row::stream).filter(cell -> cell != null).map(Cell::getType).toList();
                assertThat(types).doesNotContain(CellType.ERROR);
                if (List.of("Machines", "Models", "Memory and writes", "Problems", "Coverage", "Warranty", "To do").contains(sheet.getName())) {
                    assertThat(types).as(sheet.getName()).doesNotContain(CellType.FORMULA);
                }
            }
        }
    }

    @Test
    void aMissingColumnStandsOnTheFirstSheet() throws IOException {
        SweepResult missing = Sweeps.with(Sweeps.small(), List.of(Problem.of(Finding.COLUMN_MISSING_NOW, SourcePlace.wholeFile("q2.csv"), "")
            .about("health.dataUnitsWritten").with(Fact.COUNT, 3).with(Fact.OF, 3)), Sweeps.small().plan().budget());
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes(missing)))) {
            List<String> lines = new ArrayList<>();
            book.getSheet("Summary").forEach(row -> lines.add(row.getLastCellNum() < 3 ? "" : row.getCell(0) + ": " + row.getCell(2)));
            assertThat(lines).anyMatch(line -> line.startsWith("Columns missing: The latest reports of 3 of 3 drives have no bytes written: health.dataUnitsWritten is missing or empty (q2.csv): "));
        }
    }

    @Test
    void dataSheetsAreFrozenFilteredAndReadyToPrint() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            for (String name : List.of("Budget", "Replacements", "Totals", "To do", "Machines", "Models", "Memory and writes", "Problems")) {
                XSSFSheet sheet = book.getSheet(name);
                assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
                assertThat(sheet.getCTWorksheet().isSetAutoFilter()).isTrue();
                assertThat(sheet.getNumMergedRegions()).isZero();
                assertThat(sheet.getRepeatingRows().formatAsString()).isEqualTo(List.of("Budget", "Totals").contains(name) ? "2:2" : name.equals("Models") ? "6:6" : "1:1");
                assertThat(sheet.getPrintSetup().getLandscape()).isTrue();
                assertThat(sheet.getPrintSetup().getFitWidth()).isEqualTo((short) 1);
                assertThat(sheet.getFooter().getRight()).isEqualTo("Page &P of &N");
            }
            assertThat(book.getSheet("Machines").getRow(1).getCell(12).getCellStyle().getFont().getBold()).isTrue();
            assertThat(book.getSheet("Machines").getRow(2).getCell(12).getCellStyle().getFont().getBold()).isFalse();
            assertThat(book.getPrintArea(book.getSheetIndex("Machines"))).isEqualTo("Machines!$A$1:$N$4");
            assertThat(book.getProperties().getCoreProperties().getCreated()).isEqualTo("2025-03-31T00:00:00Z");
        }
    }

    @Test
    void noPropertyShowsTheWallClock() throws IOException {
        assertThat(coreProperties(small)).contains("2025-03-31T00:00:00Z")
            .isEqualTo(coreProperties(bytes(Sweeps.small())));
        assertThat(coreProperties(bytes(Sweeps.empty()))).doesNotContain("Z</dcterms");
    }

    /** LT-001 lies within its rating and reported: a sheet of two rows has room for the others. */
    @Test
    void aShortenedSheetHoldsWhatNeedsSomethingDoneAndSaysSo() throws IOException {
        SweepResult result = Sweeps.small();
        assertThat(shortened(result, 3, "Machines")).hasSize(4);
        assertThat(shortened(result, 2, "Machines")).containsExactly(
            "2 of 3 rows, worst first (machines to do something for): all are in machines.csv. For more here, sweep with --workbook-rows.", "Machine", "LT-002", "LT-003");
        assertThat(shortened(result, 1, "Machines")).element(2).isEqualTo("LT-002");
        assertThat(shortened(result, 1, "Machines")).hasSize(3);
        assertThat(shortened(result, 1, "To do")).startsWith(
            "1 of 2 rows, worst first: all are in work-list.csv. For more here, sweep with --workbook-rows.", "Machine").hasSize(3);
        assertThat(shortened(result, 1, "Warranty")).startsWith(
            "0 of 2 rows, worst first (drives to ask the maker about): all are in warranty.csv. For more here, sweep with --workbook-rows.", "Machine");
    }

    private static List<String> shortened(SweepResult result, int rows, String sheet) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, rows);
        try (ReadableWorkbook book = read(out.toByteArray())) {
            return book.findSheet(sheet).orElseThrow().read().stream().map(row -> row.getCellText(0)).toList();
        }
    }

    /** Amounts are worked out from the plan's lines, which no limit on facts takes away. */
    @Test
    void noAmountChangesWithTheRowsOfTheSheetsOfFacts() throws IOException {
        assertThat(amounts(1)).isEqualTo(amounts(Integer.MAX_VALUE)).isNotEmpty();
    }

    private static List<String> amounts(int rows) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(Sweeps.small(), out, rows);
        List<String> amounts = new ArrayList<>();
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            for (String sheet : List.of("Summary", "Budget", "Replacements", "Purchases", "Totals", "Orders", "Cost of waiting", "Model outputs", "Assumptions")) {
                book.getSheet(sheet).forEach(row -> row.forEach(cell -> {
                    if (cell.getCellType() == org.apache.poi.ss.usermodel.CellType.FORMULA) {
                        amounts.add(sheet + "!" + cell.getAddress() + "=" + cell.getCellFormula() + "=" + (cell.getCachedFormulaResultType() == org.apache.poi.ss.usermodel.CellType.NUMERIC
                            ? cell.getNumericCellValue() : cell.getStringCellValue()));
                    }
                }));
            }
        }
        return amounts;
    }

    /** The sentence of a contrast stands below a column of figures, and wraps within a width that suits both. */
    @Test
    void aLongTextBelowFiguresMakesNoWideColumn() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            XSSFSheet memory = book.getSheet("Memory and writes");
            int column = 7;
            assertThat(memory.getRow(memory.getLastRowNum()).getCell(column).getStringCellValue()).startsWith("8 GiB machines write 4.5 GB a day more");
            assertThat(memory.getColumnWidth(column)).isEqualTo(28 * 256);
            assertThat(memory.getRow(memory.getLastRowNum()).getHeightInPoints()).isGreaterThan(2 * memory.getDefaultRowHeightInPoints());
        }
    }

    /** Two headings that both fill their columns would read as one. */
    @Test
    void figuresAndTheirHeadingsKeepClearOfTheNextColumn() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            for (int row = 1; row < 3; row++) {
                for (int column = 1; column < 3; column++) {
                    XSSFCellStyle style = book.getSheet("Cost of waiting").getRow(row).getCell(column).getCellStyle();
                    assertThat(style.getAlignment()).isEqualTo(HorizontalAlignment.RIGHT);
                    assertThat(style.getIndention()).isEqualTo((short) 1);
                }
            }
        }
    }

    /** Amounts to be added are stacked; a range is one bar with a line over it, never low, typical and high as three bars. */
    @Test
    void whatMayBeIsDrawnAsARange() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            List<CTBarChart> charts = book.getSheet("Pictures").getDrawingPatriarch().getCharts().stream()
                .map(chart -> chart.getCTChart().getPlotArea().getBarChartArray(0)).toList();
            assertThat(charts.get(0).getGrouping().getVal()).isEqualTo(STBarGrouping.STACKED);
            assertThat(charts.get(0).xmlText()).contains("overlap val=\"100\"");
            assertThat(charts.get(0).getSerList()).extracting(series -> series.getTx().getStrRef() == null ? series.getTx().getV() : series.getTx().getStrRef().getStrCache().getPtArray(0).getV())
                .containsExactly("Plan", "Contingency (up to P80)", "Random failures", "Beyond it, up to the cap (P90)");
            List<CTBarChart> ranges = charts.stream().filter(chart -> chart.getSerArray(0).isSetErrBars()).toList();
            assertThat(ranges).isNotEmpty().allSatisfy(chart -> {
                assertThat(chart.getSerList()).hasSizeLessThanOrEqualTo(2);
                String typical = chart.getSerArray(0).getVal().getNumRef().getF();
                assertThat(typical).startsWith("Pictures!$B$");
                assertThat(chart.getSerArray(0).getErrBars().getMinus().getNumRef().getF()).isEqualTo(typical.replace("$B$", "$E$"));
                assertThat(chart.getSerArray(0).getErrBars().getPlus().getNumRef().getF()).isEqualTo(typical.replace("$B$", "$F$"));
                XSSFRow row = book.getSheet("Pictures").getRow(Integer.parseInt(typical.replaceAll(".*B\\$(\\d+).*", "$1")) - 1);
                assertThat(row.getCell(4).getNumericCellValue()).as("down to low").isCloseTo(row.getCell(1).getNumericCellValue() - row.getCell(2).getNumericCellValue(), within(1e-9));
                assertThat(row.getCell(5).getNumericCellValue()).as("up to high").isCloseTo(row.getCell(3).getNumericCellValue() - row.getCell(1).getNumericCellValue(), within(1e-9));
            });
        }
    }

    /** What adjusting does is seen from two bars side by side. */
    @Test
    void machineModelsAreDrawnAdjustedAndAsTheyStand() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes(Sweeps.small())))) {
            CTBarChart bars = book.getSheet("Pictures").getDrawingPatriarch().getCharts().get(4).getCTChart().getPlotArea().getBarChartArray(0);
            assertThat(bars.getSerArray(0).isSetErrBars()).isTrue();
            assertThat(bars.getSerArray(0).getVal().getNumRef().getNumCache().getPtList()).extracting(point -> point.getV()).containsExactly("2.7", "1.1");
            assertThat(bars.getSerArray(1).getVal().getNumRef().getNumCache().getPtList()).extracting(point -> point.getV()).containsExactly("2.9", "1.9");
            String cells = bars.getSerArray(1).getVal().getNumRef().getF();
            assertThat(cells).startsWith("Pictures!$G$");
            assertThat(book.getSheet("Pictures").getRow(Integer.parseInt(cells.replaceAll(".*\\$(\\d+)$", "$1")) - 1).getCell(6).getNumericCellValue()).isEqualTo(1.9);
        }
    }

    /** One series needs no legend: the title and the axes name it. */
    @Test
    void eachPictureHasItsTitleOnceAndRoomBesideTheFigures() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            List<String> cells = new java.util.ArrayList<>();
            book.getSheet("Pictures").forEach(row -> row.forEach(cell -> cells.add(cell.toString())));
            List<XSSFChart> charts = book.getSheet("Pictures").getDrawingPatriarch().getCharts();
            assertThat(charts).hasSize(5).allSatisfy(chart -> {
                assertThat(cells).doesNotContain(chart.getTitleText().getString());
                assertThat(chart.getCTChart().isSetLegend()).isEqualTo(chart.getCTChart().getPlotArea().getBarChartArray(0).sizeOfSerArray() > 1);
            });
            assertThat(book.getSheet("Pictures").getDrawingPatriarch().getShapes()).hasSize(5).as("figures end in column G, 6")
                .allSatisfy(frame -> assertThat(((XSSFClientAnchor) frame.getAnchor()).getCol1()).isEqualTo((short) 8));
            assertThat(charts.get(3).getTitleText().getString())
                .isEqualTo("Typical wear by drive model, with a line over its 95 % interval; where lines overlap, do not rely on the order");
        }
    }

    /** As of 2025-03-31; what the workbook works out, and the as-of date, have no frame. */
    @Test
    void whatMayBeChangedIsFramed() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            List<String> framed = new java.util.ArrayList<>();
            List<String> plain = new java.util.ArrayList<>();
            book.getSheet("Assumptions").forEach(row -> row.forEach(cell -> {
                if (cell.getColumnIndex() == 1 && cell.getCellType() != org.apache.poi.ss.usermodel.CellType.STRING) {
                    (cell.getCellStyle().getBorderTop() == org.apache.poi.ss.usermodel.BorderStyle.THIN ? framed : plain).add(row.getCell(0).getStringCellValue());
                }
            }));
            assertThat(book.getSheet("Assumptions").getRow(3).getCell(0).getStringCellValue()).startsWith("P50, P80 and P90 are the purchases that the sweep found to cost them");
            org.apache.poi.ss.usermodel.Row machine = java.util.stream.StreamSupport.stream(book.getSheet("Assumptions").spliterator(), false)
                .filter(row -> row.getCell(0) != null && row.getCell(0).getStringCellValue().equals("machine")).findFirst().orElseThrow();
            assertThat(List.of(1, 2, 5, 6)).extracting(i -> machine.getCell(i).getNumericCellValue()).as("unit price, cost of one; beside each, as swept")
                .containsExactly(890.0, 890.0, 962.0, 962.0);
            assertThat(machine.getCell(2).getCellType()).isEqualTo(org.apache.poi.ss.usermodel.CellType.NUMERIC);
            assertThat(machine.getCell(1).getCellStyle().getVerticalAlignment()).isEqualTo(org.apache.poi.ss.usermodel.VerticalAlignment.CENTER);
            assertThat(framed).contains("Lead time, from order to delivery", "machine").hasSize(11);
            assertThat(plain).hasSize(4).first().isEqualTo("As-of date (frozen)");
            assertThat(plain.subList(1, 4)).allMatch(label -> label.endsWith("(worked out)"));
        }
    }

    /** As many machines as no sheet has rows for: its amounts would lack some. */
    @Test
    void aPlanOfMoreLinesThanASheetHasRowsIsRefused() {
        Budget b = Sweeps.small().plan().budget();
        SweepResult large = Sweeps.with(Sweeps.small(), List.of(), new Budget(b.settings(), b.leadTimeDays(), b.currency(), Collections.nCopies(1_048_575, b.lines().get(0)), b.quarters(),
            b.demand(), b.items(), b.machines(), b.sharedShockPerQuarter()));
        assertThatThrownBy(() -> WorkbookWriter.write(large, OutputStream.nullOutputStream(), 100)).isInstanceOf(OutputRefusedException.class)
            .hasMessage("the plan has 1,048,575 replacements, and a sheet of the workbook holds 1,048,574: sweep the sites apart, or plan fewer --budget-quarters");
    }

    @Test
    void theMethodSheetNamesTheFiguresItRestsOn() throws IOException {
        try (ReadableWorkbook book = read(small)) {
            StringBuilder all = new StringBuilder();
            book.findSheet("Method and assumptions").orElseThrow().read()
                .forEach(row -> all.append(row.getCellText(0)).append(": ").append(row.getCellText(1)).append('\n'));
            assertThat(all.toString()).contains("512,000 bytes", "LID 02h", "0.6 TB", "no source", "255 or more",
                "2025-03-31", "30 days and one quarter", "121 days", "365 days", "JESD218", "It has NO stated uncertainty",
                "counter-went-back", "Wearledger 0.1.0", "4 of ratings").doesNotContainIgnoringCase("healthy");
        }
    }

    private static void assertDate(Cell cell, String format) {
        assertThat(cell.getType()).isEqualTo(CellType.NUMBER);
        assertThat(cell.getDataFormatString()).isEqualTo(format);
    }

    private static byte[] bytes(SweepResult result) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, Integer.MAX_VALUE);
        return out.toByteArray();
    }

    private static ReadableWorkbook read(byte[] bytes) throws IOException {
        return new ReadableWorkbook(new ByteArrayInputStream(bytes), new ReadingOptions(true, true));
    }

    private String coreProperties(byte[] bytes) throws IOException {
        Path file = Files.write(folder.resolve("sweep.xlsx"), bytes);
        try (ZipFile zip = new ZipFile(file.toFile())) {
            return new String(zip.getInputStream(zip.getEntry("docProps/core.xml")).readAllBytes(),
                StandardCharsets.UTF_8);
        }
    }
}

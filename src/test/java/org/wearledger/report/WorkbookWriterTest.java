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
import org.apache.poi.xssf.usermodel.XSSFConditionalFormatting;
import org.apache.poi.xssf.usermodel.XSSFRow;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFTable;
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
        assertThat(sheets(workbook)).containsExactly("Summary", "To do", "Machines", "Models", "Repairs", "Stock", "Data quality", "(Customers)", "(Failures)", "(Method and assumptions)", "(Chart figures)");
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(workbook))) {
            List<String> topics = new ArrayList<>();
            book.getSheet("Summary").forEach(row -> topics.add(row.getCell(0) == null ? "" : row.getCell(0).toString()));
            assertThat(topics).containsSubsequence("What machines and repairs say", "Machine models that write most", "Shops by what their machines write", "Own machines");
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
            assertThat(headings).contains("When, in words", "Reaches rating around", "Next step").doesNotContain("User", "Cost centre", "What is bought", "Controller reaches 100 % around");
            List<String> rows = new ArrayList<>();
            IntStream.rangeClosed(1, 3).mapToObj(sheet::getRow).forEach(row -> rows.add(row.getCell(0) + " | " + row.getCell(headings.indexOf("When, in words")) + " | " + row.getCell(headings.indexOf("Reaches rating around"))));
            assertThat(rows).containsExactly("C-3 | Used as before, it has probably written what it is rated for already: since a day between 5 January and 29 January 2025 (8 chances in 10). | 2025-01-20",
                "C-2 | Used as before, it will have written what it is rated for in April 2025 (8 chances in 10). | 2025-04-20",
                "C-1 | Too little is known for a date. | ");
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
        assertThat(sheets(small)).containsExactly("Summary", "To do", "Budget", "Assumptions", "Purchases", "Machines", "Models", "Repairs", "Stock", "Data quality",
            "(Budget figures)", "(Orders)", "(Cost centres)", "(Model outputs)", "(Failures)", "(Method and assumptions)", "(Chart figures)");
        assertThat(sheets(bytes(Sweeps.empty()))).containsExactly("Summary", "To do", "Machines", "Models", "Data quality", "(Method and assumptions)", "(Chart figures)");
    }

    /** Hidden ones in brackets. */
    private static List<String> sheets(byte[] bytes) throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes))) {
            return IntStream.range(0, book.getNumberOfSheets()).mapToObj(i -> book.isSheetHidden(i) ? "(" + book.getSheetName(i) + ")" : book.getSheetName(i)).toList();
        }
    }

    @Test
    void machineCellsAreTyped() throws IOException {
        try (ReadableWorkbook book = read(small)) {
            List<Row> rows = book.findSheet("Machines").orElseThrow().read();
            List<String> headings = rows.get(0).stream().map(Cell::getText).toList();
            Row worst = rows.get(1);
            assertThat(worst.getCellText(0)).isEqualTo("LT-002");
            assertThat(worst.getCell(headings.indexOf("Written (TB)")).getType()).isEqualTo(CellType.NUMBER);
            assertThat(worst.getCell(headings.indexOf("Written (TB)")).asNumber()).isEqualByComparingTo(new BigDecimal("156"));
            assertDate(worst.getCell(headings.indexOf("Collected (UTC)")), "yyyy-mm-dd hh:mm:ss");
            assertThat(worst.getCell(headings.indexOf("Collected (UTC)")).asDate()).isEqualTo("2025-03-30T08:15:00");
            assertThat(worst.getCellText(headings.indexOf("Reaches rating around"))).isEmpty();
            assertThat(worst.getCellText(headings.indexOf("Standing"))).isEqualTo("past rating");
            assertDate(rows.get(2).getCell(headings.indexOf("Reaches rating around")), "yyyy-mm-dd");
            assertThat(rows.get(2).getCell(headings.indexOf("Reaches rating around")).asDate().toLocalDate()).isEqualTo(LocalDate.of(2031, 5, 1));
            assertThat(worst.getCell(headings.indexOf("Asset tag")).getType()).as("a formula-like text stays a text").isEqualTo(CellType.STRING);
            assertThat(worst.getCellText(headings.indexOf("Asset tag"))).isEqualTo("=A1");
        }
    }

    /** But for the links between them. */
    @Test
    void noSheetOfFactsHoldsAFormulaAndNoSheetAnError() throws IOException {
        try (ReadableWorkbook book = read(small)) {
            for (Sheet sheet : book.getSheets().toList()) {
                List<Cell> cells = sheet.read().stream().flatMap(Row::stream).filter(cell -> cell != null).toList();
                assertThat(cells).extracting(Cell::getType).doesNotContain(CellType.ERROR);
                if (List.of("Machines", "Models", "Data quality").contains(sheet.getName())) {
                    assertThat(cells).as(sheet.getName()).filteredOn(cell -> cell.getType() == CellType.FORMULA).allMatch(cell -> cell.getFormula().startsWith("HYPERLINK("));
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
            book.getSheet("Summary").forEach(row -> lines.add(row.getLastCellNum() < 4 ? "" : row.getCell(0) + ": " + row.getCell(3)));
            assertThat(lines).anyMatch(line -> line.startsWith("Columns missing: The latest reports of 3 of 3 drives have no bytes written: health.dataUnitsWritten is missing or empty (q2.csv): "));
        }
    }

    @Test
    void dataSheetsAreFrozenAndReadyToPrint() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            for (String name : List.of("Purchases", "Budget figures", "To do", "Machines")) {
                XSSFSheet sheet = book.getSheet(name);
                assertThat(sheet.getPaneInformation().isFreezePane()).isTrue();
                assertThat(sheet.getNumMergedRegions()).isZero();
                int header = sheet.getTables().get(0).getStartRowIndex() + 1;
                assertThat(sheet.getRepeatingRows().formatAsString()).isEqualTo(header + ":" + header);
                assertThat(sheet.getPrintSetup().getLandscape()).isTrue();
                assertThat(sheet.getFooter().getRight()).isEqualTo("Page &P of &N");
            }
            assertThat(book.getProperties().getCoreProperties().getCreated()).isEqualTo("2025-03-31T00:00:00Z");
        }
    }

    /** A table whose headings are not those of its cells, or stand twice, is repaired by the program that opens it. */
    @Test
    void everyTableIsTheProgramsOwnWithItsHeadingsAndAFilter() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            List<XSSFTable> tables = new ArrayList<>();
            book.forEach(sheet -> tables.addAll(((XSSFSheet) sheet).getTables()));
            assertThat(tables).extracting(XSSFTable::getDisplayName).doesNotHaveDuplicates().contains("ToDoTable", "ToDoFirstTable", "MachinesTable", "ModelsTable", "MachineModelsTable", "MemoryAndWritesTable",
                "CoverageTable", "RulesTable", "ProblemsTable", "PurchasesTable", "BudgetFiguresTable");
            for (XSSFTable table : tables) {
                List<String> headings = table.getColumns().stream().map(column -> column.getName()).toList();
                XSSFRow header = table.getXSSFSheet().getRow(table.getStartRowIndex());
                assertThat(headings).as(table.getDisplayName()).doesNotHaveDuplicates().isEqualTo(IntStream.range(0, headings.size()).mapToObj(i -> header.getCell(i).getStringCellValue()).toList());
                assertThat(table.getCTTable().getAutoFilter().getRef()).isEqualTo(table.getCTTable().getRef());
                assertThat(table.getRowCount()).isGreaterThan(1);
            }
        }
    }

    @Test
    void standingsAndFullDrivesAreMarkedByFormatsThatFollowSorting() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            XSSFSheet sheet = book.getSheet("Machines");
            List<String> marked = new ArrayList<>();
            for (int i = 0; i < sheet.getSheetConditionalFormatting().getNumConditionalFormattings(); i++) {
                XSSFConditionalFormatting format = sheet.getSheetConditionalFormatting().getConditionalFormattingAt(i);
                assertThat(format.getRule(0).getFontFormatting().isBold()).as("bold in grey, too").isTrue();
                marked.add(sheet.getRow(0).getCell(format.getFormattingRanges()[0].getFirstColumn()) + " " + format.getRule(0).getFormula1());
            }
            assertThat(marked).containsExactlyInAnyOrder("Standing \"urgent\"", "Consumed of rated (%) 100", "Percentage used (%) 100", "Machine's standing \"urgent\"");
        }
    }

    /** Found by the machine's name: sorted, too, each leads to the right row. */
    @Test
    void aMachineToDoSomethingForLeadsToItsRowAndBack() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            XSSFRow work = book.getSheet("To do").getRow(1);
            int link = headings(book.getSheet("To do")).indexOf("See");
            assertThat(work.getCell(link).getCellFormula()).isEqualTo("HYPERLINK(\"#'Machines'!A\"&MATCH(A2,'Machines'!A:A,0),\"Machines\")");
            int back = headings(book.getSheet("Machines")).indexOf("See");
            assertThat(IntStream.rangeClosed(1, 3).mapToObj(i -> book.getSheet("Machines").getRow(i)).map(row -> row.getCell(0) + " " + row.getCell(back).toString().startsWith("HYPERLINK")))
                .containsExactly("LT-002 true", "LT-001 false", "LT-003 true");
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(work.getCell(link).getStringCellValue()).isEqualTo("Machines");
        }
    }

    private static List<String> headings(XSSFSheet sheet) {
        List<String> headings = new ArrayList<>();
        sheet.getRow(0).forEach(cell -> headings.add(cell.getStringCellValue()));
        return headings;
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
            "1 of 2 rows, worst first: all are in work-list.csv. For more here, sweep with --workbook-rows.", "Machine");
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
            for (String sheet : List.of("Summary", "Budget", "Budget figures", "Purchases", "Orders", "Model outputs", "Assumptions")) {
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

    /** Two headings that both fill their columns would read as one. */
    @Test
    void figuresAndTheirHeadingsKeepClearOfTheNextColumn() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            for (int row = 1; row < 3; row++) {
                for (int column = 1; column < 3; column++) {
                    XSSFCellStyle style = book.getSheet("Budget figures").getRow(row - 1).getCell(column + 2).getCellStyle();
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
            List<CTBarChart> charts = Stream.of("Budget", "Models").flatMap(sheet -> charts(book, sheet).stream()).map(chart -> chart.getCTChart().getPlotArea().getBarChartArray(0)).toList();
            assertThat(charts.get(0).getGrouping().getVal()).isEqualTo(STBarGrouping.STACKED);
            assertThat(charts.get(0).xmlText()).contains("overlap val=\"100\"");
            assertThat(charts.get(0).getSerList()).extracting(series -> series.getTx().getStrRef() == null ? series.getTx().getV() : series.getTx().getStrRef().getStrCache().getPtArray(0).getV())
                .containsExactly("Plan", "Risk reserve and boards as machines", "Random failures", "Beyond it, up to the worst case");
            List<CTBarChart> ranges = charts.stream().filter(chart -> chart.getSerArray(0).isSetErrBars()).toList();
            assertThat(ranges).isNotEmpty().allSatisfy(chart -> {
                assertThat(chart.getSerList()).hasSizeLessThanOrEqualTo(2);
                String typical = chart.getSerArray(0).getVal().getNumRef().getF();
                assertThat(typical).startsWith("'Chart figures'!$B$");
                assertThat(chart.getSerArray(0).getErrBars().getMinus().getNumRef().getF()).isEqualTo(typical.replace("$B$", "$E$"));
                assertThat(chart.getSerArray(0).getErrBars().getPlus().getNumRef().getF()).isEqualTo(typical.replace("$B$", "$F$"));
                XSSFRow row = book.getSheet("Chart figures").getRow(Integer.parseInt(typical.replaceAll(".*B\\$(\\d+).*", "$1")) - 1);
                assertThat(row.getCell(4).getNumericCellValue()).as("down to low").isCloseTo(row.getCell(1).getNumericCellValue() - row.getCell(2).getNumericCellValue(), within(1e-9));
                assertThat(row.getCell(5).getNumericCellValue()).as("up to high").isCloseTo(row.getCell(3).getNumericCellValue() - row.getCell(1).getNumericCellValue(), within(1e-9));
            });
        }
    }

    /** What adjusting does is seen from two bars side by side. */
    @Test
    void machineModelsAreDrawnAdjustedAndAsTheyStand() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes(Sweeps.small())))) {
            CTBarChart bars = charts(book, "Models").get(1).getCTChart().getPlotArea().getBarChartArray(0);
            assertThat(bars.getSerArray(0).isSetErrBars()).isTrue();
            assertThat(bars.getSerArray(0).getVal().getNumRef().getNumCache().getPtList()).extracting(point -> point.getV()).containsExactly("2.7", "1.1");
            assertThat(bars.getSerArray(1).getVal().getNumRef().getNumCache().getPtList()).extracting(point -> point.getV()).containsExactly("2.9", "1.9");
            String cells = bars.getSerArray(1).getVal().getNumRef().getF();
            assertThat(cells).startsWith("'Chart figures'!$G$");
            assertThat(book.getSheet("Chart figures").getRow(Integer.parseInt(cells.replaceAll(".*\\$(\\d+)$", "$1")) - 1).getCell(6).getNumericCellValue()).isEqualTo(1.9);
        }
    }

    private static List<XSSFChart> charts(XSSFWorkbook book, String sheet) {
        return book.getSheet(sheet).getDrawingPatriarch().getCharts();
    }

    /** One series needs no legend: the title and the axes name it. Their figures lie on a hidden sheet. */
    @Test
    void picturesStandWhereTheyAreRead() throws IOException {
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(small))) {
            List<String> titles = new ArrayList<>();
            for (String sheet : List.of("Summary", "Budget", "Models")) {
                charts(book, sheet).forEach(chart -> {
                    titles.add(sheet + ": " + chart.getTitleText().getString());
                    assertThat(chart.getCTChart().isSetLegend()).isEqualTo(chart.getCTChart().getPlotArea().getBarChartArray(0).sizeOfSerArray() > 1);
                    assertThat(chart.isPlotOnlyVisibleCells()).isFalse();
                });
            }
            assertThat(titles).containsExactly("Summary: Consumed endurance of the fleet", "Summary: Machines past rating", "Budget: Funding request by fiscal quarter (EUR); hollow: beyond that, up to the worst case",
                "Models: Typical wear by drive model, with its 95 % interval", "Models: Written per power-on hour by machine model, among machines alike, with its 95 % interval; hollow: not adjusted");
            assertThat(charts(book, "Summary").get(0).getCTChart().getPlotArea().getBarChartArray(0).getSerArray(1).getVal().getNumRef().getNumCache().getPtList()).extracting(point -> point.getV())
                .containsExactly("92.0", "101.0");
        }
    }

    /** Of one quarter there is no trend: how its drives are spread. */
    @Test
    void theFirstSweepShowsHowItsDrivesAreSpread() throws IOException {
        SweepResult r = Sweeps.small();
        SweepResult.Fleet f = r.fleet();
        SweepResult first = new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), new SweepResult.Fleet(f.models(), f.machineModels(), f.sites(), f.memoryBands(),
            f.memoryContrasts(), f.fleetModel(), f.calibration(), f.repairs(), f.trend().subList(1, 2)), r.problems(), r.files(), r.plan());
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(bytes(first)))) {
            assertThat(charts(book, "Summary")).extracting(chart -> chart.getTitleText().getString()).containsExactly("Drives by consumed endurance");
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
            org.apache.poi.ss.usermodel.Row machine = java.util.stream.StreamSupport.stream(book.getSheet("Assumptions").spliterator(), false)
                .filter(row -> row.getCell(0) != null && row.getCell(0).getStringCellValue().equals("machine")).findFirst().orElseThrow();
            assertThat(List.of(1, 9, 10)).extracting(i -> machine.getCell(i).getNumericCellValue()).as("unit price, cost of one, the same as swept").containsExactly(890.0, 962.0, 962.0);
            assertThat(machine.getCell(2).getCellType()).isEqualTo(org.apache.poi.ss.usermodel.CellType.NUMERIC);
            assertThat(machine.getCell(1).getCellStyle().getVerticalAlignment()).isEqualTo(org.apache.poi.ss.usermodel.VerticalAlignment.CENTER);
            assertThat(framed).contains("Lead time, from order to delivery", "machine").hasSize(15);
            assertThat(plain).as("what is worked out stands beside").isEmpty();
        }
    }

    /** As many machines as no sheet has rows for: its amounts would lack some. */
    @Test
    void aPlanOfMoreLinesThanASheetHasRowsIsRefused() {
        Budget b = Sweeps.small().plan().budget();
        SweepResult large = Sweeps.with(Sweeps.small(), List.of(), new Budget(b.settings(), b.leadTimeDays(), b.currency(), Collections.nCopies(1_048_575, b.lines().get(0)), b.quarters(),
            b.demand(), b.orders(), b.centres(), b.items(), b.machines(), b.sharedShockPerQuarter()));
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
                "Wearledger 0.1.0", "4 of ratings").doesNotContainIgnoringCase("healthy");
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

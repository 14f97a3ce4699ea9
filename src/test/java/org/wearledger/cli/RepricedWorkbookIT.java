package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.io.FileUtils;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A price typed into the workbook of the sample gives, to the cent and in every period, what a new sweep with that price gives. */
class RepricedWorkbookIT {
    private static final List<String> AMOUNTS = List.of("plan", "contingencyForWear", "contingencyForPrices", "allowance", "toAskFor", "cap", "namedAmount", "costP50", "costP80",
        "dearerCostP80", "dearerCostP90");
    private static final Path SAMPLE = Path.of("sample-reports");

    @TempDir
    Path folder;

    @ParameterizedTest(name = "{0} at {1}")
    @CsvSource({"drive 256 GB,52.00", "drive 256 GB,30.00", "drive 1000 GB,140.00", "board,512.34", "board,395.00", "machine,999.99", "machine,700.00"})
    void byPoi(String item, String unitPrice) throws Exception {
        assertAsSweptAnew(Recalculation::byPoi, item, unitPrice);
    }

    /** {@code mvn -Poffice verify}: the same by a real office program. */
    @ParameterizedTest(name = "{0} at {1}")
    @CsvSource({"drive 256 GB,52.00", "board,512.34"})
    @EnabledIfSystemProperty(named = "soffice", matches = ".+")
    void byAnOfficeProgram(String item, String unitPrice) throws Exception {
        assertAsSweptAnew(Recalculation::byOffice, item, unitPrice);
    }

    private void assertAsSweptAnew(Recalculation recalculation, String item, String unitPrice) throws Exception {
        Path reports = folder.resolve("reports");
        FileUtils.copyDirectory(SAMPLE.toFile(), reports.toFile());
        sweep(reports, "before");
        Path prices = reports.resolve("prices.csv");
        String list = Files.readString(prices);
        String dearer = list.replaceFirst("(?m)^(" + item + ",EUR),[^,]+", "$1," + unitPrice);
        assertThat(dearer).isNotEqualTo(list);
        Files.writeString(prices, dearer);
        sweep(reports, "after");
        XSSFWorkbook book = Recalculation.open(folder.resolve("before/sweep.xlsx"));
        for (Row row : book.getSheet("Assumptions")) {
            if (row.getCell(0) != null && row.getCell(0).getStringCellValue().equals(item)) {
                row.getCell(1).setCellValue(Double.parseDouble(unitPrice));
            }
        }
        try (XSSFWorkbook again = recalculation.of(book, folder); XSSFWorkbook anew = Recalculation.open(folder.resolve("after/sweep.xlsx"))) {
            assertThat(amounts(again)).isEqualTo(amounts(anew)).isNotEqualTo(amounts(Recalculation.open(folder.resolve("before/sweep.xlsx"))));
        }
    }

    private void sweep(Path reports, String out) {
        assertThat(Runs.of("sweep", reports, "--out", folder.resolve(out)).exitCode()).as("the sample holds reports to refuse").isEqualTo(ExitCode.DONE_WITH_REFUSALS);
    }

    /** Examples: {@code 2025-Q1 | plan | 1470.00}. */
    private List<String> amounts(XSSFWorkbook book) throws Exception {
        Sheet budget = book.getSheet("Budget");
        List<String> headings = headings();
        List<String> amounts = new ArrayList<>();
        int first = budget.getRow(0).getCell(0).getStringCellValue().equals("Fiscal period") ? 1 : 2;
        for (int i = first; budget.getRow(i) != null; i++) {
            Row row = budget.getRow(i);
            for (String name : AMOUNTS) {
                int column = headings.indexOf(name);
                assertThat(row.getCell(column).getCachedFormulaResultType()).isEqualTo(CellType.NUMERIC);
                amounts.add(String.format(java.util.Locale.ROOT, "%s | %s | %.2f", row.getCell(0).getStringCellValue(), name, row.getCell(column).getNumericCellValue() + 0.0));
            }
        }
        assertThat(amounts).hasSize(11 * AMOUNTS.size());
        return amounts;
    }

    private List<String> headings() throws Exception {
        try (CSVParser rows = CSVParser.parse(Files.newBufferedReader(folder.resolve("before/budget.csv")), CSVFormat.RFC4180.builder().setHeader().get())) {
            return rows.getHeaderNames();
        }
    }
}

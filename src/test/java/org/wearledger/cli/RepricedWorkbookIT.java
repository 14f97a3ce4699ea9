package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
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
    private static final List<String> AMOUNTS = List.of("Plan (named, or P50 with those not named)", "Contingency up to P80: more wear than planned",
        "Contingency up to P80: dearer choices", "Allowance for random failures", "To ask for", "Cap (P90)", "Cost of named replacements", "Cost, P50", "Cost, P80",
        "Cost, P80, dearer choices", "Cost, P90, dearer choices");

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
        String list = Files.readString(Path.of("sample-reports/prices.csv"));
        String dearer = list.replaceFirst("(?m)^(" + item + ",EUR),[^,]+", "$1," + unitPrice);
        assertThat(dearer).isNotEqualTo(list);
        Runs sweep = Runs.of("sweep", "sample-reports", "--prices", Files.writeString(folder.resolve("prices.csv"), dearer), "--out", folder.resolve("after"));
        assertThat(sweep.exitCode()).as("the sample holds reports to refuse").isEqualTo(ExitCode.DONE_WITH_REFUSALS);
        XSSFWorkbook book = Recalculation.open(SampleSweep.once().file("sweep.xlsx"));
        List<String> before = amounts(book);
        BigDecimal askedBefore = toAskFor(book);
        assertThat(book.getSheet("Budget").getRow(0).getCell(0).getStringCellValue()).isEqualTo("To be checked before they are ordered: this quarter 5 of 6 lines, 1,382.50 EUR; "
            + "over all 8 quarters 6 of 10 lines, 1,470.00 EUR (sheet Replacements, column \"Check first\").");
        for (Row row : book.getSheet("Assumptions")) {
            if (row.getCell(0) != null && row.getCell(0).getStringCellValue().equals(item)) {
                row.getCell(1).setCellValue(Double.parseDouble(unitPrice));
            }
        }
        try (XSSFWorkbook again = recalculation.of(book, folder); XSSFWorkbook anew = Recalculation.open(folder.resolve("after/sweep.xlsx"))) {
            assertThat(amounts(again)).isEqualTo(amounts(anew)).isNotEqualTo(before);
            assertThat(again.getSheet("Budget").getRow(0).getCell(0).getStringCellValue()).isEqualTo(anew.getSheet("Budget").getRow(0).getCell(0).getStringCellValue());
            BigDecimal change = toAskFor(anew).subtract(askedBefore);
            assertThat(again.getSheet("Summary")).filteredOn(row -> row.getCell(4) != null && row.getCell(4).toString().equals("This quarter (2025-Q1): to ask for"))
                .singleElement().satisfies(row -> assertThat(BigDecimal.valueOf(row.getCell(6).getNumericCellValue())).isEqualByComparingTo(askedBefore.add(change)));
        }
    }

    private static BigDecimal toAskFor(XSSFWorkbook book) {
        return amounts(book).stream().filter(amount -> amount.startsWith("2025-Q1 | To ask for | ")).map(amount -> new BigDecimal(amount.split(" \\| ")[2])).findFirst().orElseThrow();
    }

    /** Examples: {@code 2025-Q1 | To ask for | 2361.48}. */
    private static List<String> amounts(XSSFWorkbook book) {
        Sheet budget = book.getSheet("Budget");
        List<String> amounts = new ArrayList<>();
        int first = budget.getRow(0).getCell(0).getStringCellValue().equals("Fiscal period") ? 1 : 2;
        List<String> headings = new ArrayList<>();
        budget.getRow(first - 1).forEach(cell -> headings.add(cell.getStringCellValue()));
        for (int i = first; budget.getRow(i) != null; i++) {
            Row row = budget.getRow(i);
            for (String name : AMOUNTS) {
                int column = headings.indexOf(name + " (EUR)");
                assertThat(row.getCell(column).getCachedFormulaResultType()).isEqualTo(CellType.NUMERIC);
                amounts.add(String.format(java.util.Locale.ROOT, "%s | %s | %.2f", row.getCell(0).getStringCellValue(), name, row.getCell(column).getNumericCellValue() + 0.0));
            }
        }
        assertThat(amounts).hasSize(11 * AMOUNTS.size());
        return amounts;
    }
}

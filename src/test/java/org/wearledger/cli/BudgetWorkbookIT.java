package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The budget of whole sweeps: lines, places, quarters and years add up to the cent, in the tables and in the workbook, whose formulas say the same. */
class BudgetWorkbookIT {
    private static final List<String> PARTS = List.of("plan", "contingencyForWear", "contingencyForPrices", "allowance", "namedAmount", "identified", "refresh", "further", "stock", "packs",
        "warranty", "net", "vat", "ifMachines");

    @TempDir
    Path folder;

    private static List<CSVRecord> rows(Path file) throws Exception {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(Files.newBufferedReader(file))) {
            return parser.getRecords();
        }
    }

    private Path fleet(int drives) throws Exception {
        Runs.of("simulate", "--drives", drives, "--quarters", 6, "--seed", 11, "--median-percent", 6, "--drift", 0.1, "--out", folder.resolve("fleet"));
        Path reports = folder.resolve("fleet/reports");
        Files.writeString(reports.resolve("prices.csv"), """
            item,currency,unitPrice,labour,disposalFee,supplier,priceDate,exchangeRate,packSize,breakQuantity,breakPrice,stock
            drive 256 GB,EUR,39.00,45.00,3.50,Invented Supplies,2024-12-02,,5,20,36.50,3
            drive 512 GB,EUR,58.00,45.00,3.50,Invented Supplies,2024-12-02,,,,,
            drive 1000 GB,USD,92.00,45.00,3.50,Invented Supplies,2024-12-02,0.93,,,,
            board,EUR,410.00,120.00,3.50,Invented Supplies,2024-12-02,,,,,1
            machine,EUR,890.00,60.00,12.00,Invented Supplies,2024-12-02,,,,,
            """);
        Runs run = Runs.of("sweep", reports, "--vat", 19, "--downtime-hours", 8, "--downtime-cost", "61.50", "--rush-fee", 35, "--out", folder.resolve("sweep"));
        assertThat(run.exitCode()).as(run.err()).isEqualTo(ExitCode.DONE);
        return folder.resolve("sweep");
    }

    @ParameterizedTest(name = "{0} machines")
    @ValueSource(ints = {1, 60})
    void aSimulatedFleetAddsUp(int machines) throws Exception {
        assertAddsUp(fleet(machines));
    }

    @Tag("thorough")
    @Test
    void aLargeFleetAddsUp() throws Exception {
        assertAddsUp(fleet(5_000));
    }

    @Tag("thorough")
    @Test
    void theMachinesOfAChainAddUpWhereTheyAreOwn() throws Exception {
        Runs.of("sweep", "sample-reports/_chain", "--ownership", "own", "--out", folder.resolve("chain"));
        assertAddsUp(folder.resolve("chain"));
    }

    /** What is above the plan is the boards that become machines, the reserve and random failures: a row each. */
    @Test
    void theSampleAddsUpAndAsksForLittleMoreThanItsPlan() throws Exception {
        Path sweep = SampleSweep.once().folder();
        assertAddsUp(sweep);
        CSVRecord all = rows(sweep.resolve("budget.csv")).get(10);
        BigDecimal request = amount(all, "toAskFor").add(amount(all, "warranty")).add(amount(all, "relief"));
        assertThat(request).as("before what makers are expected to pay").isEqualTo(amount(all, "plan").add(amount(all, "contingencyForPrices")).add(amount(all, "contingencyForWear")).add(amount(all, "allowance")));
        assertThat(request.doubleValue() / amount(all, "plan").doubleValue()).isBetween(1.0, 1.35);
    }

    private static void assertAddsUp(Path sweep) throws Exception {
        List<CSVRecord> periods = rows(sweep.resolve("budget.csv"));
        CSVRecord whole = periods.get(periods.size() - 1);
        List<CSVRecord> quarters = periods.subList(0, 8);
        assertThat(PARTS).allSatisfy(part -> {
            assertThat(sum(quarters, part)).as(part).isEqualTo(amount(whole, part));
            assertThat(sum(periods.subList(8, periods.size() - 1), part)).as(part + " of the years").isEqualTo(amount(whole, part));
        });
        assertThat(sum(periods.subList(8, periods.size() - 1), "toAskFor")).isEqualTo(amount(whole, "toAskFor")).isEqualTo(sum(quarters, "toAskFor").subtract(amount(whole, "relief")));
        assertThat(sum(rows(sweep.resolve("replacements.csv")), "amount")).isEqualTo(amount(whole, "namedAmount")).isEqualTo(sum(rows(sweep.resolve("totals.csv")), "amount"));
        try (XSSFWorkbook book = Recalculation.open(sweep.resolve("sweep.xlsx"))) {
            Recalculation.assertResultsStandBesideTheFormulas(book);
            assertThat(book.getSheet("Budget")).filteredOn(row -> label(row).startsWith("Check: ")).singleElement()
                .satisfies(row -> assertThat(row.getCell(1).getStringCellValue()).isEqualTo("yes, to the cent"));
        }
    }

    private static String label(Row row) {
        return row.getCell(0) == null ? "" : row.getCell(0).getStringCellValue();
    }

    private static BigDecimal amount(CSVRecord row, String column) {
        return new BigDecimal(row.get(column));
    }

    private static BigDecimal sum(List<CSVRecord> rows, String column) {
        return rows.stream().map(row -> amount(row, column)).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }
}

package org.wearledger.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.CellType;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledIfSystemProperty;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The budget workbook as finance uses it: prices, lead time and allowance are changed on the sheet "Assumptions", the workbook is
 * worked out again, and every total is what this test works out from {@code machines.csv} by itself.
 */
class BudgetWorkbookIT {
    private static final Map<String, BigDecimal[]> PRICES = Map.of(
        "drive 256 GB", new BigDecimal[] {new BigDecimal("39.00"), new BigDecimal("45.00"), new BigDecimal("3.50")},
        "drive 512 GB", new BigDecimal[] {new BigDecimal("58.00"), new BigDecimal("45.00"), new BigDecimal("3.50")},
        "drive 1000 GB", new BigDecimal[] {new BigDecimal("92.00"), new BigDecimal("45.00"), new BigDecimal("3.50")},
        "board", new BigDecimal[] {new BigDecimal("410.00"), new BigDecimal("120.00"), new BigDecimal("3.50")},
        "machine", new BigDecimal[] {new BigDecimal("890.00"), new BigDecimal("60.00"), new BigDecimal("12.00")});

    @TempDir
    static Path shared;
    @TempDir
    Path folder;

    /** Swept once for all tests that look at it. */
    private static Path fleet(int drives) throws Exception {
        Path folder = shared.resolve("of-" + drives);
        if (Files.exists(folder)) {
            return folder.resolve("sweep");
        }
        Runs.of("simulate", "--drives", drives, "--quarters", 6, "--seed", 11, "--median-percent", 6, "--drift", 0.1, "--out", folder.resolve("fleet"));
        Path reports = folder.resolve("fleet/reports");
        StringBuilder prices = new StringBuilder("item,currency,unitPrice,labour,disposalFee,supplier,priceDate\n");
        new TreeMap<>(PRICES).forEach((item, p) -> prices.append(item).append(",EUR,").append(p[0]).append(',').append(p[1]).append(',')
            .append(p[2]).append(",Invented Supplies,2024-12-02\n"));
        Files.writeString(reports.resolve("prices.csv"), prices);
        List<Object> sweep = new ArrayList<>(List.of("sweep", reports, "--out", folder.resolve("sweep")));
        if (drives > 1) {
            // So that the sheet "Cost of waiting" is worked out both with and without the costs.
            sweep.addAll(List.of("--downtime-hours", 8, "--downtime-cost", "61.50", "--rush-fee", 35));
        }
        assertThat(Runs.of(sweep.toArray()).exitCode()).isEqualTo(ExitCode.DONE);
        return folder.resolve("sweep");
    }

    private static List<CSVRecord> rows(Path file) throws Exception {
        try (var parser = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get().parse(Files.newBufferedReader(file))) {
            return parser.getRecords();
        }
    }

    @Tag("thorough")
    @Test
    void linesTotalsAndFormulasOfALargeFleetAgreeToTheCent() throws Exception {
        linesTotalsAndFormulasAgreeToTheCent(5_000);
    }

    @ParameterizedTest(name = "{0} machines")
    @ValueSource(ints = {1, 60, 200})
    void linesTotalsAndFormulasAgreeToTheCent(int machines) throws Exception {
        Path sweep = fleet(machines);
        BigDecimal lines = sum(rows(sweep.resolve("replacements.csv")), "amount");
        assertThat(sum(rows(sweep.resolve("totals.csv")), "amount")).isEqualTo(lines);
        List<CSVRecord> periods = rows(sweep.resolve("budget.csv"));
        assertThat(sum(periods.subList(0, 8), "namedAmount")).isEqualTo(lines).isEqualTo(new BigDecimal(periods.get(10).get("namedAmount")));
        assertThat(new Expected(sweep, PRICES, 30, 0.01).named()).isEqualTo(lines);
        if (machines > 1) {
            assertThat(lines).isPositive();
        }
        try (XSSFWorkbook book = Recalculation.open(sweep.resolve("sweep.xlsx"))) {
            Recalculation.assertResultsStandBesideTheFormulas(book);
        }
    }

    private static BigDecimal sum(List<CSVRecord> rows, String column) {
        return rows.stream().map(row -> new BigDecimal(row.get(column))).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    @Test
    void changedAssumptionsCarryOverToEverySheet() throws Exception {
        assertCarriedOver(Recalculation::byPoi);
    }

    /** {@code mvn -Poffice verify}: the same by a real office program. */
    @Test
    @EnabledIfSystemProperty(named = "soffice", matches = ".+")
    void changedAssumptionsCarryOverInAnOfficeProgram() throws Exception {
        assertCarriedOver(Recalculation::byOffice);
    }

    private void assertCarriedOver(Recalculation recalculation) throws Exception {
        Path sweep = fleet(60);
        Map<String, BigDecimal[]> changed = new TreeMap<>(PRICES);
        changed.put("board", new BigDecimal[] {new BigDecimal("512.34"), new BigDecimal("120.00"), new BigDecimal("3.50")});
        XSSFWorkbook book = Recalculation.open(sweep.resolve("sweep.xlsx"));
        for (Row row : book.getSheet("Assumptions")) {
            if (row.getCell(0) != null && row.getCell(0).getStringCellValue().equals("board")) {
                row.getCell(1).setCellValue(512.34);
            }
        }
        Recalculation.named(book, "LeadTimeDays").setCellValue(75);
        Recalculation.named(book, "FailuresPerMachineYear").setCellValue(0.035);
        try (XSSFWorkbook again = recalculation.of(book, folder)) {
            new Expected(sweep, changed, 75, 0.035).assertIn(again);
            for (Sheet sheet : again) {
                for (Row row : sheet) {
                    for (Cell cell : row) {
                        boolean error = cell.getCellType() == CellType.ERROR
                            || cell.getCellType() == CellType.FORMULA && cell.getCachedFormulaResultType() == CellType.ERROR;
                        assertThat(error).as(sheet.getSheetName() + "!" + cell.getAddress()).isFalse();
                    }
                }
            }
        }
    }

    /** The same sums, worked out by other means: from the machines, the price list and the model outputs. */
    private static final class Expected {
        private final List<CSVRecord> machines;
        private final List<CSVRecord> periods;
        private final Map<String, BigDecimal[]> prices;
        private final int leadTimeDays;
        private final double failureRate;
        private final LocalDate asOf;

        Expected(Path sweep, Map<String, BigDecimal[]> prices, int leadTimeDays, double failureRate) throws Exception {
            machines = rows(sweep.resolve("machines.csv"));
            periods = rows(sweep.resolve("budget.csv"));
            this.prices = prices;
            this.leadTimeDays = leadTimeDays;
            this.failureRate = failureRate;
            asOf = LocalDate.parse(periods.get(0).get("from"));
        }

        private List<CSVRecord> planned() {
            return machines.stream().filter(row -> !row.get("replacementNeedOn").isEmpty()).toList();
        }

        private BigDecimal cost(String item) {
            return java.util.Arrays.stream(prices.get(item)).map(p -> p.setScale(2, RoundingMode.HALF_UP)).reduce(BigDecimal.ZERO, BigDecimal::add);
        }

        BigDecimal named() {
            return planned().stream().map(row -> cost(row.get("replacementItem"))).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
        }

        private static String quarter(LocalDate day) {
            return day.getYear() + "-Q" + ((day.getMonthValue() + 2) / 3);
        }

        /** What a machine calls for, by the rule of the price list. */
        private String item(CSVRecord row) {
            double gigabytes = Double.parseDouble(row.get("capacityGigabytes"));
            return row.get("attachment").equals("soldered") ? "board"
                : gigabytes < 260 ? "drive 256 GB" : gigabytes < 520 ? "drive 512 GB" : "drive 1000 GB";
        }

        private BigDecimal meanCost() {
            return machines.stream().map(row -> cost(item(row))).reduce(BigDecimal.ZERO, BigDecimal::add)
                .divide(BigDecimal.valueOf(machines.size()), 2, RoundingMode.HALF_UP);
        }

        private void assertIn(XSSFWorkbook book) {
            Map<String, BigDecimal> byQuarter = new TreeMap<>();
            Map<String, BigDecimal> byOrder = new TreeMap<>();
            Map<List<String>, BigDecimal> byPlace = new java.util.HashMap<>();
            Map<List<String>, LocalDate> firstOrders = new java.util.HashMap<>();
            for (CSVRecord row : planned()) {
                LocalDate need = LocalDate.parse(row.get("replacementNeedOn"));
                LocalDate order = need.minusDays(leadTimeDays + 14);
                BigDecimal cost = cost(row.get("replacementItem"));
                byQuarter.merge(quarter(need), cost, BigDecimal::add);
                byOrder.merge(quarter(order.isBefore(asOf) ? asOf : order), cost, BigDecimal::add);
                firstOrders.merge(List.of(quarter(need), row.get("replacementItem")), order.isBefore(asOf) ? asOf : order, (a, b) -> a.isBefore(b) ? a : b);
                byPlace.merge(List.of(quarter(need), row.get("site"), row.get("costCentre")), cost, BigDecimal::add);
            }
            assertThat(byQuarter).hasSizeGreaterThan(3);
            Sheet purchases = book.getSheet("Purchases");
            for (Row row : purchases) {
                if (row.getRowNum() > header(purchases)) {
                    assertThat(row.getCell(column(purchases, "First to be ordered by")).getLocalDateTimeCellValue().toLocalDate())
                        .isEqualTo(firstOrders.get(List.of(text(row, 0), text(row, 1))));
                }
            }
            assertTable(book.getSheet("Totals"), 3, row -> byPlace.get(List.of(text(row, 0), text(row, 1), text(row, 2))), "Amount");
            assertTable(book.getSheet("Purchases"), 2, row -> planned().stream().filter(line -> quarter(LocalDate.parse(line.get("replacementNeedOn")))
                .equals(text(row, 0)) && line.get("replacementItem").equals(text(row, 1))).map(line -> cost(line.get("replacementItem")))
                .reduce(BigDecimal.ZERO, BigDecimal::add), "Amount");
            assertTable(book.getSheet("Orders"), 1, row -> byOrder.getOrDefault(text(row, 0), BigDecimal.ZERO), "Amount");
            Sheet budget = book.getSheet("Budget");
            Sheet outputs = book.getSheet("Model outputs");
            BigDecimal allAllowance = BigDecimal.ZERO;
            for (int i = 0; i < 8; i++) {
                CSVRecord period = periods.get(i);
                Row row = budget.getRow(header(budget) + 1 + i);
                BigDecimal named = byQuarter.getOrDefault(period.get("period"), BigDecimal.ZERO.setScale(2));
                BigDecimal failures = BigDecimal.valueOf(machines.size() * failureRate * Double.parseDouble(period.get("years")))
                    .setScale(4, RoundingMode.HALF_UP);
                BigDecimal allowance = failures.multiply(meanCost()).setScale(2, RoundingMode.HALF_UP);
                allAllowance = allAllowance.add(allowance);
                BigDecimal p50 = bought(outputs, period.get("period"), 1, "Bought at the P50 (model output)");
                BigDecimal p80 = bought(outputs, period.get("period"), 1, "Bought at the P80 (model output)");
                BigDecimal dearerP80 = bought(outputs, period.get("period"), 2, "Dearer choices bought at the P80 (model output)");
                BigDecimal dearerP90 = bought(outputs, period.get("period"), 2, "Dearer choices bought at the P90 (model output)");
                BigDecimal plan = named.max(p50);
                BigDecimal forWear = p80.subtract(plan).max(BigDecimal.ZERO);
                BigDecimal forPrices = dearerP80.subtract(plan).max(BigDecimal.ZERO).subtract(forWear).max(BigDecimal.ZERO);
                BigDecimal toAskFor = plan.add(forWear).add(forPrices).add(allowance);
                assertAmount(row, "Cost of named replacements", named);
                assertAmount(row, "Allowance for random failures", allowance);
                assertAmount(row, "Plan (named, or P50 with those not named)", plan);
                assertAmount(row, "Contingency up to P80: more wear than planned", forWear);
                assertAmount(row, "Contingency up to P80: dearer choices", forPrices);
                assertAmount(row, "To ask for", toAskFor);
                assertAmount(row, "Cap (P90)", dearerP90.add(allowance).max(toAskFor));
            }
            assertAmount(budget.getRow(header(budget) + 11), "Cost of named replacements", named());
            assertAmount(budget.getRow(header(budget) + 11), "Allowance for random failures", allAllowance);
            double inSummary = java.util.stream.StreamSupport.stream(book.getSheet("Summary").spliterator(), false)
                .filter(row -> row.getCell(4) != null && row.getCell(4).toString().equals("2025: to ask for")).findFirst().orElseThrow().getCell(6).getNumericCellValue();
            assertThat(inSummary).isCloseTo(budget.getRow(header(budget) + 9).getCell(column(budget, "To ask for")).getNumericCellValue(), within(0.001));
        }

        private BigDecimal bought(Sheet outputs, String period, int itemColumn, String numbers) {
            BigDecimal sum = BigDecimal.ZERO;
            for (Row row : outputs) {
                if (row.getRowNum() > 0 && text(row, 0).equals(period)) {
                    sum = sum.add(BigDecimal.valueOf(row.getCell(column(outputs, numbers)).getNumericCellValue()).setScale(4, RoundingMode.HALF_UP).multiply(cost(text(row, itemColumn))));
                }
            }
            return sum.setScale(2, RoundingMode.HALF_UP);
        }

        private interface ByRow {
            BigDecimal of(Row row);
        }

        private static void assertTable(Sheet sheet, int labels, ByRow expected, String column) {
            List<String> seen = new ArrayList<>();
            for (Row row : sheet) {
                if (row.getRowNum() > header(sheet)) {
                    assertAmount(row, column, expected.of(row));
                    seen.add(java.util.stream.IntStream.range(0, labels).mapToObj(i -> text(row, i)).collect(Collectors.joining()));
                }
            }
            assertThat(seen).isNotEmpty().doesNotHaveDuplicates();
        }

        private static void assertAmount(Row row, String heading, BigDecimal expected) {
            Cell cell = row.getCell(column(row.getSheet(), heading));
            assertThat(cell.getNumericCellValue()).as(row.getSheet().getSheetName() + "!" + cell.getAddress() + ", " + heading)
                .isCloseTo(expected.doubleValue(), within(0.001));
        }

        private static int column(Sheet sheet, String heading) {
            for (Cell cell : sheet.getRow(header(sheet))) {
                if (cell.getStringCellValue().equals(heading) || cell.getStringCellValue().equals(heading + " (EUR)")) {
                    return cell.getColumnIndex();
                }
            }
            throw new AssertionError("no column " + heading + " on " + sheet.getSheetName());
        }

        /** Above it may stand what is to be checked before an order. */
        private static int header(Sheet sheet) {
            return text(sheet.getRow(0), 0).startsWith("To be checked before") ? 1 : 0;
        }

        private static String text(Row row, int column) {
            return row.getCell(column).getStringCellValue();
        }
    }
}

package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.budget.WorkLists;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Endurance;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarrantyCheck;

/**
 * Four machines to be replaced at once, each for 962.00 EUR. Of SURE nothing is doubted; the figures of DOUBTED contradict themselves; of
 * UNLIKE the two measures disagree; DOUBTED-FAILING reports its own failing, so that it is replaced whatever its wear.
 */
class OrderChecksTest {
    @TempDir
    private Path folder;

    private static MachineAssessment machine(String id, Standing standing, int percentageUsed) {
        return Sweeps.machine(id, standing, Sweeps.drive("KX-" + id, standing, 160, percentageUsed, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null,
            new Projection.AlreadyPast(null, Sweeps.AS_OF)));
    }

    private static SweepResult sweep() {
        return Sweeps.doubting(Sweeps.with(List.of(machine("DOUBTED", Standing.PAST_RATING, 100), machine("DOUBTED-FAILING", Standing.URGENT, 100), machine("SURE", Standing.PAST_RATING, 100),
            machine("UNLIKE", Standing.PAST_RATING, 14))), ProblemKind.WRITTEN_CONTRADICTS_USED, "DOUBTED", "DOUBTED-FAILING");
    }

    @Test
    void theTablesSayWhatIsCheckedBeforeItIsOrderedAndHowMuchMoneyThatIs() throws IOException {
        SweepWriter.write(sweep(), folder, Integer.MAX_VALUE, CsvForm.COMMA);
        assertThat(cells("replacements.csv", "machineId", "orderNow", "checkFirst", "amount")).containsExactly("DOUBTED-FAILING | order now |  | 962.00",
            "DOUBTED | check the figures first | the figures (unit, mapping) | 962.00", "SURE | order now |  | 962.00",
            "UNLIKE | check the figures first | the ratings row and the unit of percentage used | 962.00");
        assertThat(cells("totals.csv", "quarter", "amount", "amountToCheck")).containsExactly("2025-Q1 | 3848.00 | 1924.00");
        assertThat(cells("budget.csv", "period", "namedAmount", "amountToCheck")).contains("2025-Q1 | 3848.00 | 1924.00", "2025-Q2 | 0.00 | 0.00", "2025 | 3848.00 | 1924.00",
            "all 8 quarters | 3848.00 | 1924.00");
        assertThat(SummaryText.of(sweep()).replace("\n  ", " ")).contains("\n- to be checked before they are ordered: this quarter 2 of 4 lines, 1,924.00 EUR; over all 8 quarters "
            + "2 of 4 lines, 1,924.00 EUR (replacements.csv, column checkFirst)\n", "\n- order at once: 2 replacements; check the figures first, then order: 2; replacements.csv and the work list say which\n");
    }

    /** Of SURE the maker may pay, of UNLIKE too, where the measures are checked first. */
    @Test
    void theMakerIsAskedBeforeAnOrder() throws IOException {
        SweepResult r = sweep();
        List<WarrantyCheck> claims = r.machines().stream().filter(machine -> List.of("SURE", "UNLIKE").contains(machine.machine().id()))
            .map(machine -> new WarrantyCheck(machine, machine.activeDrives().get(0), null, LocalDate.of(2026, 1, 1), "test", null, null, WarrantyCheck.Finding.CLAIM_TO_ASK)).toList();
        SweepResult claimed = new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), r.problems(), r.files(),
            new SweepResult.Plan(r.plan().budget(), claims, r.plan().work(), null, r.plan().decisions()));
        SweepWriter.write(claimed, folder, Integer.MAX_VALUE, CsvForm.COMMA);
        assertThat(cells("replacements.csv", "machineId", "orderNow", "checkFirst")).contains("DOUBTED-FAILING | order now | ", "SURE | ask the maker first | the machine's warranty, until 2026-01-01",
            "UNLIKE | check the figures first | the ratings row and the unit of percentage used; the machine's warranty, until 2026-01-01");
        assertThat(cells("totals.csv", "amountToCheck")).containsExactly("2886.00");
        assertThat(SummaryText.of(claimed).replace("\n  ", " ")).contains("\n- order at once: 1 replacement; ask the maker first, then order: 1; check the figures first, then order: 2; "
            + "replacements.csv and the work list say which\n", "\n- ask first: 2 drives that fail or are used up before their warranty date: ask the maker before buying (sheet To do)\n");
    }

    /** As of 2025-03-31. A warranty that ends within 60 days comes before the others of one standing and day. */
    @ParameterizedTest(name = "until {0}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-05-30 | SURE    | check the backup; ask the maker by 2025-05-30, else order machine
        2025-05-31 | DOUBTED | check the backup; check the figures; order machine
        """)
    void aWarrantyThatEndsSoonIsAskedForFirst(LocalDate end, String firstPastRating, String what) {
        SweepResult r = sweep();
        List<WarrantyCheck> claims = r.machines().stream().filter(machine -> machine.machine().id().equals("SURE"))
            .map(machine -> new WarrantyCheck(machine, machine.activeDrives().get(0), null, end, "test", null, null, WarrantyCheck.Finding.CLAIM_TO_ASK)).toList();
        SweepResult claimed = new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), r.problems(), r.files(), new SweepResult.Plan(r.plan().budget(), claims,
            WorkLists.of(r.machines(), r.plan().budget(), claims, List.of(), DrivesToCheck.of(r.problems()), r.plan().decisions(), r.asOf()), null, r.plan().decisions()));
        WorkRow first = WorkRow.of(claimed).stream().filter(row -> row.standing() == Standing.PAST_RATING).findFirst().orElseThrow();
        assertThat(first.row().machineId()).isEqualTo(firstPastRating);
        assertThat(ShortWords.what(first)).isEqualTo(what);
    }

    /** Only a rating that was given stands in a row of the ratings table. */
    @ParameterizedTest(name = "assumed: {0}")
    @CsvSource(delimiter = '|', textBlock = """
        false | check the ratings row and the unit of percentage used first
        true  | check the maker's rating (the ratings lack it, so it is assumed) and the unit of percentage used first
        """)
    void whereTheMeasuresDisagreeTheRatingIsCheckedOrLookedUp(boolean assumed, String first) {
        DriveAssessment drive = Sweeps.drive("KX-1", Standing.PAST_RATING, 160, 14, new Endurance(new BigDecimal("150"), assumed, null, "test"), null,
            new Projection.AlreadyPast(null, Sweeps.AS_OF));
        assertThat(DrivesToCheck.of(List.of()).checkFirst(drive)).isEqualTo(first);
    }

    private List<String> cells(String file, String... columns) throws IOException {
        try (CSVParser rows = CSVParser.parse(folder.resolve(file), StandardCharsets.UTF_8, CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get())) {
            return rows.stream().map(row -> Arrays.stream(columns).map(row::get).collect(Collectors.joining(" | "))).toList();
        }
    }

    /** Where finance re-prices, the line follows: it is worked out as the amounts are. */
    @Test
    void theFirstSheetSaysWhatIsToBeChecked() throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(sweep(), out, Integer.MAX_VALUE);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(book.getSheet("Summary")).anySatisfy(row -> assertThat(row.getCell(0).getStringCellValue()).isEqualTo(
                    "To be checked before they are ordered: this quarter 2 of 4 lines, 1,924.00 EUR; over all 8 quarters 2 of 4 lines, 1,924.00 EUR (sheet Purchases, column \"Check first\")."));
            XSSFSheet figures = book.getSheet("Budget figures");
            assertThat(value(figures.getRow(1), "Cost of identified replacements (EUR)")).isEqualTo(3848);
            assertThat(value(figures.getRow(1), "Cost of identified replacements, to be checked first (EUR)")).isEqualTo(1924);
            assertThat(value(figures.getRow(11), "Cost of identified replacements, to be checked first (EUR)")).as("all quarters").isEqualTo(1924);
            assertThat(book.getSheet("Purchases").getRow(1).getCell(11).getStringCellValue()).isEqualTo("order now");
        }
    }

    private static double value(Row row, String heading) {
        Row headings = row.getSheet().getRow(0);
        for (int i = 0; i < headings.getLastCellNum(); i++) {
            if (headings.getCell(i).getStringCellValue().equals(heading)) {
                return row.getCell(i).getNumericCellValue();
            }
        }
        throw new AssertionError("no column " + heading);
    }
}

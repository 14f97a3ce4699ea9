package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Crossing;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Forecast;
import org.wearledger.model.Projection;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Which years are asked for, in the summary and on the workbook's first sheet. */
class BudgetTextTest {
    private static final LocalDate LATE_IN_THE_YEAR = LocalDate.of(2026, 11, 25);

    private static SweepResult sweep(LocalDate asOf, int quarters, int fiscalYearStartMonth) {
        BudgetSettings standard = BudgetSettings.withDefaults();
        return Sweeps.with(Sweeps.small().machines(), asOf, new BudgetSettings(quarters, fiscalYearStartMonth, standard.installSlotDays(),
            standard.plannedProbability(), standard.plannedProbabilitySoldered(), standard.failuresPerMachineYear(), null, null, standard.unplanned()));
    }

    /** The year in course comes first, however little is left of it. */
    @ParameterizedTest(name = "as of {0}, {1} quarters, fiscal year from month {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2026-11-25 | 8 | 4  | the rest of FY2027, Q3 to Q4 / FY2028
        2026-11-25 | 8 | 1  | the rest of 2026, Q4 only / 2027
        2026-11-25 | 8 | 10 | FY2027 / FY2028
        2026-11-25 | 3 | 4  | the rest of FY2027, Q3 to Q4 / FY2028, Q1 only
        2026-11-25 | 2 | 10 | FY2027, Q1 to Q2
        2026-11-25 | 1 | 4  | the whole plan
        """)
    void theYearsToAskFor(LocalDate asOf, int quarters, int startMonth, String names) {
        BudgetText text = new BudgetText(sweep(asOf, quarters, startMonth));
        assertThat(text.years().stream().map(text::nameOfSum)).containsExactly(names.split(" / "));
    }

    @Test
    void theSummaryAndTheFirstSheetBeginWithTheSameYear() throws IOException {
        SweepResult result = sweep(LATE_IN_THE_YEAR, 8, 4);
        assertThat(SummaryText.of(result).replace("\n  ", " ")).contains("| the rest of FY2027, Q3 to Q4 | 962.00 |", "the rest of FY2027, Q3 to Q4 (2026-11-25 to 2027-03-31) ",
            "- how many in the rest of FY2027, Q3 to Q4: 1 replacement identified;", "- how many in FY2028: 0 replacements identified;", "- stale figures: 1 replacement rests on reports older than this sweep");
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, Integer.MAX_VALUE);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            Map<String, Row> money = new HashMap<>();
            book.getSheet("Summary").forEach(row -> money.put(row.getCell(4) == null ? "" : row.getCell(4).toString(), row));
            assertThat(money).containsKeys("This quarter (FY2027-Q3): plan", "This quarter (FY2027-Q3): funding request", "The rest of FY2027, Q3 to Q4: funding request");
            BudgetPeriod rest = result.plan().budget().quarters().get(8);
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            assertThat(money.get("The rest of FY2027, Q3 to Q4: plan").getCell(6).getNumericCellValue())
                .isEqualTo(rest.plan().doubleValue()).isEqualTo(962);
        }
    }

    /** Thirty drives, all identified for the third quarter; a few will cross in the second, and nobody knows which: the reserve is for them. */
    @Test
    void whatMayComeEarlierIsReserved() {
        SweepResult result = Sweeps.with(IntStream.range(0, 30).mapToObj(i -> Sweeps.machine("LT-" + i, Standing.DUE, crossing("KX-" + i))).toList());
        BudgetPeriod next = result.plan().budget().quarters().get(1);
        assertThat(next.namedAmount()).isZero();
        assertThat(next.contingencyForWear()).isEqualTo(next.cost().amounts().p80()).isPositive();
        assertThat(SummaryText.of(result).replace("\n  ", " ")).contains("\n- identified for next quarter (2025-Q2), by the day of need: none\n",
            "\n- identified after 2025-Q2, by the day of need: LT-0 (machine, needed by " + result.plan().budget().lines().get(0).needOn() + "), LT-1 (", " and 18 more in replacements.csv\n");
    }

    private static DriveAssessment crossing(String serial) {
        DriveAssessment d = Sweeps.drive(serial, Standing.DUE, 120, 80, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("test"));
        Forecast forecast = new Forecast(null, null, null, 0.5, 0.1, 0.2, 0.4, 0.8, Sweeps.AS_OF.plusYears(9), "test",
            new Crossing(3 + 2.5 * 20, 0.03 + 2.0, List.of(0.17), Sweeps.COLLECTED));
        return new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(),
            new DriveAssessment.Outlook(d.outlook().projection(), forecast, null), d.standing(), d.reason());
    }
}

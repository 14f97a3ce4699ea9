package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.StreamSupport;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.budget.Budgets;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Endurance;
import org.wearledger.model.Finding;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Price;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Projection;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Three machines, each to be replaced by one of 962.00 EUR; which drives are in doubt differs. */
class InDoubtSentenceTest {
    private static MachineAssessment machine(String id, Standing standing) {
        return Sweeps.machine(id, standing, Sweeps.drive("KX-" + id, standing, 149, 14, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null,
            new Projection.None("test")));
    }

    private static SweepResult sweep(ProblemKind rule, String... inDoubt) {
        SweepResult r = Sweeps.with(List.of(machine("1", Standing.PAST_RATING), machine("2", Standing.PAST_RATING), machine("3", Standing.URGENT), machine("4", Standing.WITHIN_RATING)));
        List<Problem> problems = Arrays.stream(inDoubt).map(id -> r.machines().get(Integer.parseInt(id) - 1).activeDrives().get(0).id().toString())
            .map(drive -> Problem.of(Finding.USED_FELL, SourcePlace.wholeFile("a.json"), drive).under(rule)).toList();
        return new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), problems, r.files(),
            new SweepResult.Plan(r.plan().budget(), r.plan().warranties(), r.plan().work(), null, r.plan().decisions()));
    }

    @ParameterizedTest(name = "drives {0}")
    @CsvSource(delimiter = '|', textBlock = """
        1 2 3 | of 3 of 4 drives the figures contradict themselves, most often by a wrong unit in the export or its mapping: settle that before ordering; 2 (1,924.00 EUR) of this quarter's purchases rest on them, and some may be missing by the same error
        4     | of 1 of 4 drives the figures contradict themselves, most often by a wrong unit in the export or its mapping: settle that before ordering; none of this quarter's purchases rests on them, and some may be missing by the same error
        """)
    void whatRestsOnFiguresInDoubt(String drives, String sentence) throws IOException {
        SweepResult doubted = sweep(ProblemKind.WRITTEN_CONTRADICTS_USED, drives.split(" "));
        assertThat(SummaryText.of(doubted).replace("\n  ", " ")).contains("\n- in doubt: " + sentence + "\n- " );
        assertThat(GlanceText.doubt(doubted)).as("the end of a sweep").isEqualTo(drives.split(" ").length + " of 4 drives " + (drives.length() == 1 ? "is" : "are")
            + " in doubt: before ordering check what " + (drives.length() == 1 ? "it reports" : "they report") + "; problems.csv names the readings, and under a mapping the headings");
        assertThat(firstSheet(doubted)).containsSubsequence("Drives in doubt: " + drives.split(" ").length + ": " + Wording.sentenceCase(sentence), "Standing");
    }

    /** A report set aside takes nothing back from a drive that two readings show past its rating: its order is not held. */
    @ParameterizedTest(name = "{0} readings, {1}")
    @CsvSource(delimiter = '|', textBlock = """
        4 | PAST_RATING | 0 |
        1 | PAST_RATING | 1 | the report that was set aside
        4 | DUE         | 1 | the report that was set aside
        4 | URGENT      | 1 |
        """)
    void aReportThatWasSetAsideHoldsWhatItMayChange(int readings, Standing standing, int inDoubt, String toCheck) {
        DriveAssessment d = machine("1", standing).activeDrives().get(0);
        DriveAssessment drive = new DriveAssessment(d.id(), d.latest(),
            new DriveAssessment.Seen(d.seen().inServiceOn(), d.seen().firstCollectedAt(), readings, d.seen().epochs()),
            new DriveAssessment.Wear(d.wear().bytesWritten(), d.wear().endurance(), null, d.wear().remainingTerabytes(), null),
            new DriveAssessment.Pace(null, null, null),
            new DriveAssessment.Outlook(d.outlook().projection(), null, null), standing, "reason");
        SweepResult doubted = Sweeps.doubting(Sweeps.with(List.of(Sweeps.machine("1", standing, drive))), ProblemKind.LATEST_REPORT_SET_ASIDE, "1");
        assertThat(new InDoubtSentence(doubted).count()).isEqualTo(inDoubt);
        assertThat(DrivesToCheck.of(doubted.problems()).whatToCheck(drive)).isEqualTo(toCheck);
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        1   | PERCENTAGE_USED_FELL    | of 1 of 4 drives the figures contradict themselves, most often by a wrong unit in the export or its mapping: settle that before ordering; 1 (without a price) of this quarter's purchases rests on them
        1 2 | PERCENTAGE_USED_FELL    | of 2 of 4 drives the figures contradict themselves, most often by a wrong unit in the export or its mapping: settle that before ordering; 2 (without a price) of this quarter's purchases rest on them
        """)
    void moneyThatIsNotKnownIsNotNothing(String drives, ProblemKind rule, String sentence) {
        SweepResult r = sweep(rule, drives.split(" "));
        assertThat(new InDoubtSentence(Sweeps.with(r, r.problems(), Budgets.of(r.machines(), r.fleet().fleetModel(), List.of(new Price("drive 256 GB", "EUR", BigDecimal.ONE, null, null, null, null)),
            r.asOf(), r.settings(), BudgetSettings.withDefaults()))).sentence()).startsWith(sentence);
    }

    /** Of the drive of a fifth machine. */
    @Test
    void aDriveOfWhichNoReportIsBelievedCounts() {
        SweepResult r = sweep(ProblemKind.UNITS_DOUBTFUL, "2");
        List<Problem> problems = new ArrayList<>(r.problems());
        problems.add(Problem.of(Finding.ALL_DISBELIEVED, SourcePlace.wholeFile("b.json"), "KESTREL K2 / KX-5"));
        assertThat(new InDoubtSentence(Sweeps.with(r, problems, r.plan().budget())).sentence()).startsWith("of 2 of 5 drives the figures contradict themselves, or no report could be believed, "
            + "most often by a wrong unit in the export or its mapping: settle that before ordering; 1 (962.00 EUR) of this quarter");
    }

    @Test
    void withoutADoubtNothingIsSaidOfIt() throws IOException {
        SweepResult sure = sweep(ProblemKind.RATING_ASSUMED, "1", "2");
        assertThat(SummaryText.of(sure)).doesNotContain("in doubt");
        assertThat(GlanceText.doubt(sure)).isEmpty();
        assertThat(firstSheet(sure)).noneMatch(line -> line.startsWith("Drives in doubt"));
    }

    private static List<String> firstSheet(SweepResult result) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, Integer.MAX_VALUE);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            return StreamSupport.stream(book.getSheetAt(0).spliterator(), false).filter(row -> row.getCell(0) != null).map(InDoubtSentenceTest::words).toList();
        }
    }

    private static String words(Row row) {
        return row.getCell(0).getStringCellValue() + (row.getCell(3) == null ? "" : ": " + row.getCell(3).getStringCellValue());
    }
}

package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.apache.poi.ss.usermodel.DataFormatter;
import org.apache.poi.ss.usermodel.Sheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.Test;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Ownership;
import org.wearledger.model.Problem;
import org.wearledger.model.Projection;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.WarningSign.Kind;
import org.wearledger.model.WarningSign;

class OverviewTest {
    private final SweepResult result = Sweeps.small();
    private final Overview overview = new Overview(result);

    @Test
    void countsMoneyAndNotesEachSayTheirNumber() {
        assertThat(overview.counts()).isEqualTo("3 machines, as of 2025-03-31: 1 past rating, 1 within rating, 1 no verdict");
        assertThat(overview.money()).startsWith("this quarter (2025-Q1): plan ").contains("; 2025: plan ").endsWith(" EUR");
        assertThat(overview.notes()).containsExactly("files: 3 found = 2 read + 1 refused", "records: 5 found = 4 readings + 1 refused", "readings: 4 in = 3 kept + 1 set aside",
            "side table rows: 8 found = 7 read + 1 refused", "not reported this sweep: 1 (LT-003), see coverage.csv", "rating assumed: 1 of 2 drives; give theirs in ratings.csv, in the folder of the reports: Kestrel K2");
        assertThat(overview.more(1)).isEqualTo("and 1 more in work-list.csv");
        assertThat(overview.more(2)).isEmpty();
    }

    /** A site whose export cannot be read leaves no row in the table: it is said above it. */
    @Test
    void whereATenthOfTheRecordsIsRefusedTheWorstFolderIsNamedFirst() {
        SweepResult refused = Sweeps.with(result, List.of(Problem.of(Finding.EMPTY_RECORD, SourcePlace.line("hamburg/a.csv", 2), "")), result.plan().budget());
        assertThat(new Overview(refused).warnings()).startsWith("correct the export or its mapping first: 1 of 5 records were refused, 1 of them in hamburg, so machines are missing below; see problems.csv");
        assertThat(overview.warnings()).isEmpty();
    }

    @Test
    void whoHasTheMachineIsNamedWhereTheInventoryTells() {
        MachineAssessment m = Sweeps.machine("LT-9", Standing.NO_VERDICT);
        Machine machine = new Machine("LT-9", null, "North", null, null, null, null, null, null, "Ada N.", null, null);
        SweepResult named = Sweeps.with(List.of(new MachineAssessment(machine, m.attachment(), m.activeDrives(), m.standing(), m.reason(), null, false, null, null, true)));
        assertThat(new Overview(named).table(1)).containsExactly(List.of("Machine", "Site", "User", "Standing", "By", "Cost", "Why", "Do"),
            List.of("LT-9", "North", "Ada N.", "no verdict", "2025-04-14", "", "never reported", "collect a report"));
    }

    @Test
    void ofOneStandingTheMostWornIsFirst() {
        Endurance rating = new Endurance(new BigDecimal("100"), false, null, "maker's sheet");
        Projection none = new Projection.None("-");
        assertThat(new Overview(Sweeps.with(List.of(Sweeps.machine("LT-1", Standing.PAST_RATING, Sweeps.drive("K1", Standing.PAST_RATING, 110, 105, rating, null, none)),
            Sweeps.machine("LT-2", Standing.PAST_RATING, Sweeps.drive("K2", Standing.PAST_RATING, 90, 130, rating, null, none)),
            Sweeps.machine("LT-3", Standing.PAST_RATING, Sweeps.drive("K3", Standing.PAST_RATING, 180, 140, rating, null, none))))).table(3))
            .extracting(row -> row.get(0)).containsExactly("Machine", "LT-3", "LT-2", "LT-1");
    }

    /** A drive that is read-only goes before one whose errors rose, however little it wrote. */
    @Test
    void ofTheUrgentTheGravestSignIsFirst() {
        assertThat(new Overview(Sweeps.with(List.of(failing("LT-1", 50, Kind.MEDIA_ERRORS_ROSE), failing("LT-2", 1, Kind.READ_ONLY)))).table(2)).extracting(row -> row.get(0))
            .containsExactly("Machine", "LT-2", "LT-1");
    }

    private static MachineAssessment failing(String id, int used, Kind kind) {
        DriveAssessment d = Sweeps.drive("S-" + id, Standing.URGENT, used, used, new Endurance(new BigDecimal("100"), false, null, "maker's sheet"), null, new Projection.None("-"));
        return Sweeps.machine(id, Standing.URGENT, new DriveAssessment(d.id(), d.latest(), d.seen(), d.wear(), d.pace(), d.outlook(), d.standing(), d.reason(), List.of(WarningSign.of(kind))));
    }

    /** A drive whose machine was renamed is no new machine: nobody enters it twice. */
    @Test
    void aMachineThatWasRenamedIsToBeChecked() {
        MachineAssessment m = Sweeps.machine("LT-1", Standing.NO_VERDICT);
        MachineAssessment gone = new MachineAssessment(m.machine(), m.attachment(), List.of(), Standing.NO_VERDICT, m.reason(), null, false, null, null, true, null, "LT-9", null, Ownership.OWN);
        DriveAssessment drive = Sweeps.small().machines().get(0).activeDrives().get(0);
        MachineAssessment known = Sweeps.machine("LT-9", Standing.WITHIN_RATING, drive);
        MachineAssessment stray = new MachineAssessment(known.machine(), known.attachment(), known.activeDrives(), known.standing(), known.reason(), Sweeps.COLLECTED, true, null, null, false);
        List<List<String>> rows = new Overview(Sweeps.with(List.of(gone, stray))).table(2);
        assertThat(rows).extracting(row -> row.get(0) + ": " + row.get(5) + ": " + row.get(6)).containsExactly("Machine: Why: Do",
            "LT-9: not in the inventory: check whether it was LT-1 before", "LT-1: its drive is in LT-9: check whether it was renamed LT-9");
    }

    @Test
    void figuresInDoubtAreSaidHoweverManyColumnsAreMissing() {
        List<Problem> problems = new ArrayList<>(IntStream.range(0, 4).mapToObj(i -> Problem.of(Finding.COLUMN_MISSING_NOW, SourcePlace.wholeFile("q" + i + ".csv"), "").about("health.percentageUsed")
            .with(Fact.COUNT, 1).with(Fact.OF, 1)).toList());
        problems.add(Problem.of(Finding.USED_FELL, SourcePlace.wholeFile("a.json"), result.machines().get(0).activeDrives().get(0).id().toString()));
        List<String> warnings = new Overview(Sweeps.with(result, problems, result.plan().budget())).warnings();
        assertThat(warnings).hasSize(4).element(2).isEqualTo("columns missing: 2 more, see problems.csv");
        assertThat(warnings.get(3)).contains("1 of 2 drives is in doubt");
    }

    /** One definition for the console, the summary, the workbook and the CSV table. */
    @Test
    void theTableForItHoldsTheSameCellsEverywhere() throws Exception {
        List<List<String>> rows = overview.table(99);
        assertThat(rows).hasSize(overview.machines() + 1).hasSize(3);
        String summary = SummaryText.of(result);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        WorkbookWriter.write(result, out, 100);
        try (XSSFWorkbook book = new XSSFWorkbook(new ByteArrayInputStream(out.toByteArray()))) {
            book.getCreationHelper().createFormulaEvaluator().evaluateAll();
            Sheet sheet = book.getSheet("To do");
            DataFormatter cells = new DataFormatter();
            List<String> headings = IntStream.range(0, 9).mapToObj(i -> cells.formatCellValue(sheet.getRow(0).getCell(i))).toList();
            assertThat(headings).as("nobody's machine is known").containsExactly("Machine", "Site", "Standing", "Why", "Do", "By", "Cost (EUR)", "Decided", "See");
            for (int i = 1; i < rows.size(); i++) {
                List<String> row = rows.get(i);
                assertThat(summary.lines().filter(line -> line.startsWith("| " + row.get(0) + " ")).map(line -> Arrays.stream(line.substring(1).split("\\|")).map(String::strip).toList()))
                    .containsExactly(row);
                for (String heading : List.of("Machine", "Site", "Standing", "Why", "Do")) {
                    assertThat(Repricing.text(sheet.getRow(i).getCell(headings.indexOf(heading)))).as(heading).isEqualTo(row.get(rows.get(0).indexOf(heading)));
                }
            }
        }
    }
}

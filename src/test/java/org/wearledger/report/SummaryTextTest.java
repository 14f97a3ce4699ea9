package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Forecast;
import org.wearledger.model.FundingDifference;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Ownership;
import org.wearledger.model.Problem;
import org.wearledger.model.Projection;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSnapshot;

class SummaryTextTest {
    @Test
    void anEmptyFleetStillShowsSums() {
        String text = SummaryText.of(Sweeps.empty());
        assertThat(text).startsWith("# Wear sweep, no reading kept\n").contains(
            "- files: 0 found = 0 read + 0 refused\n", "- no problem found in the input\n");
    }

    @Test
    void theSumsStandOnTheirOwnLines() {
        assertThat(SummaryText.of(Sweeps.small()).lines()).contains("# Wear sweep, as of 2025-03-31",
            "- files: 3 found = 2 read + 1 refused", "- records: 5 found = 4 readings + 1 refused",
            "- readings: 4 in = 3 kept + 1 set aside", "- files passed over (no reports): 2",
            "- side table rows: 8 found = 7 read + 1 refused", "- side tables: 1 (4 ratings, 3 inventory machines, 0 prices)");
    }

    @Test
    void aMachinePastItsRatingShowsBothClocksAndThatTheRatingIsAssumed() {
        assertThat(unwrapped()).contains("- LT-002 at North, Kestrel K2: 156.0 TB written of 153.6 TB rated "
            + "(assumed: 0.6 TB per GB), percentage used 0 %; writes say 102 %, the drive says 0 % "
            + "(implied endurance 159 TB or more); check the maker's rating (the ratings lack it, so it is assumed) and the unit of percentage used first, then order at once: machine, 962.00 EUR\n");
    }

    /** First of all, and again where sweeps are compared. */
    @Test
    void aMissingColumnAndRatingsThatMayBeSlipsStandAtTheTop() {
        String text = SummaryText.of(Sweeps.with(Sweeps.small(), List.of(
            Problem.of(Finding.COLUMN_MISSING_NOW, SourcePlace.wholeFile("q2.csv"), "").about("health.dataUnitsWritten").with(Fact.COUNT, 3).with(Fact.OF, 3),
            Problem.of(Finding.NO_RATING, SourcePlace.wholeFile("(ratings table)"), "KESTREL K2, taken as 153.6 TB").with(Fact.COUNT, 2).with(Fact.PLACE, "line 2")
                .with(Fact.NEAR, "Kestrel K-2").with(Fact.GIGABYTES, 256)), Sweeps.small().plan().budget())).replace("\n  ", " ");
        assertThat(text).startsWith("# Wear sweep, as of 2025-03-31\n\n- columns missing: the latest reports of 3 of 3 drives have no bytes written: health.dataUnitsWritten is missing or empty "
            + "(q2.csv): those drives are judged by percentage used, and by bytes written only as earlier reports gave them; correct the mapping or the export, and sweep again before acting on this\n- 3 machines, as of ")
            .contains("\n- 1 of 2 drives goes by an assumed rating; nearest rows of the ratings table: line 2 has Kestrel K-2, 256 GB (for KESTREL K2, taken as 153.6 TB)\n");
    }

    /**
     * The measures of a drive past a rating of 100 TB: they disagree from a factor of 1.5, with one at 100 % or 50 points between; not when
     * the controller's figure, at 100 or 255, may stand for a higher one.
     */
    @ParameterizedTest(name = "{0} % of the rating written, {1} % used")
    @CsvSource({"103, 97, false", "100, 67, false", "100, 66, true", "51, 105, true", "99, 100, false", "101, 150, false", "101, 152, true", "200, 140, false", "150, 0, true",
        "160, 100, false", "160, 99, true", "60, 100, true", "1000, 255, false", "90, 255, true"})
    void measuresDisagreeFromAStatedGapOn(double terabytes, int used, boolean disagree) {
        String line = new MachineLines(Sweeps.small()).of(new MachineRow(Sweeps.machine("LT-9", Standing.PAST_RATING),
            Sweeps.drive("KX-9", Standing.PAST_RATING, terabytes, used, new Endurance(new BigDecimal("100"), false, null, "maker's sheet"), null,
                new Projection.AlreadyPast(null, Sweeps.AS_OF))));
        assertThat(line.contains("; writes say ")).isEqualTo(disagree);
    }

    private static SweepResult compared(SweepDifference... changes) {
        return compared(List.of(), changes);
    }

    private static SweepResult compared(List<FundingDifference> asks, SweepDifference... changes) {
        SweepResult r = Sweeps.small();
        return new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), r.problems(), r.files(),
            new SweepResult.Plan(r.plan().budget(), r.plan().warranties(), r.plan().work(), new ComparedSweeps("the sweep in old", List.of(changes), asks, List.of(), null, null, BigDecimal.ZERO, BigDecimal.ZERO), r.plan().decisions()));
    }

    @Test
    void aComparisonSaysThatMissingColumnsMayBeWhyThingsEased() {
        SweepResult r = compared(came(SweepDifference.Kind.EASED, "LT-001"));
        String hint = "- columns are missing, as said at the top: what eased, was dropped or costs less may come of that alone\n";
        assertThat(SummaryText.of(r)).doesNotContain("columns are missing");
        assertThat(SummaryText.of(Sweeps.with(r, List.of(Problem.of(Finding.COLUMN_MISSING_NOW, SourcePlace.wholeFile("q2.csv"), "")), r.plan().budget()))
            .replace("\n  ", " ")).contains(hint);
    }

    private static SweepDifference came(SweepDifference.Kind kind, String machineId) {
        return new SweepDifference(kind, machineId, null, "", "watch", null, null);
    }

    /** Three machines now, none or one of them then; one in ten would do. */
    @Test
    void twoSweepsThatHaveNoMachineInCommonAskForThePseudonyms() {
        String hint = " in both sweeps, which have 2 and 3: was one made under pseudonyms and the other not, or with another key? Then all that follows here is gone and new by name only\n";
        assertThat(SummaryText.of(compared(came(SweepDifference.Kind.GONE, "x1"), came(SweepDifference.Kind.GONE, "x2"), came(SweepDifference.Kind.NEW, "LT-001"), came(SweepDifference.Kind.NEW, "LT-002"),
            came(SweepDifference.Kind.NEW, "LT-003"))).replace("\n  ", " ")).contains("- no machine is" + hint);
        assertThat(SummaryText.of(compared(came(SweepDifference.Kind.GONE, "x1"), came(SweepDifference.Kind.NEW, "LT-001"), came(SweepDifference.Kind.NEW, "LT-002")))).doesNotContain("in both sweeps");
        assertThat(SummaryText.of(compared(came(SweepDifference.Kind.NEW, "LT-001"), came(SweepDifference.Kind.NEW, "LT-002"), came(SweepDifference.Kind.NEW, "LT-003")))).doesNotContain("in both sweeps");
    }

    @Test
    void whatIsToBeAskedForStandsThenAndNowWithTheReasons() {
        SweepResult r = compared(List.of(ask("2025-Q1", "579.00", "0.00", "447.00", "6.80", "625.50", "0.00", "377.00", "7.46"),
            ask("2025-Q2", "0.00", "0.00", "0.00", "1200.00", "0.00", "0.00", "0.00", "0.50"), ask("2025-Q3", "0.00", "0.00", "0.00", "1.00", "0.00", "0.00", "0.00", "2.00"),
            new FundingDifference(asked("2025", "2025-12-31", "1124.71", new SweepSnapshot.Parts(new BigDecimal("1000.00"), null, null, new BigDecimal("124.71"))),
                asked("2025", "2025-12-31", "1109.14", new SweepSnapshot.Parts(new BigDecimal("900.00"), new BigDecimal("84.43"), new BigDecimal("0.00"), new BigDecimal("124.71")))),
            new FundingDifference(asked("all 8 quarters", "2026-09-30", "1.00", null), asked("all 8 quarters", "2026-12-31", "2.00", null))));
        assertThat(SummaryText.of(r).replace("\n  ", " ")).contains("""
            - named replacements: then 0.00 EUR, now 0.00 EUR (+0.00)
            - funding request, this quarter (2025-Q1): then 1,032.80 EUR, now 1,009.96 EUR (-22.84): plan +46.50, boards that turn out to be machines -70.00, random failures +0.66
            - funding request, next quarter (2025-Q2): then 1,200.00 EUR, now 0.50 EUR (-1,199.50): random failures -1,199.50
            - funding request, 2025: then 1,124.71 EUR, now 1,109.14 EUR (-15.57): plan -100.00, risk reserve +84.43 (not known then), boards that turn out to be machines +0.00 (not known then)
            - funding request, all 8 quarters: then 1.00 EUR until 2026-09-30, now 2.00 EUR until 2026-12-31 (+1.00)
            - funding request, 1 other period: changes.csv
            """).doesNotContain("ask changed");
    }

    private static FundingDifference ask(String period, String... parts) {
        List<BigDecimal> p = Stream.of(parts).map(BigDecimal::new).toList();
        return new FundingDifference(asked(period, "2025-03-31", null, new SweepSnapshot.Parts(p.get(0), p.get(1), p.get(2), p.get(3))),
            asked(period, "2025-03-31", null, new SweepSnapshot.Parts(p.get(4), p.get(5), p.get(6), p.get(7))));
    }

    /** The amount is the sum of the parts, where they are known. */
    private static SweepSnapshot.Ask asked(String period, String until, String amount, SweepSnapshot.Parts parts) {
        return new SweepSnapshot.Ask(period, LocalDate.parse(until), parts == null ? new BigDecimal(amount) : amount != null ? new BigDecimal(amount)
            : parts.plan().add(parts.contingencyForWear()).add(parts.contingencyForPrices()).add(parts.allowance()), parts, null, null);
    }

    @Test
    void aDoubtStandsInTheListOfTheWorst() {
        DriveAssessment drive = Sweeps.drive("KX-9", Standing.PAST_RATING, 5, 100, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("test"));
        SweepResult r = Sweeps.with(List.of(Sweeps.machine("LT-9", Standing.PAST_RATING, drive)));
        SweepResult doubted = new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), r.fleet(), List.of(Problem.of(Finding.USED_FELL, SourcePlace.wholeFile("a.json"), drive.id().toString())), r.files(),
            new SweepResult.Plan(r.plan().budget(), r.plan().warranties(), r.plan().work(), null, r.plan().decisions()));
        assertThat(SummaryText.of(doubted).replace("\n  ", " ")).contains("; IN DOUBT, machines.csv says why; check the figures (unit, mapping) first, then order at once: machine, 962.00 EUR\n",
            "- order at once: none; check the figures first, then order: 1; replacements.csv and the work list say which\n");
        assertThat(SummaryText.of(r)).doesNotContain("IN DOUBT");
    }

    /** As of 2026-11-25, 605 days after the last reports. */
    @Test
    void oldReportsAreCalledOldWhateverTheStanding() {
        Endurance rating = new Endurance(new BigDecimal("150"), false, null, "maker's sheet");
        Projection passed = new Projection.Reaches(LocalDate.of(2025, 4, 12), "straight line", false);
        List<MachineAssessment> old = Stream.of(Standing.URGENT, Standing.PAST_RATING, Standing.DUE, Standing.WATCH).map(standing -> {
            MachineAssessment fresh = Sweeps.machine("LT-" + standing.ordinal(), standing, Sweeps.drive("KX-" + standing, standing, 149, 99, rating, null, passed));
            return new MachineAssessment(fresh.machine(), fresh.attachment(), fresh.activeDrives(), standing, fresh.reason(), fresh.lastSeenAt(), false, null, null, true);
        }).toList();
        String text = SummaryText.of(Sweeps.with(old, LocalDate.of(2026, 11, 25), BudgetSettings.withDefaults())).replace("\n  ", " ");
        assertThat(text.split("; last report is 605 days old", -1)).hasSize(5);
        assertThat(text).contains("- LT-2 at North, Kestrel K2: has probably passed its rating already, about 2025-04-12; 149.0 TB written of 150.0 TB rated (maker's sheet); "
            + "last report is 605 days old");
    }

    @Test
    void urgentAndDueDrivesAreListedWithReasonAndDate() {
        Endurance rating = new Endurance(new BigDecimal("150"), false, null, "maker's sheet");
        String text = SummaryText.of(Sweeps.with(List.of(
            Sweeps.machine("LT-1", Standing.URGENT, Sweeps.drive("KX-1", Standing.URGENT, 20, 255, rating, null,
                new Projection.None("no writes measured, so no date"))),
            Sweeps.machine("LT-2", Standing.DUE, Sweeps.drive("KX-2", Standing.DUE, 149, 99, rating, null,
                new Projection.Reaches(LocalDate.of(2025, 5, 20), "straight line", true))))))
            .replace("\n  ", " ");
        assertThat(text).contains("## Urgent\n\n- LT-1 at North, Kestrel K2: reason of LT-1; percentage used 255 % or more; "
                + "rating: maker's sheet; order at once: machine, 962.00 EUR\n",
            "## Due\n\n- LT-2 at North, Kestrel K2: reaches its rating about 2025-05-20 (beyond evidence); "
                + "149.0 TB written of 150.0 TB rated (maker's sheet); order by 2025-04-06, needed by 2025-05-20: machine, 962.00 EUR\n");
    }

    @Test
    void aMachineWhoseReportsAreRefusedIsNotCalledNeverSeen() {
        MachineAssessment silent = Sweeps.machine("LT-3", Standing.NO_VERDICT);
        SweepResult refused = Sweeps.with(List.of(new MachineAssessment(silent.machine(), silent.attachment(), List.of(), silent.standing(), silent.reason(), null, false, null,
            null, true, "3 records of it were refused (field-missing)", null, null, Ownership.OWN)));
        assertThat(SummaryText.of(refused)).contains("## Not reported this sweep\n\n- LT-3 at North: no report of it could be used; 3 records of it were refused (field-missing)\n");
        assertThat(CareTables.coverage(refused).columns().get(4).valueOf(refused.machines().get(0)))
            .isEqualTo("no usable report this sweep: 3 records of it were refused (field-missing)");
    }

    /** "urgent: 0" reads as good news where no drive could say so. */
    @Test
    void drivesThatTellNoErrorsAreCountedWithUrgent() {
        assertThat(unwrapped()).doesNotContain("whether");
        Health silent = Health.builder().set(HealthField.PERCENTAGE_USED, 3).build();
        SweepResult all = Sweeps.with(List.of(Sweeps.machine("LT-1", Standing.WITHIN_RATING, Sweeps.reporting(silent))));
        assertThat(SummaryText.of(all).replace("\n  ", " ")).contains(
            "- not reported by 1 of 1 drive: warnings, spare blocks and media errors; whether it is urgent cannot be seen\n");
    }

    @Test
    void whatWasNotSeenAndWhatIsTooFewIsSaid() {
        assertThat(unwrapped()).contains("## No verdict\n\n- LT-003 at North: no report\n", "- LT-003 at North: in the inventory, never reported\n",
            "| KESTREL K2  | 256 |      2 | 24.0 % (20.0 to 30.0) |             48.0 % | too few to compare; 1 rating assumed |\n", "- only machines that reported are compared; they are not all machines\n",
            "possibly swapping, check", "- rating-assumed: 1 (noted)", "- file-empty: 1 (file refused)",
            "- within rating: keep backing up and look again next sweep");
    }

    @Test
    void modelsAreComparedAmongMachinesAlikeAndRatingsAgainstTheDrives() {
        assertThat(unwrapped()).contains("""
            ## Machine models by what they write

            - only machines that reported are compared; they are not all machines
            - times the typical machine in GB per power-on hour, among machines alike in memory and site, with 95 % interval; machine-models.csv has each
            - Plover 14: 2.70 times (2.10 to 3.50), n = 40; not adjusted 2.90
            - explained by memory: 1 model; not adjusted Limpkin 13 1.90
            """, """
            ## Ratings that the drives contradict

            - check these ratings before ordering or claiming: the controllers' own estimate says otherwise
            - KESTREL K2: assumed 154 TB; 77 TB would fit, 50 % of it (45 to 55), by 9 drives
            """);
    }

    /** The fleet's price list has machines only, and its budget begins with the quarter of the as-of date. */
    @Test
    void theBudgetBeginsWithThisQuarterAndTheNext() {
        assertThat(SummaryText.of(Sweeps.small())).contains("""
            ## Budget

            | in EUR                 |   plan | boards as machines | risk reserve | random failures | less, and tax | funding request |
            | ---------------------- | -----: | -----------------: | -----------: | --------------: | ------------: | --------------: |
            | this quarter (2025-Q1) | 962.00 |               0.00 |         0.00 |            0.10 |          0.00 |          962.10 |
            | next quarter (2025-Q2) |   0.00 |               0.00 |         0.00 |            7.22 |          0.00 |            7.22 |
            | 2025                   | 962.00 |               0.00 |         0.00 |           21.94 |          0.00 |          983.94 |
            | 2026                   |   0.00 |               0.00 |         0.00 |           28.96 |          0.00 |           28.96 |
            | all 8 quarters         | 962.00 |               0.00 |         0.00 |           50.90 |          0.00 |        1,012.90 |

            - plan: identified replacements and expected further ones
            - boards as machines: some boards turn out to be whole machines, at the share on the sheet
              Assumptions
            - risk reserve: so that it suffices in four of five quarters, and for what was put off
            - random failures: drives that fail without having worn out: machines x rate x mean cost
            - funding request: the sum of these, less stock and expected warranty recovery, with whole packs and
              tax
            - worst case: suffices in nine of ten cases, also if all boards turn out to be machines. 2025
              (2025-03-31 to 2025-12-31) 983.94 EUR; 2026 (2026-01-01 to 2026-12-31) 28.96 EUR; all 8 quarters
              (2025-03-31 to 2026-12-31) 1,012.90 EUR
            - identified for this quarter (2025-Q1), by the day of need: 1 x machine
            - identified for next quarter (2025-Q2), by the day of need: none
            """);
    }

    @Test
    void aMachineNobodyListedIsNamed() {
        MachineAssessment known = Sweeps.machine("LT-1", Standing.NO_VERDICT);
        MachineAssessment stray = new MachineAssessment(known.machine(), known.attachment(), known.activeDrives(), known.standing(), known.reason(),
            Sweeps.COLLECTED, true, null, null, false);
        assertThat(SummaryText.of(Sweeps.with(List.of(stray)))).contains("## Reported, but not in the inventory\n\n- LT-1 at North: last seen 2025-03-30\n");
        assertThat(SummaryText.of(Sweeps.with(List.of(known)))).doesNotContain("not in the inventory");
    }

    /** As a machine that was renamed looks: the old name is in the inventory, the new one reports the drive. */
    @Test
    void whereTheDriveOfAMachineIsNowIsSaidOfBoth() {
        MachineAssessment old = Sweeps.machine("LT-1", Standing.NO_VERDICT);
        MachineAssessment gone = new MachineAssessment(old.machine(), old.attachment(), List.of(), old.standing(), "no active drive: the drive it reported is now in LT-9", Sweeps.COLLECTED, false,
            null, null, true, null, "LT-9", null, Ownership.OWN);
        MachineAssessment known = Sweeps.machine("LT-9", Standing.WITHIN_RATING);
        MachineAssessment stray = new MachineAssessment(known.machine(), known.attachment(), known.activeDrives(), known.standing(), known.reason(), Sweeps.COLLECTED, true, null, null, false);
        SweepResult renamed = Sweeps.with(List.of(gone, stray));
        String remedy = "if it was renamed LT-9, change its name in inventory.csv; if its drive was moved there, collect a report of its new drive";
        assertThat(SummaryText.of(renamed).replace("\n  ", " ")).contains("- LT-1 at North: no active drive: the drive it reported is now in LT-9; " + remedy + "\n",
            "- LT-9 at North: last seen 2025-03-30; it has the drive of LT-1: if that was renamed so, change its name in inventory.csv\n");
        assertThat(CareTables.coverage(renamed).columns().get(4).valueOf(gone)).isEqualTo("no report this sweep: its drive is now in LT-9");
        assertThat(new MachineRow(gone, null).nextStep()).isEqualTo(remedy);
    }

    @Test
    void linesFitTheConsoleAndNothingIsCalledHealthy() {
        String text = SummaryText.of(Sweeps.small());
        // Tables are as wide as their words.
        assertThat(text.lines().filter(line -> !line.startsWith("|"))).allMatch(line -> line.length() <= 100);
        assertThat(text).doesNotContainIgnoringCase("healthy");
    }

    @Test
    void longListsAreCut() {
        List<MachineAssessment> many = IntStream.range(0, 30)
            .mapToObj(i -> Sweeps.machine("LT-" + i, Standing.NO_VERDICT)).toList();
        assertThat(SummaryText.of(Sweeps.with(many))).contains("## No verdict\n\n- LT-0 at North: no report\n", "- and 18 more in machines.csv\n", "- and 5 more in machines.csv\n");
    }

    @Test
    void controlCharactersOfANameDoNotReachTheConsole() {
        assertThat(SummaryText.of(Sweeps.with(List.of(Sweeps.machine("LT\u001b[2J\n# x", Standing.NO_VERDICT)))))
            .doesNotContain("\u001b").doesNotContain("\n# x");
    }

    @Test
    void aFarDateIsPrintedAsItsMonth() {
        assertThat(Forecast.dateInWords(Sweeps.AS_OF.plusYears(1), Sweeps.AS_OF)).isEqualTo("2026-03-31");
        assertThat(Forecast.dateInWords(Sweeps.AS_OF.plusYears(1).plusDays(1), Sweeps.AS_OF)).isEqualTo("2026-04");
    }

    private static String unwrapped() {
        return SummaryText.of(Sweeps.small()).replace("\n  ", " ");
    }
}

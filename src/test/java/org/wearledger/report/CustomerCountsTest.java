package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.ComparedGroup;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.Endurance;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Ownership;
import org.wearledger.model.Projection;
import org.wearledger.model.RepairSummary;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;

/** Customers' machines in the summary: counted by site and model, and in no list of what to do. */
class CustomerCountsTest {
    private static MachineAssessment customers(String id, Standing standing, String site, String model) {
        return Sweeps.ofCustomer(Sweeps.machine(id, standing), site, model);
    }

    @Test
    void theyAreCountedBySiteAndByModelTheMostPressingFirst() {
        String summary = SummaryText.of(Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", "Plover 14"), customers("C-2", Standing.WITHIN_RATING, "North", "Plover 14"),
            customers("C-3", Standing.PAST_RATING, "South", null), customers("C-4", Standing.NO_VERDICT, "North", "Torvane 15"))));
        assertThat(summary.replace("\n  ", " ")).contains("""
            ## What machines and repairs say

            - Customers' machines: 4, in no plan: urgent 0, past rating 1, due 0, watch 0, within rating 2, no verdict 1; customers.csv. Machines that come in are not all machines
            - Urgent, past rating or due: South 1 of 1, North 0 of 3; (not reported) 1 of 1, Plover 14 0 of 2, Torvane 15 0 of 1
            - Owners to tell, past rating: C-3 at South: no report
            """);
    }

    /** C-3 was never seen, C-4 has an old report: nobody looks for them, nor are they in the list of the worst. */
    @Test
    void inAMixedFleetOnlyOwnMachinesAreListedAndMissed() {
        SweepResult mixed = Sweeps.with(List.of(Sweeps.machine("LT-1", Standing.PAST_RATING), customers("C-3", Standing.NO_VERDICT, "North", null),
            customers("C-4", Standing.PAST_RATING, "North", null)));
        String summary = SummaryText.of(mixed);
        assertThat(summary).contains("\n- 1 own machine, as of 2025-03-31: 1 past rating\n", "## Past rating\n\n- LT-1 at North",
            "## Not reported this sweep\n\n- LT-1 at North", "- Customers' machines: 2, in no plan: ", "- Owners to tell, past rating: C-4 at North: no report\n").doesNotContain("C-3");
        assertThat(CareTables.coverage(mixed).rows()).extracting(machine -> machine.machine().id()).containsExactly("LT-1");
        assertThat(SweepWriter.filesOf(mixed)).contains("customers.csv", "coverage.csv", "work-list.csv", "replacements.csv");
    }

    /** One own and two customers' machines, then two own and one: who has more of them stands first. */
    @ParameterizedTest
    @CsvSource({"1, 'What machines and repairs say', Watch", "2, Watch, Customers' machines"})
    void aChainReadsOfItsCustomersMachinesFirst(int own, String first, String later) {
        List<MachineAssessment> machines = new ArrayList<>();
        IntStream.range(0, 3).forEach(i -> machines.add(i < own ? Sweeps.machine("LT-" + i, Standing.WATCH) : customers("C-" + i, Standing.WATCH, "North", null)));
        assertThat(SummaryText.of(Sweeps.with(machines))).containsSubsequence("## " + first, "## " + later);
    }

    @Test
    void ofTheMostPressingTwoOfEachStandingAreNamed() {
        List<MachineAssessment> machines = new ArrayList<>(List.of(Sweeps.machine("LT-1", Standing.WITHIN_RATING)));
        IntStream.range(0, 12).forEach(i -> machines.add(customers("C-" + i, Standing.values()[3 - i % 4], "North", null)));
        assertThat(SummaryText.of(Sweeps.with(machines))).contains("- Owners to tell, urgent: C-11 at North: no report, C-3 at North: no report and 1 more\n",
            "- Owners to tell, past rating: C-10 at North: no report, C-2 at North: no report and 1 more\n").doesNotContain("Owners to tell, watch");
    }

    /** The time is the one of the owner's page; who is further worn, or will be worn first, comes first. */
    @Test
    void withEachStandsWhatIsKnownOfItsTime() {
        DriveAssessment past = Sweeps.drive("KX-1", Standing.PAST_RATING, 156, 0, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("none"));
        DriveAssessment further = Sweeps.drive("KX-2", Standing.PAST_RATING, 120, 131, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("none"));
        DriveAssessment due = Sweeps.drive("KX-3", Standing.DUE, 120, 80, new Endurance(new BigDecimal("150"), false, null, "maker's sheet"), null, new Projection.None("none"));
        assertThat(unwrapped(Sweeps.with(List.of(ofCustomer("C-1", Standing.PAST_RATING, past), ofCustomer("C-2", Standing.PAST_RATING, further), ofCustomer("C-3", Standing.DUE, due)))))
            .contains("- Owners to tell, past rating: C-2 at North: 131 %, C-1 at North: 104 %\n", "- Owners to tell, due: 0 of 1 seen once; no date for 1 (too little is known; most worn C-3 80 %) and 0 (check the figures). Dates not checked yet\n");
    }

    private static MachineAssessment ofCustomer(String id, Standing standing, DriveAssessment drive) {
        return Sweeps.ofCustomer(Sweeps.machine(id, standing, drive), "North", null);
    }

    @Test
    void machinesThatAreGoneAreCountedApart() {
        SweepResult chain = Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", null)));
        RepairSummary repairs = chain.fleet().repairs();
        assertThat(unwrapped(chain)).doesNotContain("sold, withdrawn");
        assertThat(unwrapped(with(chain, chain.fleet().machineModels(), repairs.with(repairs.failures(), 7)))).contains("no verdict 0; not counted: 7 sold, withdrawn or never read; customers.csv.");
    }

    private static SweepResult with(SweepResult r, List<ComparedGroup> machineModels, RepairSummary repairs) {
        SweepResult.Fleet f = r.fleet();
        return new SweepResult(r.version(), r.asOf(), r.settings(), r.accounting(), r.machines(), new SweepResult.Fleet(f.models(), machineModels, f.sites(), f.memoryBands(), f.memoryContrasts(), f.fleetModel(),
            f.calibration(), repairs, f.trend()), r.problems(), r.files(), r.plan());
    }

    /** Its new drive was not read yet: nothing is wrong with its reports. */
    @Test
    void aMachineWhoseDriveWasReplacedIsCountedApart() {
        MachineAssessment m = customers("C-1", Standing.NO_VERDICT, "North", null);
        MachineAssessment replaced = new MachineAssessment(m.machine(), m.attachment(), List.of(), m.standing(), m.reason(), Sweeps.COLLECTED, false, null, null, true, null, null,
            LocalDate.parse("2025-03-01"), Ownership.CUSTOMER);
        assertThat(unwrapped(Sweeps.with(List.of(replaced, customers("C-2", Standing.NO_VERDICT, "North", null))))).contains("no verdict 2 (1: drive replaced, not read since); customers.csv");
        assertThat(new MachineRow(replaced, null).nextStep()).isEqualTo("read the drive in it when it comes in next");
        assertThat(new MachineRow(m, null).nextStep()).isEqualTo("read the drive in it when it comes in next");
        MachineStory story = new MachineStory("1.0", Sweeps.AS_OF, replaced, List.of(), List.of(), List.of(), List.of());
        assertThat(ExplainPage.of(story, Sweeps.AS_OF)).contains("Its drive was replaced on 1 March 2025. The new one was not read since, so nothing is known of its wear.").doesNotContain("Too little was reported");
        assertThat(CustomerPage.of(story, Sweeps.AS_OF))
            .contains("Your drive was replaced on 1 March 2025.", "The new one was not read since, so nothing is known of its wear. Keep your backup", "Have the new drive read when the computer is in the shop next.")
            .doesNotContain("Too little", "looked at again soon");
    }

    /** As of a chain of fourteen shops: what does not fit is counted, and named where it stands. */
    @Test
    void theSummaryOfAChainStaysOnOneScreen() {
        List<MachineAssessment> machines = new ArrayList<>();
        IntStream.range(0, 6_000).forEach(i -> machines.add(customers("C-" + i, Standing.values()[i % 6], "Shop " + i % 14, "Model " + i % 60)));
        SweepResult chain = Sweeps.with(machines);
        String summary = SummaryText.of(chain);
        assertThat(summary.lines().count()).as(summary).isLessThanOrEqualTo(60);
        assertThat(summary).contains("6000, in no plan: urgent 1000, past rating 1000", "and 11 more;\n  Model 0 100 of 100, ", " and 57 more\n", "and 998 more\n")
            .doesNotContain("## Not reported", "## Budget", "## Next steps", "## Past rating");
        assertThat(SweepWriter.filesOf(chain)).contains("customers.csv")
            .doesNotContain("work-list.csv", "replacements.csv", "budget.csv", "totals.csv", "items.csv", "coverage.csv", "warranty.csv");
        assertThat(CustomerCounts.table(chain).rows()).hasSize(74);
    }

    @Test
    void whereNoModelStandsOutThatIsSaid() {
        SweepResult chain = Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", "Plover 14")));
        String best = "alike in memory and shop: ";
        assertThat(unwrapped(chain)).contains(best + "Plover 14 2.7 (2.1 to 3.5; n 40); by chance about 1 of 2; machine-models.csv\n- Machine models not told apart: of 2: 1 explained by memory (not adjusted Limpkin 13 1.9)\n");
        assertThat(unwrapped(with(chain, List.of(Sweeps.LIMPKIN), chain.fleet().repairs()))).contains(best + "none can be separated; by chance about 1 of 1");
    }

    /** One line for each question, and the same lines on the first sheet of the workbook. */
    @Test
    void eachQuestionOfAChainHasItsLine() {
        SweepResult chain = Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", "Plover 14")));
        assertThat(unwrapped(chain)).contains(
            "- Drive models that wear faster than rated: times what the maker promises (95 %): none for certain; times what is usual for the size (rating assumed): KESTREL K2 2.0 (1.8 to 2.2; n 9; fits 77 of 154 TB); last at least 80 % of it: 0; models.csv\n",
            "- Memory: 95 %: 8 against 16 GiB +4.5 GB a day (1.0 to -): a cause to check, no proof\n",
            "- Shops by what their machines write: times the typical (95 %), alike in memory and model: more: North 1.8 (1.4 to 2.3; n 70); less: none can be separated; sites.csv\n",
            "- Models to buy, as far as seen: avoid: KESTREL K2 (faster than usual, rating assumed); Plover 14 (writes more). No difference seen: 1 machine model, 0 drive models (from 20 machines on; column \"Result\" names them). Stands out as better: none. Not seen: price, failures of all in use\n",
            "- Dead drives that were worn: of 2 drives that came in dead, 1 could be read, and 1 of them was worn (100 %); of all, 1 to 100 % (95 %), since the 1 not read may all be worn, or none\n",
            "- Repairs by reason: since 2025-01-01: dead drive 2 (207); all 207 EUR; repair-costs.csv; 1 row after the as-of date not counted\n- Repairs by shop: North 2 (207)\n- Repairs by quarter: 2025-Q1 2 (207)\n",
            "- Stock for a quarter: one in ten to nine in ten (80 %), all shops: drive 512 GB 0 to 5; boards by model: Plover 14 0 to 4; stock.csv\n");
        assertThat(CustomersSummary.answers(chain)).extracting(MethodNotes.Note::topic).containsSequence("Machine models that write most", "Machine models not told apart",
            "Drive models that wear faster than rated", "Memory", "Shops by what their machines write", "Models to buy, as far as seen", "Dead drives that were worn");
    }

    private static String unwrapped(SweepResult result) {
        return SummaryText.of(result).replace("\n  ", " ");
    }
}

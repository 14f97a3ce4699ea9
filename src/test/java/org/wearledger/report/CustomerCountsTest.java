package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.MachineStory;
import org.wearledger.model.Ownership;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepResult;
import org.wearledger.model.SweepSettings;

/** Customers' machines in the summary: counted by site and model, and in no list of what to do. */
class CustomerCountsTest {
    private static MachineAssessment customers(String id, Standing standing, String site, String model) {
        return Sweeps.ofCustomer(Sweeps.machine(id, standing), site, model);
    }

    @Test
    void theyAreCountedBySiteAndByModelTheMostPressingFirst() {
        String summary = SummaryText.of(Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", "Plover 14"), customers("C-2", Standing.WITHIN_RATING, "North", "Plover 14"),
            customers("C-3", Standing.PAST_RATING, "South", null), customers("C-4", Standing.NO_VERDICT, "North", "Torvane 15"))));
        assertThat(summary).contains("""
            ## Customers' machines by site and machine model

            |                      | machines | urgent | past rating | due | watch | within rating | no verdict |
            | -------------------- | -------: | -----: | ----------: | --: | ----: | ------------: | ---------: |
            | site South           |        1 |      0 |           1 |   0 |     0 |             0 |          0 |
            | site North           |        3 |      0 |           0 |   0 |     0 |             2 |          1 |
            | model (not reported) |        1 |      0 |           1 |   0 |     0 |             0 |          0 |
            | model Plover 14      |        2 |      0 |           0 |   0 |     0 |             2 |          0 |
            | model Torvane 15     |        1 |      0 |           0 |   0 |     0 |             0 |          1 |
            | all                  |        4 |      0 |           1 |   0 |     0 |             2 |          1 |

            - in no plan, budget or work list; customers.csv has every site and model
            - machines that come in are not all machines: these counts say nothing of those that stay away
            """);
    }

    /** C-3 was never seen, C-4 has an old report: nobody looks for them, nor are they in the list of the worst. */
    @Test
    void inAMixedFleetOnlyOwnMachinesAreListedAndMissed() {
        SweepResult mixed = Sweeps.with(List.of(Sweeps.machine("LT-1", Standing.PAST_RATING), customers("C-3", Standing.NO_VERDICT, "North", null),
            customers("C-4", Standing.PAST_RATING, "North", null)));
        String summary = SummaryText.of(mixed);
        assertThat(summary).contains("## Own machines by standing\n\n- urgent: 0\n- past rating: 1 (1 not reported this sweep)\n", "- all own machines: 1\n", "## Past rating\n\n- LT-1 at North",
            "## Not reported this sweep\n\n- LT-1 at North", "| site North           |        2 |").contains("## Customers' machines to tell the owner of\n\n- C-4 at North: past rating; no report\n").doesNotContain("C-3");
        assertThat(CareTables.coverage(mixed).rows()).extracting(machine -> machine.machine().id()).containsExactly("LT-1");
        assertThat(SweepWriter.filesOf(mixed)).contains("customers.csv", "coverage.csv", "work-list.csv", "replacements.csv");
    }

    /** One own and two customers' machines, then two own and one: who has more of them stands first. */
    @ParameterizedTest
    @CsvSource({"1, Customers' machines by site and machine model, Own machines by standing", "2, Own machines by standing, Customers' machines by site and machine model"})
    void aChainReadsOfItsCustomersMachinesFirst(int own, String first, String later) {
        List<MachineAssessment> machines = new ArrayList<>();
        IntStream.range(0, 3).forEach(i -> machines.add(i < own ? Sweeps.machine("LT-" + i, Standing.WATCH) : customers("C-" + i, Standing.WATCH, "North", null)));
        assertThat(SummaryText.of(Sweeps.with(machines))).containsSubsequence("## " + first, "## " + later);
    }

    @Test
    void ofTheMostPressingEightAreNamed() {
        List<MachineAssessment> machines = new ArrayList<>(List.of(Sweeps.machine("LT-1", Standing.WITHIN_RATING)));
        IntStream.range(0, 12).forEach(i -> machines.add(customers("C-" + i, Standing.values()[3 - i % 4], "North", null)));
        assertThat(SummaryText.of(Sweeps.with(machines))).contains("- C-11 at North: urgent; no report\n- C-3 at North: urgent; no report\n- C-7 at North: urgent; no report\n- C-10 at North: past rating; no report\n",
            "- and 1 more in machines.csv\n");
    }

    /** Its new drive was not read yet: nothing is wrong with its reports. */
    @Test
    void aMachineWhoseDriveWasReplacedIsCountedApart() {
        MachineAssessment m = customers("C-1", Standing.NO_VERDICT, "North", null);
        MachineAssessment replaced = new MachineAssessment(m.machine(), m.attachment(), List.of(), m.standing(), m.reason(), Sweeps.COLLECTED, false, null, null, true, null, null,
            LocalDate.parse("2025-03-01"), Ownership.CUSTOMER);
        assertThat(SummaryText.of(Sweeps.with(List.of(replaced, customers("C-2", Standing.NO_VERDICT, "North", null))))).contains("- no verdict: drive replaced, not read since: 1; others: 1\n");
        assertThat(new MachineRow(replaced, null).nextStep()).isEqualTo("read the new drive when the machine comes in next");
        assertThat(new MachineRow(m, null).nextStep()).isEqualTo("read its drive when it comes in next");
        assertThat(CustomerPage.of(new MachineStory("1.0", Sweeps.AS_OF, SweepSettings.withDefaults(), replaced, List.of(), List.of(), List.of(), List.of())))
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
        assertThat(summary).contains("| 6 other sites   |     2571 |", "| 57 other models |     5700 |", "| all             |     6000 |   1000 |        1000 | 1000 |  1000 |          1000 |       1000 |")
            .doesNotContain("## Not reported", "## Budget", "## Next steps", "## Past rating");
        assertThat(SweepWriter.filesOf(chain)).contains("customers.csv")
            .doesNotContain("work-list.csv", "replacements.csv", "budget.csv", "totals.csv", "items.csv", "coverage.csv", "warranty.csv");
        assertThat(CustomerCounts.table(chain).rows()).hasSize(74);
    }

    @Test
    void whereNoModelStandsOutThatIsSaid() {
        SweepResult chain = Sweeps.with(List.of(customers("C-1", Standing.WITHIN_RATING, "North", "Plover 14")));
        String best = "among machines alike in memory and site (95 %): ";
        assertThat(unwrapped(chain)).contains(best + "Plover 14 2.7 (2.1 to 3.5); the others, machine-models.csv");
        SweepResult.Fleet fleet = chain.fleet();
        assertThat(unwrapped(new SweepResult(chain.version(), chain.asOf(), chain.settings(), chain.accounting(), chain.machines(), new SweepResult.Fleet(fleet.models(), List.of(Sweeps.LIMPKIN),
            fleet.memoryBands(), fleet.memoryContrasts(), fleet.fleetModel(), fleet.calibration(), fleet.repairs()), chain.problems(), chain.files(), chain.plan())))
            .contains(best + "none stands out; the others, machine-models.csv");
    }

    private static String unwrapped(SweepResult result) {
        return SummaryText.of(result).replace("\n  ", " ");
    }
}

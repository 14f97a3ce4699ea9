package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.budget.Fleets.AS_OF;
import static org.wearledger.budget.Fleets.drive;
import static org.wearledger.budget.Fleets.machine;

import java.math.BigInteger;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.ComparedSweeps;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DrivesToCheck;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Projection;
import org.wearledger.model.Reading;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepDifference;
import org.wearledger.model.SweepSettings;

/** What people settled, and what is left to do. All drives were first read on 2025-01-06, the as-of date. */
class DecisionsTest {
    private static Decision decision(String row) {
        String[] cells = row.split(" ");
        return new Decision("lt-1", Decision.State.of(cells[0]).orElseThrow(), LocalDate.parse(cells[1]), cells.length > 2 ? LocalDate.parse(cells[2]) : null, null, null, null);
    }

    private static MachineAssessment failing(long powerOnHours) {
        DriveAssessment d = drive("S1", Attachment.SOCKETED, Standing.URGENT, 5, new Projection.None("-"), null);
        Health health = Health.builder().set(HealthField.POWER_ON_HOURS, BigInteger.valueOf(powerOnHours)).build();
        return machine("LT-1", new DriveAssessment(d.id(), new Reading(d.latest().source(), d.latest().collectedAt(), d.latest().machine(), d.latest().drive(), health), d.seen(), d.wear(), d.pace(),
            d.outlook(), d.standing(), d.reason()));
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', nullValues = "-", textBlock = """
        -                                             | back up by 2025-01-06, ask maker by 2025-01-06, order by 2025-01-06, replace by 2025-02-19
        ordered 2025-01-02                            | back up by 2025-01-06, replace by 2025-02-15
        ordered 2024-11-01                            | back up by 2025-01-06, replace by 2025-01-06
        delivered 2025-01-04                          | back up by 2025-01-06, replace by 2025-01-18
        ordered 2024-12-02; delivered 2025-01-04      | back up by 2025-01-06, replace by 2025-01-18
        claimed 2025-01-02                            | back up by 2025-01-06, ask maker by 2025-01-16
        accepted 2025-01-02 2025-06-30                | back up by 2025-01-06
        deferred 2025-01-02 2025-03-31                | back up by 2025-01-06
        rejected 2025-01-02                           | back up by 2025-01-06
        deferred 2024-10-01 2025-01-05                | back up by 2025-01-06, ask maker by 2025-01-06, order by 2025-01-06, replace by 2025-02-19
        ordered 2025-01-07                            | back up by 2025-01-06, ask maker by 2025-01-06, order by 2025-01-06, replace by 2025-02-19
        """)
    void whatIsBoughtOrPutOffIsNotAskedForAgain(String rows, String left) {
        List<MachineAssessment> fleet = List.of(failing(9_000));
        Decisions decisions = Decisions.of(rows == null ? List.of() : Arrays.stream(rows.split("; ")).map(DecisionsTest::decision).toList(), fleet, AS_OF);
        Budget budget = Budgets.of(fleet, Fleets.FLEET, Fleets.PRICES, AS_OF, SweepSettings.withDefaults(), BudgetSettings.withDefaults());
        assertThat(String.join(", ", WorkLists.of(fleet, budget, Warranties.check(fleet, AS_OF), List.of(), new DrivesToCheck(Set.of(), Set.of()), decisions, AS_OF).stream()
            .map(item -> item.action().label() + " by " + item.byOn()).toList())).isEqualTo(left);
    }

    /** 35 days have 840 hours: a drive with more was there before the order, one with fewer is what was ordered. */
    @ParameterizedTest(name = "ordered 35 days ago, a drive of {0} hours")
    @CsvSource({"840, 0", "841, 1"})
    void anOrderIsDoneWhenANewDriveIsIn(long powerOnHours, int open) {
        assertThat(Decisions.of(List.of(decision("ordered 2024-12-02")), List.of(failing(powerOnHours)), AS_OF).open()).hasSize(open);
    }

    @Test
    void aDecisionForOneItemLeavesTheOthersOfTheMachine() {
        Decision board = new Decision("LT-1", Decision.State.ORDERED, AS_OF, null, "Board", null, null);
        Decisions decisions = Decisions.of(List.of(board), List.of(failing(9_000)), AS_OF);
        assertThat(Stream.of("board", "drive 256 GB").map(item -> decisions.of("LT-1", item))).containsExactly(board, null);
    }

    @Test
    void whatIsBoughtByNowIsNeitherUndoneNorOverdue() {
        Decisions decisions = Decisions.of(List.of(decision("delivered 2025-01-04")), List.of(failing(9_000)), AS_OF);
        List<SweepDifference> differences = Stream.of("LT-1", "LT-2").map(id -> new SweepDifference(SweepDifference.Kind.NOT_DONE_YET, id, "North", "2024-Q4", "2025-Q1: 87.50", null, null)).toList();
        assertThat(SweepComparison.with(decisions, new ComparedSweeps("test", differences, List.of(), List.of(), null, null, null, null)).differences())
            .extracting(change -> change.machineId() + " " + change.kind().label() + ": " + change.now())
            .containsExactly("LT-2 not done yet: 2025-Q1: 87.50", "LT-1 under way: delivered 2025-01-04");
    }
}

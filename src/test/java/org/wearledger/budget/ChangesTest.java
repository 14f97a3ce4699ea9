package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.Change;
import org.wearledger.model.Comparison;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.Standing;

class ChangesTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 6);

    private static MachineSnapshot machine(Standing standing, Double gigabytesPerDay, Double memoryGibibytes, MachineSnapshot.Planned... planned) {
        return new MachineSnapshot("LT-1", "North", List.of("S1"), standing, gigabytesPerDay, memoryGibibytes, LocalDate.of(2024, 10, 7), true, List.of(planned));
    }

    private static MachineSnapshot.Planned planned(String needOn, String amount) {
        return new MachineSnapshot.Planned(LocalDate.parse(needOn), new BigDecimal(amount));
    }

    private static Comparison compare(MachineSnapshot before, MachineSnapshot now) {
        return Changes.between(before == null ? List.of() : List.of(before), now == null ? List.of() : List.of(now), "test", AS_OF,
            BudgetSettings.withDefaults());
    }

    private static List<String> words(MachineSnapshot before, MachineSnapshot now) {
        return compare(before, now).changes().stream().map(change -> change.kind().label() + ": " + change.before() + " -> " + change.now()
            + (change.costDelta() == null ? "" : " " + change.costDelta())).toList();
    }

    @ParameterizedTest(name = "{0} to {1}: {2}")
    @CsvSource(nullValues = "-", value = {
        "WATCH, URGENT, NEWLY_URGENT", "DUE, PAST_RATING, NEWLY_PAST_RATING", "WITHIN_RATING, DUE, NEWLY_DUE", "WITHIN_RATING, WATCH, NEWLY_WATCH",
        "URGENT, PAST_RATING, EASED", "DUE, WATCH, EASED", "WATCH, WITHIN_RATING, EASED", "NO_VERDICT, WITHIN_RATING, VERDICT_FOUND",
        "WATCH, NO_VERDICT, VERDICT_LOST", "DUE, DUE, -"})
    void standings(Standing before, Standing now, Change.Kind kind) {
        assertThat(compare(machine(before, null, null), machine(now, null, null)).changes()).extracting(Change::kind)
            .isEqualTo(kind == null ? List.of() : List.of(kind));
    }

    @ParameterizedTest(name = "{0} to {1} GB a day")
    @CsvSource({"20, 30, WRITES_ROSE", "20, 29.9, ", "30, 20, WRITES_FELL", "2, 6.9, ", "2, 7, WRITES_ROSE"})
    void writesCountFromHalfMoreOrLessAndFiveGigabytes(double before, double now, Change.Kind kind) {
        assertThat(compare(machine(Standing.WATCH, before, null), machine(Standing.WATCH, now, null)).changes()).extracting(Change::kind)
            .isEqualTo(kind == null ? List.of() : List.of(kind));
    }

    @Test
    void aChangeOfMemoryIsNamedBesideTheWrites() {
        assertThat(words(machine(Standing.WATCH, 60.0, 8.0), machine(Standing.WATCH, 20.0, 16.0)))
            .containsExactly("writes fell: 60.0 GB a day with 8 GiB of memory -> 20.0 GB a day with 16 GiB of memory");
        assertThat(words(machine(Standing.WATCH, 60.0, 15.9), machine(Standing.WATCH, 20.0, 15.888))).as("rounded in the table of the earlier sweep")
            .containsExactly("writes fell: 60.0 GB a day -> 20.0 GB a day");
    }

    @Test
    void moneyThatMovedIsToldByThisSweepsQuarters() {
        assertThat(words(machine(Standing.WATCH, null, null, planned("2025-08-01", "87.50")), machine(Standing.WATCH, null, null, planned("2025-11-02", "87.50"))))
            .containsExactly("cost moved: 2025-Q3: 87.50 -> 2025-Q4: 87.50 0.00");
        assertThat(words(machine(Standing.WATCH, null, null, planned("2024-12-01", "87.50")), machine(Standing.WATCH, null, null, planned("2025-01-06", "87.50"))))
            .containsExactly("not done yet: 2024-Q4: 87.50 -> 2025-Q1: 87.50 0.00");
        assertThat(words(machine(Standing.WATCH, null, null), machine(Standing.WATCH, null, null, planned("2025-11-02", "87.50"))))
            .containsExactly("cost added: not planned -> 2025-Q4: 87.50 87.50");
        assertThat(words(machine(Standing.WATCH, null, null, planned("2025-11-02", "87.50")), machine(Standing.WATCH, null, null)))
            .containsExactly("cost dropped: 2025-Q4: 87.50 -> not planned -87.50");
        assertThat(words(machine(Standing.WATCH, null, null, planned("2025-08-01", "87.50")), machine(Standing.WATCH, null, null, planned("2025-09-02", "87.50"))))
            .as("within one quarter").isEmpty();
    }

    @Test
    void machinesThatComeAndGo() {
        assertThat(words(null, machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")))).containsExactly("new:  -> due 87.50");
        assertThat(words(machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")), null))
            .containsExactly("gone: last seen 2024-10-07 -> not seen at all -87.50");
        MachineSnapshot silent = new MachineSnapshot("lt-1", "North", List.of("S1"), Standing.DUE, null, null, LocalDate.of(2024, 10, 7), false, List.of());
        assertThat(words(machine(Standing.DUE, null, null), silent)).containsExactly("not reported: last seen 2024-10-07 -> no report since");
        MachineSnapshot changed = new MachineSnapshot("LT-1", "North", List.of("S2"), Standing.WITHIN_RATING, 90.0, null, AS_OF, true, List.of());
        assertThat(words(machine(Standing.PAST_RATING, 20.0, null), changed)).as("the writes of another drive say nothing")
            .containsExactly("drive replaced: drive S1 -> drive S2", "eased: past rating -> within rating");
    }

    @Test
    void anEarlierSweepWithoutABudgetMovesNoMoney() {
        MachineSnapshot before = new MachineSnapshot("LT-1", "North", List.of("S1"), Standing.DUE, null, null, AS_OF, true, null);
        Comparison comparison = compare(before, machine(Standing.DUE, null, null, planned("2025-02-01", "87.50")));
        assertThat(comparison.changes()).isEmpty();
        assertThat(comparison.plannedBefore()).isNull();
        assertThat(comparison.plannedNow()).isEqualTo("87.50");
    }
}

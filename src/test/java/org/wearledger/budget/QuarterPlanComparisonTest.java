package org.wearledger.budget;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.BudgetSettings;
import org.wearledger.model.MachineSnapshot;
import org.wearledger.model.NamedCostDifference;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSnapshot;

/** As of 2025-01-06: this quarter ends with March. */
class QuarterPlanComparisonTest {
    private static MachineSnapshot machine(String id, String... lines) {
        List<MachineSnapshot.Planned> planned = Stream.of(lines).filter(line -> !line.isEmpty()).map(line -> line.split(" ")).map(line -> new MachineSnapshot.Planned("S1", "drive",
            LocalDate.parse(line[0]), LocalDate.parse(line[0]), false, line.length == 1 ? null : new BigDecimal(line[1]))).toList();
        return new MachineSnapshot(id, "North", List.of("S1"), Standing.WATCH, null, null, LocalDate.of(2024, 10, 7), true, planned);
    }

    private static NamedCostDifference change(List<MachineSnapshot> before, List<MachineSnapshot> now) {
        return SweepComparison.between(new SweepSnapshot(before), new SweepSnapshot(now), "test", LocalDate.of(2025, 1, 6), BudgetSettings.withDefaults()).quarter();
    }

    /** One machine with one line in each plan, or none: the day of need, and what it costs. */
    @ParameterizedTest(name = "{0} to {1}")
    @CsvSource(delimiter = '|', textBlock = """
        2024-12-01 87.50 | 2025-01-06 87.50 | 0.00 to 87.50: 1 not done yet +87.50
        2024-12-01 87.50 | 2025-01-06 90.00 | 0.00 to 90.00: 1 not done yet +90.00
        2025-06-01 87.50 | 2025-03-31 87.50 | 0.00 to 87.50: 1 moved into it +87.50
        2025-01-01 87.50 | 2025-04-01 87.50 | 87.50 to 0.00: 1 moved out of it -87.50
        2025-01-01 87.50 | 2025-02-01 90.00 | 87.50 to 90.00: 1 at another price +2.50
        2025-01-01 87.50 | 2025-02-01       | 87.50 to 0.00: 1 at another price -87.50
        2025-01-01 87.50 | 2025-02-01 87.50 |
        2025-06-01 87.50 | 2025-07-01 90.00 |
        2025-01-01 87.50 |                  | 87.50 to 0.00: 1 planned no more -87.50
                         | 2025-01-06 87.50 | 0.00 to 87.50: 1 newly planned +87.50
                         | 2025-01-06       | 0.00 to 0.00: 1 newly planned +0.00
                         | 2025-04-01 87.50 |
        """)
    void whatTheDifferenceIsMadeOf(String was, String is, String words) {
        NamedCostDifference change = change(List.of(machine("LT-1", was == null ? "" : was)), List.of(machine("LT-1", is == null ? "" : is)));
        assertThat(change == null ? null : change.before() + " to " + change.now() + ": " + change.parts().get(0).words()).isEqualTo(words);
    }

    @Test
    void thePartsAddUpAlsoWithMachinesThatCameAndWent() {
        List<MachineSnapshot> before = new ArrayList<>(List.of(machine("GONE", "2025-02-01 100.00"), machine("LATE-1", "2024-11-01 87.50"), machine("LATE-2", "2024-12-01 87.50")));
        List<MachineSnapshot> now = List.of(machine("NEW", "2025-02-01 533.50"), machine("LATE-1", "2025-01-06 87.50"), machine("LATE-2", "2025-01-06 87.50"));
        NamedCostDifference change = change(before, now);
        assertThat(change.parts()).extracting(NamedCostDifference.Part::words).containsExactly("2 not done yet +175.00", "1 newly planned +533.50", "1 planned no more -100.00");
        assertThat(change.costDelta()).isEqualTo("608.50").isEqualTo(change.parts().stream().map(NamedCostDifference.Part::costDelta).reduce(BigDecimal::add).orElseThrow());
        before.add(new MachineSnapshot("LT-9", "North", List.of(), Standing.WATCH, null, null, null, true, null));
        assertThat(change(before, now)).as("against a sweep without a budget").isNull();
    }
}

package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;
import org.wearledger.model.MachineAssessment;

/** No row of decisions.csv is left out without a word. */
class DecisionTextTest {
    @Test
    void rowsThatNothingFollowsFromAreCounted() {
        MachineAssessment machine = Repricing.machines().get(0);
        assertThat(DecisionText.of(Decisions.of(List.of(ordered(machine.machine().id(), Sweeps.AS_OF.minusDays(1)), ordered("LT-77", Sweeps.AS_OF), ordered("LT-00", Sweeps.AS_OF.plusDays(1))),
            List.of(machine), Sweeps.AS_OF))).containsExactly("decisions still open: 1 ordered, see work-list.csv", "decisions for machines that are not known: 1 (LT-77), correct decisions.csv",
                "decisions dated after the as-of date, not used: 1");
        assertThat(DecisionText.of(Decisions.none())).isEmpty();
    }

    /** The risk of what is put off stands in the reserve of the summary's table, and there alone. */
    @Test
    void theTableAddsUpWhereALineIsPutOff() {
        Decision deferred = new Decision("LT-01", Decision.State.DEFERRED, Sweeps.AS_OF, LocalDate.of(2025, 9, 30), null, null, null);
        List<List<String>> rows = SummaryText.of(Repricing.Plan.first().with(deferred).result()).lines().filter(line -> line.startsWith("| this quarter") || line.startsWith("| next quarter"))
            .map(line -> Arrays.stream(line.substring(1).split("\\|")).skip(1).map(cell -> cell.strip().replace(",", "")).toList()).toList();
        assertThat(rows).hasSize(2).allSatisfy(row -> assertThat(row.subList(0, 5).stream().map(BigDecimal::new).reduce(BigDecimal.ZERO, BigDecimal::add)).isEqualTo(row.get(5)));
    }

    private static Decision ordered(String machineId, LocalDate date) {
        return new Decision(machineId, Decision.State.ORDERED, date, null, null, null, null);
    }
}

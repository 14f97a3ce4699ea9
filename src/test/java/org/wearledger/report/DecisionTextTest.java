package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
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

    private static Decision ordered(String machineId, LocalDate date) {
        return new Decision(machineId, Decision.State.ORDERED, date, null, null, null, null);
    }
}

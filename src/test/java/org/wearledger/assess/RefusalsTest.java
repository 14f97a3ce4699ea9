package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

class RefusalsTest {
    private static Problem problem(ProblemKind kind, String subject, long line) {
        return Problem.of(Finding.GARBLED, SourcePlace.line("a.csv", line), subject).under(kind);
    }

    /** A clock ahead hides a machine; "never reported" would send somebody to look for it. */
    @Test
    void reportsOfTheFutureAreToldByTheirMachine() {
        Problem ahead = Problem.of(Finding.IN_FUTURE, SourcePlace.line("a.csv", 2), "KESTREL K2 / KX-1").with(Fact.MACHINE, "lt-1");
        assertThat(Refusals.byMachine(List.of(ahead, ahead, problem(ProblemKind.FIELD_MISSING, "LT-1", 3)))).isEqualTo(Map.of("LT-1",
            "a record of it was refused (field-missing); 2 reports of it are dated in the future (collected-in-future)"));
    }

    /** Nothing that was read counts, and nothing that names no machine. */
    @Test
    void refusedRecordsAreToldByTheMachineTheyName() {
        assertThat(Refusals.byMachine(List.of(
            problem(ProblemKind.LOG_PAGE_WITHOUT_DATA, "lt-1", 2), problem(ProblemKind.FIELD_MISSING, "LT-1 ", 3), problem(ProblemKind.FIELD_MISSING, "LT-1", 4),
            problem(ProblemKind.FIELD_MISSING, "LT-2", 5), problem(ProblemKind.FIELD_MISSING, "", 6), problem(ProblemKind.SERIAL_SHARED, "LT-3", 7),
            problem(ProblemKind.OPTIONAL_FIELD_INVALID, "LT-4", 8))))
            .isEqualTo(Map.of("LT-1", "3 records of it were refused (field-missing, log-page-without-data)", "LT-2", "a record of it was refused (field-missing)"));
    }
}

package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Finding;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;
import org.wearledger.model.Standing;

class InputGapsTest {
    private static Problem row(ProblemKind kind, String file, long line) {
        return Problem.of(Finding.ROW_ATTACHMENT_UNKNOWN, SourcePlace.line(file, line), "").under(kind);
    }

    /** A machine whose row is not used stands in the budget as if nothing were known of it. */
    @Test
    void eachTableNamesTheLinesThatAreNotUsed() {
        List<Problem> problems = List.of(row(ProblemKind.SIDE_TABLE_ROW_INVALID, "prices.csv", 3), row(ProblemKind.SIDE_TABLE_ROW_REPEATED, "inventory.csv", 11),
            row(ProblemKind.SIDE_TABLE_ROW_INVALID, "inventory.csv", 2), row(ProblemKind.SIDE_TABLE_FIELD_INVALID, "inventory.csv", 7),
            Problem.of(Finding.UNKNOWN_ITEM, SourcePlace.line("prices.csv", 5), "bord"));
        assertThat(InputGaps.unusedRows(problems)).containsExactly("rows of inventory.csv not used: line 2, line 11; see problems.csv", "rows of prices.csv not used: line 3, line 5; see problems.csv");
    }

    @Test
    void twelveAreNamedAndTheOthersCounted() {
        Stream<Problem> rows = IntStream.range(2, 16).mapToObj(line -> row(ProblemKind.SIDE_TABLE_ROW_INVALID, "inventory.csv", line));
        assertThat(InputGaps.unusedRows(rows.toList())).singleElement().asString().endsWith("line 12, line 13 and 2 more; see problems.csv");
        assertThat(InputGaps.unusedRows(List.of())).isEmpty();
    }

    /** A machine that the inventory lacks stands in brackets. */
    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
        LT-1                     | the attachment of 1 drive is not known (LT-1): fill in attachment in inventory.csv
        LT-3 LT-1 LT-2           | the attachment of 3 drives is not known (LT-1, LT-2, LT-3): fill in attachment in inventory.csv
        LT-1 LT-2 LT-3 LT-4 LT-5 | the attachment of 5 drives is not known (LT-1, LT-2, LT-3 and 2 more): fill in attachment in inventory.csv
        LT-1 LT-1                | the attachment of 2 drives is not known (LT-1): fill in attachment in inventory.csv
        (LT-1)                   | the attachment of 1 drive is not known (LT-1): fill in attachment in inventory.csv; no row there yet: LT-1: add one, or change the name in its row if the machine was renamed
        LT-1 (LT-2)              | the attachment of 2 drives is not known (LT-1, LT-2): fill in attachment in inventory.csv; no row there yet: LT-2: add one, or change the name in its row if the machine was renamed
        """)
    void theMachinesAreNamed(String machines, String words) {
        List<MachineRow> rows = MachineRow.of(Stream.of(machines.split(" ")).map(InputGapsTest::machine).toList());
        assertThat(InputGaps.unknownAttachments(rows)).isEqualTo(words);
    }

    private static MachineAssessment machine(String id) {
        MachineAssessment m = Sweeps.machine(id.replaceAll("[()]", ""), Standing.WITHIN_RATING);
        return new MachineAssessment(m.machine(), Attachment.UNKNOWN, m.activeDrives(), m.standing(), m.reason(), m.lastSeenAt(), true, null, null, !id.startsWith("("));
    }
}

package org.wearledger.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/** A machine whose row is not used stands in the budget as if nothing were known of it. */
class UnusedRowsTest {
    private static Problem row(ProblemKind kind, String file, long line) {
        return Problem.of(Finding.ROW_ATTACHMENT_UNKNOWN, SourcePlace.line(file, line), "").under(kind);
    }

    @Test
    void eachTableNamesTheLinesThatAreNotUsed() {
        List<Problem> problems = List.of(row(ProblemKind.SIDE_TABLE_ROW_INVALID, "prices.csv", 3), row(ProblemKind.SIDE_TABLE_ROW_REPEATED, "inventory.csv", 11),
            row(ProblemKind.SIDE_TABLE_ROW_INVALID, "inventory.csv", 2), row(ProblemKind.SIDE_TABLE_FIELD_INVALID, "inventory.csv", 7),
            Problem.of(Finding.UNKNOWN_ITEM, SourcePlace.line("prices.csv", 5), "bord"));
        assertThat(UnusedRows.of(problems)).containsExactly("rows of inventory.csv not used: line 2, line 11; see problems.csv", "rows of prices.csv not used: line 3, line 5; see problems.csv");
    }

    @Test
    void twelveAreNamedAndTheOthersCounted() {
        Stream<Problem> rows = IntStream.range(2, 16).mapToObj(line -> row(ProblemKind.SIDE_TABLE_ROW_INVALID, "inventory.csv", line));
        assertThat(UnusedRows.of(rows.toList())).singleElement().asString().endsWith("line 12, line 13 and 2 more; see problems.csv");
        assertThat(UnusedRows.of(List.of())).isEmpty();
    }
}

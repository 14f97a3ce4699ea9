package org.wearledger.report;

import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Effect;
import org.wearledger.model.Problem;

/** Rows of side tables that are not used: what they say of a machine, a rating or a price counts as not said. */
final class UnusedRows {
    private static final int MOST_NAMED = 12;

    private UnusedRows() {
    }

    /** A line for each table, such as {@code rows of inventory.csv not used: line 2, line 5; see problems.csv}. */
    static List<String> of(List<Problem> problems) {
        TreeMap<String, List<Problem>> byFile = problems.stream().filter(problem -> problem.kind().effect() == Effect.ROW_REFUSED).sorted()
            .collect(Collectors.groupingBy(problem -> problem.source().file(), TreeMap::new, Collectors.toList()));
        return byFile.entrySet().stream().map(table -> "rows of " + table.getKey() + " not used: " + named(table.getValue()) + "; see "
            + SweepWriter.PROBLEMS_CSV).toList();
    }

    private static String named(List<Problem> rows) {
        String first = rows.stream().limit(MOST_NAMED).map(row -> row.source().place()).collect(Collectors.joining(", "));
        return rows.size() <= MOST_NAMED ? first : first + " and " + (rows.size() - MOST_NAMED) + " more";
    }
}

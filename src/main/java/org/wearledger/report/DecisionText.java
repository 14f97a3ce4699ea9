package org.wearledger.report;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.wearledger.model.Decision;
import org.wearledger.model.Decisions;

/** What became of the rows of decisions.csv: those that still stand, and those that nothing follows from. */
final class DecisionText {
    private static final int MOST_NAMES = 3;

    private DecisionText() {
    }

    /** Example: {@code decisions still open: 2 ordered, 1 delivered, see work-list.csv}. */
    static List<String> of(Decisions decisions) {
        List<String> notes = new ArrayList<>();
        Map<Decision.State, Long> open = decisions.open().values().stream().flatMap(List::stream)
            .collect(Collectors.groupingBy(Decision::state, () -> new EnumMap<>(Decision.State.class), Collectors.counting()));
        if (!open.isEmpty()) {
            notes.add("decisions still open: " + open.entrySet().stream().map(state -> state.getValue() + " " + state.getKey().label()).collect(Collectors.joining(", "))
                + ", see " + SweepWriter.WORK_LIST_CSV);
        }
        if (!decisions.unknown().isEmpty()) {
            notes.add("decisions for machines that are not known: " + decisions.unknown().size() + " (" + decisions.unknown().stream().limit(MOST_NAMES).map(VisibleText::of).collect(Collectors.joining(", "))
                + (decisions.unknown().size() > MOST_NAMES ? ", ..." : "") + "), correct decisions.csv");
        }
        if (decisions.later() > 0) {
            notes.add("decisions dated after the as-of date, not used: " + decisions.later());
        }
        return notes;
    }
}

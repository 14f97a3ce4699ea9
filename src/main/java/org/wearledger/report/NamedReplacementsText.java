package org.wearledger.report;

import java.util.Comparator;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.wearledger.model.Budget;
import org.wearledger.model.BudgetPeriod;
import org.wearledger.model.PlannedReplacement;

/** What the plan names, in words. */
final class NamedReplacementsText {
    private static final int MOST_LATER = 12;

    private final Budget budget;

    NamedReplacementsText(Budget budget) {
        this.budget = budget;
    }

    /** What the identified replacements of a quarter take, such as {@code 2 x board, 1 x drive 256 GB}. */
    String of(BudgetPeriod quarter) {
        TreeMap<String, Long> quantities = budget.lines().stream().filter(line -> line.quarter().equals(quarter.label()))
            .collect(Collectors.groupingBy(PlannedReplacement::item, TreeMap::new, Collectors.summingLong(PlannedReplacement::quantity)));
        return quantities.isEmpty() ? "none"
            : quantities.entrySet().stream().map(item -> item.getValue() + " x " + item.getKey()).collect(Collectors.joining(", "));
    }

    /** Machine by machine, since many of these stand in no other list; empty for none. */
    String after(List<BudgetPeriod> quarters) {
        Set<String> before = quarters.stream().map(BudgetPeriod::label).collect(Collectors.toSet());
        List<PlannedReplacement> later = budget.lines().stream().filter(line -> !before.contains(line.quarter()))
            .sorted(Comparator.comparing(PlannedReplacement::needOn).thenComparing(line -> line.machine().id())).toList();
        return later.stream().limit(MOST_LATER).map(line -> line.machine().id() + " (" + line.item() + ", needed by " + line.needOn() + ")").collect(Collectors.joining(", "))
            + (later.size() > MOST_LATER ? " and " + (later.size() - MOST_LATER) + " more in " + SweepWriter.REPLACEMENTS_CSV : "");
    }
}

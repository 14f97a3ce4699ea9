package org.wearledger.report;

import java.math.BigDecimal;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.wearledger.model.CostCentre;
import org.wearledger.model.PlannedReplacement;

/**
 * The plan's lines added up by quarter, site and cost centre.
 *
 * @param amountToCheck of the amount, that of the lines to be checked first
 */
record PlaceTotal(String quarter, CostCentre place, int placeNumber, int lines, BigDecimal amount, BigDecimal amountToCheck) {
    private record Key(String quarter, CostCentre place) implements Comparable<Key> {
        private static final Comparator<Key> ORDER = Comparator.comparing(Key::quarter).thenComparing(Key::place);

        @Override
        public int compareTo(Key other) {
            return ORDER.compare(this, other);
        }
    }

    static List<PlaceTotal> of(List<PlannedReplacement> lines, Places places, Predicate<PlannedReplacement> isChecked) {
        return lines.stream().collect(Collectors.groupingBy(line -> new Key(line.quarter(), CostCentre.of(line.machine())), TreeMap::new, Collectors.toList())).entrySet().stream()
            .map(group -> new PlaceTotal(group.getKey().quarter, group.getKey().place, places.number(group.getKey().place), group.getValue().size(),
                BudgetTables.sumOf(group.getValue().stream()), BudgetTables.sumOf(group.getValue().stream().filter(isChecked)))).toList();
    }
}

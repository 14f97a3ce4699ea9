package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import org.wearledger.model.PlannedReplacement;

/**
 * The plan's lines added up by quarter, site and cost centre.
 *
 * @param unlisted of the lines, those that the sheet of lines has no room for
 * @param amountToCheck of the amount, that of the lines to be checked first
 */
record PlaceTotal(String quarter, Places.Place place, int placeNumber, int lines, int unlisted, BigDecimal amount, BigDecimal unlistedAmount,
              BigDecimal amountToCheck, BigDecimal unlistedAmountToCheck) {
    private record Key(String quarter, Places.Place place) implements Comparable<Key> {
        private static final Comparator<Key> ORDER = Comparator.comparing(Key::quarter).thenComparing(Key::place);

        @Override
        public int compareTo(Key other) {
            return ORDER.compare(this, other);
        }
    }

    static List<PlaceTotal> of(List<PlannedReplacement> lines, Places places, int mostListed, Predicate<PlannedReplacement> isChecked) {
        Map<Key, List<Integer>> groups = new TreeMap<>();
        for (int i = 0; i < lines.size(); i++) {
            groups.computeIfAbsent(new Key(lines.get(i).quarter(), Places.Place.of(lines.get(i))), key -> new ArrayList<>()).add(i);
        }
        List<PlaceTotal> totals = new ArrayList<>();
        groups.forEach((key, members) -> {
            List<Integer> unlisted = members.stream().filter(i -> i >= mostListed).toList();
            totals.add(new PlaceTotal(key.quarter, key.place, places.number(key.place), members.size(), unlisted.size(), amount(lines, members, line -> true),
                amount(lines, unlisted, line -> true), amount(lines, members, isChecked), amount(lines, unlisted, isChecked)));
        });
        return totals;
    }

    private static BigDecimal amount(List<PlannedReplacement> lines, List<Integer> members, Predicate<PlannedReplacement> among) {
        return BudgetTables.sumOf(members.stream().map(lines::get).filter(among));
    }
}

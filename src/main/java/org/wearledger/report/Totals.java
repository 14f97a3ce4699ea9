package org.wearledger.report;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.PlannedReplacement;

/**
 * The plan's lines added up by quarter, site and cost centre.
 *
 * @param listed lines that the sheet of lines has room for; the others stand in the CSV only
 */
record Totals(String quarter, String site, String costCentre, int lines, int listed, BigDecimal amount, BigDecimal listedAmount) {
    static final String NOT_GIVEN = "(not given)";

    private record Key(String quarter, String site, String costCentre) implements Comparable<Key> {
        private static final Comparator<Key> ORDER = Comparator.comparing(Key::quarter)
            .thenComparing(Key::site, String.CASE_INSENSITIVE_ORDER).thenComparing(Key::costCentre, String.CASE_INSENSITIVE_ORDER);

        @Override
        public int compareTo(Key other) {
            return ORDER.compare(this, other);
        }
    }

    /** Spreadsheets compare texts without regard to case, and so does this. */
    static List<Totals> of(List<PlannedReplacement> lines, int mostListed) {
        Map<Key, List<Integer>> groups = new TreeMap<>();
        for (int i = 0; i < lines.size(); i++) {
            PlannedReplacement line = lines.get(i);
            groups.computeIfAbsent(new Key(line.quarter(), site(line), costCentre(line)), key -> new ArrayList<>()).add(i);
        }
        List<Totals> totals = new ArrayList<>();
        groups.forEach((key, members) -> totals.add(new Totals(key.quarter, key.site, key.costCentre, members.size(),
            (int) members.stream().filter(i -> i < mostListed).count(), amount(lines, members, Integer.MAX_VALUE),
            amount(lines, members, mostListed))));
        return totals;
    }

    private static BigDecimal amount(List<PlannedReplacement> lines, List<Integer> members, int below) {
        return members.stream().filter(i -> i < below).map(i -> lines.get(i).amount()).reduce(BigDecimal.ZERO.setScale(2), BigDecimal::add);
    }

    static String site(PlannedReplacement line) {
        return given(line.machine().site());
    }

    static String costCentre(PlannedReplacement line) {
        return given(line.machine().costCentre());
    }

    private static String given(String text) {
        return text == null ? NOT_GIVEN : text;
    }

    BigDecimal unlistedAmount() {
        return amount.subtract(listedAmount);
    }
}

package org.wearledger.report;

import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.wearledger.model.PlannedReplacement;

/**
 * The sites and cost centres of a plan, numbered: formulas add up by number, since a spreadsheet's criteria would take signs,
 * wildcards and digits in a name for more than a name.
 */
final class Places {
    static final String NOT_GIVEN = "(not given)";

    /** Without regard to case, as spreadsheets compare. */
    record Place(String site, String costCentre) implements Comparable<Place> {
        private static final Comparator<Place> ORDER = Comparator.comparing(Place::site, String.CASE_INSENSITIVE_ORDER)
            .thenComparing(Place::costCentre, String.CASE_INSENSITIVE_ORDER);

        static Place of(PlannedReplacement line) {
            return new Place(given(line.machine().site()), given(line.machine().costCentre()));
        }

        private static String given(String text) {
            return text == null ? NOT_GIVEN : text;
        }

        @Override
        public int compareTo(Place other) {
            return ORDER.compare(this, other);
        }
    }

    private final Map<Place, Integer> numbers = new TreeMap<>();

    Places(List<PlannedReplacement> lines) {
        lines.forEach(line -> numbers.put(Place.of(line), 0));
        int next = 1;
        for (Map.Entry<Place, Integer> place : numbers.entrySet()) {
            place.setValue(next++);
        }
    }

    int number(Place place) {
        return numbers.get(place);
    }
}

package org.wearledger.intake;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** Which fields of the report form a name that is none may mean. */
final class FieldNames {
    private static final LevenshteinDistance DISTANCE = LevenshteinDistance.getDefaultInstance();
    /** Fewer slips than half of the letters. */
    private static final int LETTERS_PER_SLIP = 2;
    /** Shorter words stand within too many others. */
    private static final int SHORTEST_PART = 4;
    private static final int MOST_NAMED = 3;

    private FieldNames() {
    }

    /** The nearest first; by what stands behind the dot, since that one knows and its group is forgotten: {@code percentageUsed}, {@code machine.serial}. */
    static List<String> near(String wanted) {
        return ReadingParser.known().stream().filter(field -> isNear(own(wanted), own(field)))
            .sorted(Comparator.comparing((String field) -> DISTANCE.apply(own(wanted), own(field)))
                .thenComparing(field -> DISTANCE.apply(folded(wanted), folded(field))).thenComparing(Comparator.naturalOrder()))
            .limit(MOST_NAMED).toList();
    }

    private static boolean isNear(String wanted, String own) {
        return LETTERS_PER_SLIP * DISTANCE.apply(wanted, own) < wanted.length()
            || wanted.length() >= SHORTEST_PART && own.contains(wanted) || own.length() >= SHORTEST_PART && wanted.contains(own);
    }

    private static String own(String field) {
        return folded(field.substring(field.lastIndexOf('.') + 1));
    }

    private static String folded(String name) {
        return name.strip().toLowerCase(Locale.ROOT);
    }
}

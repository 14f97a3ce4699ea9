package org.wearledger.intake;

import java.util.Comparator;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** Which fields of the report form a name that is none may mean. */
final class FieldNames {
    private static final LevenshteinDistance DISTANCE = LevenshteinDistance.getDefaultInstance();
    /** Fewer slips than half of the letters. */
    private static final int LETTERS_PER_SLIP = 2;
    /** Shorter words stand within too many others. */
    private static final int SHORTEST_PART = 4;
    private static final int MOST_NAMED = 3;
    /** Between the words of a name such as {@code powerOnHours}. */
    private static final Pattern BETWEEN_WORDS = Pattern.compile("(?<=[a-z0-9])(?=[A-Z])|[^A-Za-z0-9]+");

    private FieldNames() {
    }

    /** The nearest first; by what stands behind the dot, since that one knows and its group is forgotten: {@code percentageUsed}, {@code machine.serial}. */
    static List<String> near(String wanted) {
        return ReportField.ALL.stream().map(ReportField::dotted).filter(field -> isNear(own(wanted), own(field)) || sharesWords(wanted, field))
            .sorted(Comparator.comparing((String field) -> DISTANCE.apply(own(wanted), own(field)))
                .thenComparing(field -> DISTANCE.apply(Headings.folded(wanted), Headings.folded(field))).thenComparing(Comparator.naturalOrder()))
            .limit(MOST_NAMED).toList();
    }

    private static boolean isNear(String wanted, String own) {
        return LETTERS_PER_SLIP * DISTANCE.apply(wanted, own) < wanted.length()
            || wanted.length() >= SHORTEST_PART && own.contains(wanted) || own.length() >= SHORTEST_PART && wanted.contains(own);
    }

    /** Two words or more, all of them in the field or begun by a word of it: {@code mediaErrors} of {@code mediaAndDataIntegrityErrors}. */
    private static boolean sharesWords(String wanted, String field) {
        List<String> words = words(wanted);
        List<String> known = words(field);
        return words.size() > 1 && words.stream().allMatch(word -> known.stream().anyMatch(each -> each.equals(word)
            || Math.min(each.length(), word.length()) >= SHORTEST_PART && (each.startsWith(word) || word.startsWith(each))));
    }

    private static List<String> words(String field) {
        return BETWEEN_WORDS.splitAsStream(field.substring(field.lastIndexOf('.') + 1).strip()).map(Headings::folded).filter(word -> !word.isEmpty()).toList();
    }

    private static String own(String field) {
        return Headings.folded(field.substring(field.lastIndexOf('.') + 1));
    }
}

package org.wearledger.intake;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.regex.Pattern;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** What to say of the headings that a file has when one is looked for in vain. */
final class Headings {
    private static final int MOST_QUOTED = 2_000;
    private static final int LETTERS_PER_SLIP = 3;

    private Headings() {
    }

    /** {@code ; the nearest is "Written total"}, or nothing when no heading is near: one slip in three letters at most, or the same beginning. */
    static String near(String wanted, Collection<String> headings) {
        LevenshteinDistance distance = LevenshteinDistance.getDefaultInstance();
        String folded = folded(wanted);
        return headings.stream().filter(each -> LETTERS_PER_SLIP * distance.apply(folded, folded(each)) <= folded.length()
                || !folded.isEmpty() && folded(each).startsWith(folded))
            .min(Comparator.comparing((String each) -> distance.apply(folded, folded(each))).thenComparing(Comparator.naturalOrder()))
            .map(each -> "; the nearest is \"" + FileSummary.quoted(each) + "\"").orElse("");
    }

    /** All of them, as far as a line of text bears it. */
    static String listed(Collection<String> headings) {
        return FileSummary.quoted(String.join(", ", headings), MOST_QUOTED);
    }

    /** Whether bytes of it are no UTF-8. */
    static boolean isGarbled(String heading) {
        return heading.indexOf(Fields.UNDECODABLE) >= 0;
    }

    /** Whether bytes of the heading are no UTF-8 and it is the one looked for but for them. */
    static boolean isGarbled(String heading, String wanted) {
        String anyInPlace = Pattern.quote(heading).replace(String.valueOf(Fields.UNDECODABLE), "\\E.?\\Q");
        return isGarbled(heading) && Pattern.compile(anyInPlace, Pattern.DOTALL).matcher(wanted).matches();
    }

    private static String folded(String heading) {
        return heading.strip().toLowerCase(Locale.ROOT);
    }
}

package org.wearledger.intake;

import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** What to say of the headings that a file has, or of other names there are, when one is looked for in vain. */
public final class Headings {
    private static final LevenshteinDistance DISTANCE = LevenshteinDistance.getDefaultInstance();
    private static final int MOST_QUOTED = 120;
    private static final int MOST_LISTED = 2_000;
    private static final int LETTERS_PER_SLIP = 3;
    /** Shorter words stand within too many others. */
    private static final int SHORTEST_PART = 4;

    private Headings() {
    }

    /** The nearest heading, {@code null} when none is near: one slip in three letters at most, or the same beginning. */
    static String nearest(String wanted, Collection<String> headings) {
        String folded = folded(wanted);
        return nearest(wanted, headings.stream().filter(each -> isSlip(folded, folded(each)) || !folded.isEmpty() && folded(each).startsWith(folded)))
            .map(Headings::quoted).orElse(null);
    }

    /** The names that the wanted one may be a slip of, the nearest first, and by name where as near: one slip in three letters at most. */
    public static List<String> nearest(String wanted, Collection<String> names, int most) {
        String folded = folded(wanted);
        return names.stream().filter(name -> isSlip(folded, folded(name)))
            .sorted(Comparator.comparing((String name) -> DISTANCE.apply(folded, folded(name))).thenComparing(Comparator.naturalOrder())).limit(most).toList();
    }

    /** {@code "Price" may be unitPrice} for each of the wanted that a heading is near to or shares a word with, comma between; empty when none is. */
    static String guesses(Collection<String> wanted, Collection<String> headings) {
        return wanted.stream().map(each -> nearest(each, headings.stream().filter(heading -> isSlip(folded(each), folded(heading)) || isPart(folded(each), folded(heading))))
            .map(heading -> "\"" + quoted(heading) + "\" may be " + each)).flatMap(Optional::stream).collect(Collectors.joining(", "));
    }

    private static Optional<String> nearest(String wanted, Stream<String> headings) {
        return headings.min(Comparator.comparing((String each) -> DISTANCE.apply(folded(wanted), folded(each))).thenComparing(Comparator.naturalOrder()));
    }

    private static boolean isSlip(String wanted, String heading) {
        return LETTERS_PER_SLIP * DISTANCE.apply(wanted, heading) <= wanted.length();
    }

    private static boolean isPart(String wanted, String heading) {
        return Math.min(wanted.length(), heading.length()) >= SHORTEST_PART && (wanted.contains(heading) || heading.contains(wanted));
    }

    /** All of them, as far as a line of text bears it. */
    static String listed(Collection<String> headings) {
        return quoted(String.join(", ", headings), MOST_LISTED);
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

    /** Letter case and blanks around it make no other heading. */
    static String folded(String heading) {
        return heading.strip().toLowerCase(Locale.ROOT);
    }

    /** What is printed of a heading or another text of the file. */
    static String quoted(String text) {
        return quoted(text, MOST_QUOTED);
    }

    private static String quoted(String text, int most) {
        String printable = text.replaceAll("[\\p{Cntrl}\\p{Cf}\uFFFD]", "?");
        return printable.length() <= most ? printable : printable.substring(0, most) + "...";
    }
}

package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;
import java.util.regex.Pattern;

/**
 * Something in the input that the reader must know of. {@code subject} names the machine or drive concerned, empty when
 * unknown. {@code found}, {@code expected} and {@code remedy} are sentences without a final stop.
 */
public record Problem(ProblemKind kind, SourcePlace source, String subject, String found, String expected,
                      String remedy) implements Serializable, Comparable<Problem> {
    private static final Comparator<Problem> ORDER = Comparator.comparing(Problem::source)
        .thenComparing(Problem::kind).thenComparing(Problem::subject).thenComparing(Problem::found)
        .thenComparing(Problem::expected).thenComparing(Problem::remedy);
    private static final Pattern HALF_PAIR = Pattern.compile("\\p{Cs}");

    /** What is quoted, of the input or of a mapping, may be cut or hold what cannot be written. */
    public Problem {
        subject = writable(subject);
        found = writable(found);
        expected = writable(expected);
    }

    /**
     * The text as it can be written in UTF-8: half of a surrogate pair, which a JSON escape or a cut may leave, is no character
     * and becomes U+FFFD, as bytes that are no UTF-8 do.
     */
    public static String writable(String text) {
        // Surrogates are rare: most text never meets the pattern.
        for (int i = 0; i < text.length(); i++) {
            if (Character.isSurrogate(text.charAt(i))) {
                return HALF_PAIR.matcher(text).replaceAll("\uFFFD");
            }
        }
        return text;
    }

    @Override
    public int compareTo(Problem other) {
        return ORDER.compare(this, other);
    }

    /** One line for people: {@code file, place: found; expected ...; remedy}. */
    public String sentence() {
        return source.inWords() + ": " + found + "; expected " + expected + "; " + remedy;
    }

    /**
     * A remedy of several rules, for files that the one mapping of a sweep does not fit.
     *
     * @param which such as {@code those in the other unit}
     */
    public static String packApart(String which) {
        return "pack " + which + " under a mapping of their own, and sweep the pack beside the rest";
    }
}

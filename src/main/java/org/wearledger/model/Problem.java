package org.wearledger.model;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Something in the input that the reader must know of. {@code subject} names the machine or drive concerned, empty when
 * unknown. {@code found}, {@code expected} and {@code remedy} are sentences without a final stop.
 *
 * @param count how many problems it stands for: 1 but in {@link #more}
 */
public record Problem(ProblemKind kind, SourcePlace source, String subject, String found, String expected,
                      String remedy, long count) implements Serializable, Comparable<Problem> {
    /** Of one rule and file; no honest export comes near it, and outputs stay small whatever arrives. */
    public static final int MOST_LISTED = 1_000;
    private static final Comparator<Problem> ORDER = Comparator.comparing(Problem::source)
        .thenComparing(Problem::kind).thenComparing(Problem::subject).thenComparing(Problem::found)
        .thenComparing(Problem::expected).thenComparing(Problem::remedy).thenComparingLong(problem -> problem.count);
    private static final Pattern HALF_PAIR = Pattern.compile("\\p{Cs}");

    /** What is quoted, of the input or of a mapping, may be cut or hold what cannot be written. */
    public Problem {
        subject = writable(subject);
        found = writable(found);
        expected = writable(expected);
        // What was kept before problems were counted does not say.
        count = Math.max(1, count);
    }

    /** One problem. */
    public Problem(ProblemKind kind, SourcePlace source, String subject, String found, String expected, String remedy) {
        this(kind, source, subject, found, expected, remedy, 1);
    }

    /** The problems of one rule and file that are counted without being listed. */
    public static Problem more(ProblemKind kind, String file, String subject, long count) {
        return new Problem(kind, SourcePlace.further(file), subject, "and " + count + " more by this rule", "as in the lines of this rule before",
            "see those; they are listed up to " + MOST_LISTED + " for each rule and file", count);
    }

    /** Whether it stands for problems that are not listed. */
    public boolean standsForMore() {
        return source.equals(SourcePlace.further(source.file()));
    }

    /** How many problems these are, those that are counted without being listed among them. */
    public static long count(Collection<Problem> problems) {
        return problems.stream().mapToLong(Problem::count).sum();
    }

    /** How many of them have this effect. */
    public static long count(Collection<Problem> problems, Effect effect) {
        return problems.stream().filter(problem -> problem.kind.effect() == effect).mapToLong(Problem::count).sum();
    }

    /**
     * The problems as outputs list them: of each rule and file the first {@value #MOST_LISTED} by place, the others as one line with
     * their number. Sorted; the counts add up as before.
     */
    public static List<Problem> listed(Collection<Problem> problems) {
        Map<String, Map<ProblemKind, List<Problem>>> byFile = problems.stream().sorted()
            .collect(Collectors.groupingBy(problem -> problem.source.file(), TreeMap::new, Collectors.groupingBy(Problem::kind)));
        List<Problem> listed = new ArrayList<>();
        byFile.forEach((file, byKind) -> byKind.forEach((kind, all) -> {
            List<Problem> first = all.stream().filter(problem -> !problem.standsForMore()).limit(MOST_LISTED).toList();
            listed.addAll(first);
            long more = count(all) - first.size();
            if (more > 0) {
                listed.add(more(kind, file, "", more));
            }
        }));
        listed.sort(null);
        return listed;
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

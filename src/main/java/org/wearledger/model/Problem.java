package org.wearledger.model;

import java.io.Serializable;
import java.util.Collection;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import java.util.regex.Pattern;

/**
 * Something in the input that the reader must know of, as values; the package {@code report} puts it into words.
 *
 * @param kind the rule
 * @param subject the machine or drive concerned, empty when unknown
 * @param finding which of the rule's cases it is
 * @param fields that it is about
 * @param facts what was found, each fact of one value or of several
 * @param count how many problems it stands for: 1 but in {@link #more}
 */
public record Problem(ProblemKind kind, SourcePlace source, String subject, Finding finding, List<MappedField> fields, Map<Fact, List<String>> facts, long count)
    implements Serializable, Comparable<Problem> {
    /** Of one rule and file; no honest export comes near it, and outputs stay small whatever arrives. */
    public static final int MOST_LISTED = 1_000;
    private static final Comparator<Problem> ORDER = Comparator.comparing(Problem::source).thenComparing(Problem::kind).thenComparing(Problem::subject)
        .thenComparing(Problem::finding).thenComparing(problem -> problem.fields + " " + new TreeMap<>(problem.facts)).thenComparingLong(Problem::count);
    private static final Pattern HALF_PAIR = Pattern.compile("\\p{Cs}");

    /** What is quoted, of the input or of a mapping, may be cut or hold what cannot be written. */
    public Problem {
        Objects.requireNonNull(kind);
        Objects.requireNonNull(source);
        Objects.requireNonNull(finding);
        subject = writable(subject);
        fields = List.copyOf(fields);
        Map<Fact, List<String>> writable = new EnumMap<>(Fact.class);
        facts.forEach((fact, texts) -> {
            if (!texts.isEmpty()) {
                writable.put(fact, texts.stream().map(Problem::writable).toList());
            }
        });
        facts = Map.copyOf(writable);
        // What was kept before problems were counted does not say.
        count = Math.max(1, count);
    }

    /** One problem, without any fact yet. */
    public static Problem of(Finding finding, SourcePlace source, String subject) {
        return new Problem(finding.kind(), source, subject, finding, List.of(), Map.of(), 1);
    }

    /** The same with one more fact; without it where the value is {@code null} or a collection without values. */
    public Problem with(Fact fact, Object value) {
        List<String> texts = value == null ? List.of() : value instanceof Collection<?> many ? many.stream().map(String::valueOf).toList() : List.of(value.toString());
        if (texts.isEmpty()) {
            return this;
        }
        Map<Fact, List<String>> more = new EnumMap<>(Fact.class);
        more.putAll(facts);
        more.put(fact, texts);
        return new Problem(kind, source, subject, finding, fields, more, count);
    }

    /** The same, about these fields. */
    public Problem about(List<MappedField> others) {
        return new Problem(kind, source, subject, finding, others, facts, count);
    }

    /** The same, about a field under its own name. */
    public Problem about(String field) {
        return about(List.of(MappedField.of(field)));
    }

    /** The same under another rule. */
    public Problem under(ProblemKind other) {
        return new Problem(other, source, subject, finding, fields, facts, count);
    }

    /** The same at another place, of a subject by another name. */
    public Problem at(SourcePlace place, String name) {
        return new Problem(kind, place, name, finding, fields, facts, count);
    }

    /** The same without anything that is quoted of the input. */
    public Problem withheld() {
        Map<Fact, List<String>> own = new EnumMap<>(Fact.class);
        facts.forEach((fact, texts) -> {
            if (!fact.isQuoted()) {
                own.put(fact, texts);
            }
        });
        return new Problem(kind, source, subject, finding, fields.stream().map(MappedField::withheld).toList(), own, count);
    }

    /** The first value of the fact; {@code null} without any. */
    public String fact(Fact fact) {
        return facts.containsKey(fact) ? facts.get(fact).get(0) : null;
    }

    /** The problems of one rule and file that are counted without being listed. */
    public static Problem more(ProblemKind kind, String file, String subject, long count) {
        return new Problem(kind, SourcePlace.further(file), subject, Finding.MORE, List.of(),
            Map.of(Fact.COUNT, List.of(Long.toString(count)), Fact.MOST, List.of(Integer.toString(MOST_LISTED))), count);
    }

    /** Whether it stands for problems that are not listed. */
    public boolean standsForMore() {
        return finding == Finding.MORE;
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
}

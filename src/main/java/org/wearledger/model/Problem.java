package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;

/**
 * Something in the input that the reader must know of. {@code subject} names the machine or drive concerned, empty when
 * unknown. {@code found}, {@code expected} and {@code remedy} are sentences without a final stop.
 */
public record Problem(ProblemKind kind, SourcePlace source, String subject, String found, String expected,
                      String remedy) implements Serializable, Comparable<Problem> {
    private static final Comparator<Problem> ORDER = Comparator.comparing(Problem::source)
        .thenComparing(Problem::kind).thenComparing(Problem::subject).thenComparing(Problem::found)
        .thenComparing(Problem::expected).thenComparing(Problem::remedy);

    @Override
    public int compareTo(Problem other) {
        return ORDER.compare(this, other);
    }

    /** One line for people: {@code file, place: found; expected ...; remedy}. */
    public String sentence() {
        return source.file() + ", " + source.place() + ": " + found + "; expected " + expected + "; " + remedy;
    }
}

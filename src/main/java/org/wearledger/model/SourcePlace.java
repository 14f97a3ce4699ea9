package org.wearledger.model;

import java.io.Serializable;
import java.util.Comparator;

/**
 * Where a fact was read: {@code file} as the user named it (with {@code /} between folders), {@code index} the place
 * in reading order, {@code place} the same in words, such as {@code "line 3"} or {@code "record 2"}.
 */
public record SourcePlace(String file, long index, String place) implements Serializable, Comparable<SourcePlace> {
    private static final Comparator<SourcePlace> ORDER =
        Comparator.comparing(SourcePlace::file).thenComparingLong(SourcePlace::index).thenComparing(SourcePlace::place);

    /** A problem of the file, not of a record in it. */
    public static SourcePlace wholeFile(String file) {
        return new SourcePlace(file, 0, "whole file");
    }

    /** A line of a text file, counted from 1. */
    public static SourcePlace line(String file, long line) {
        return new SourcePlace(file, line, "line " + line);
    }

    /** An object of a JSON file, counted from 1. */
    public static SourcePlace record(String file, long number) {
        return new SourcePlace(file, number, "record " + number);
    }

    /** Places of a file that are counted and not listed; behind all others. */
    static SourcePlace further(String file) {
        return new SourcePlace(file, Long.MAX_VALUE, "further places");
    }

    /** The same place, its file named with what stands before it. */
    public SourcePlace within(String before) {
        return new SourcePlace(before + file, index, place);
    }

    /** {@code office.csv, line 3}. */
    public String inWords() {
        return file + ", " + place;
    }

    @Override
    public int compareTo(SourcePlace other) {
        return ORDER.compare(this, other);
    }
}

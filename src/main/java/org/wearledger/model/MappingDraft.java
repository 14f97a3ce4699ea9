package org.wearledger.model;

import java.io.Serializable;
import java.util.List;
import java.util.Map;

/**
 * A mapping as it may be, from the headings and values of an export.
 *
 * @param fields with a heading that may hold them, in the order of the report form
 * @param numbers ways in which numbers may be written: none where they are plain, several where nothing tells
 * @param lacking fields that every report needs and no heading was found for
 * @param notUsed headings that nothing is read from
 * @param records looked at
 * @param encoding as it looks like, where it is not UTF-8; else {@code null}
 * @param within pointer to the array whose elements the records are; {@code null} where each outermost object is one
 * @param doubled headings of more than one column, each with the number of records in which their cells differ
 */
public record MappingDraft(List<Field> fields, List<Sign> numbers, List<String> lacking, List<String> notUsed, long records, String encoding, String within, Map<String, Integer> doubled)
    implements Serializable {
    /** What settled the unit of a field, or the format of its times. */
    public enum Basis {
        /** There is none to choose. */
        NONE,
        /** The heading says it. */
        HEADING,
        /** With any other the values could not be. */
        VALUES,
        /** With any other, what drives have written would fall as time goes on. */
        COURSE,
        /** Nothing: a person has to say. */
        OPEN
    }

    /**
     * One field.
     *
     * @param from heading, or pointer into a JSON record
     * @param key {@code unit} or {@code format}; {@code null} for neither
     * @param choices one where it is settled
     * @param otherwise what the heading may mean as well, such as GiB for GB; {@code null} for nothing
     * @param sample a value as it stands in the export
     * @param others headings that may hold the field as well
     */
    public record Field(String name, String from, String key, List<Choice> choices, Basis basis, Choice otherwise, String sample, List<String> others) implements Serializable {
        /** Whether a person has to say something before the export can be read. */
        public boolean isOpen() {
            return basis == Basis.OPEN;
        }
    }

    /**
     * A value that may stand in the mapping.
     *
     * @param reads what the sample is with it, in the unit of the report form; {@code null} where it cannot be
     */
    public record Choice(String value, String reads) implements Serializable {
    }

    /**
     * How numbers may be written.
     *
     * @param key {@code decimal} or {@code grouping}
     * @param reads what the first number with a sign is with it
     * @param otherwise what it would be with the other meaning of the sign, by which too much or too little was written; {@code null} where there is none
     */
    public record Sign(String key, String value, String reads, String otherwise) implements Serializable {
        /** The same, settled against another. */
        public Sign not(Sign other) {
            return new Sign(key, value, reads, other.reads);
        }
    }

    /** Whether a person has to say something before the export can be read. */
    public boolean isOpen() {
        return numbers.size() > 1 || !lacking.isEmpty() || fields.stream().anyMatch(Field::isOpen);
    }
}

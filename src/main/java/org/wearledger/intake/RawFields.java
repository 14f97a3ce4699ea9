package org.wearledger.intake;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

/**
 * The values of one record: those of the report form in their places, any other by name. A whole number of JSON stays a number.
 * Cleared and filled again for each record of a file.
 */
final class RawFields {
    private final String[] texts = new String[ReportField.ALL.size()];
    private final long[] numbers = new long[ReportField.ALL.size()];
    private long present;
    private long numeric;
    private final Map<String, String> others = new LinkedHashMap<>();

    static RawFields of(Map<String, String> values) {
        RawFields fields = new RawFields();
        values.forEach(fields::put);
        return fields;
    }

    void clear() {
        present = 0;
        numeric = 0;
        others.clear();
    }

    /** False when it stood there already. */
    boolean put(ReportField field, String text) {
        boolean first = !has(field);
        present |= field.bit();
        numeric &= ~field.bit();
        texts[field.slot()] = text;
        return first;
    }

    /** False when it stood there already. */
    boolean put(ReportField field, long number) {
        boolean first = !has(field);
        present |= field.bit();
        numeric |= field.bit();
        numbers[field.slot()] = number;
        return first;
    }

    /** False when it stood there already. */
    boolean put(String name, String text) {
        ReportField field = ReportField.named(name);
        return field != null ? put(field, text) : others.put(name, text) == null;
    }

    /**
     * Those of the other that are not here.
     *
     * @param up put before all of its names, under which they stand here too; {@code null} for nothing of the kind
     */
    void putAbsent(RawFields other, String up) {
        for (ReportField field : ReportField.ALL) {
            if (other.has(field) && !has(field)) {
                put(field, other.get(field));
            }
        }
        other.others.forEach(others::putIfAbsent);
        if (up != null) {
            other.names().forEach(name -> others.put(up + name, other.get(name)));
        }
    }

    /** As they are now. */
    RawFields copy() {
        return of(byName());
    }

    boolean has(ReportField field) {
        return (present & field.bit()) != 0;
    }

    boolean isNumber(ReportField field) {
        return (numeric & field.bit()) != 0;
    }

    /** Of one that {@link #isNumber}. */
    long number(ReportField field) {
        return numbers[field.slot()];
    }

    /** As it stood in the file; {@code null} when it did not. */
    String get(ReportField field) {
        return !has(field) ? null : isNumber(field) ? Long.toString(numbers[field.slot()]) : texts[field.slot()];
    }

    String get(String name) {
        ReportField field = ReportField.named(name);
        return field != null ? get(field) : others.get(name);
    }

    /** A bit for each field of the report form that is there. */
    long present() {
        return present;
    }

    int size() {
        return Long.bitCount(present) + others.size();
    }

    boolean hasHealth() {
        return (present & ReportField.HEALTH_BITS) != 0;
    }

    /** Those that the report form does not know. */
    Map<String, String> others() {
        return others;
    }

    Set<String> names() {
        Set<String> names = new LinkedHashSet<>();
        ReportField.ALL.stream().filter(this::has).forEach(field -> names.add(field.dotted()));
        names.addAll(others.keySet());
        return names;
    }

    /** Every value by its name. */
    Map<String, String> byName() {
        Map<String, String> values = new LinkedHashMap<>();
        names().forEach(name -> values.put(name, get(name)));
        return values;
    }
}

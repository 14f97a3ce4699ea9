package org.wearledger.intake;

import java.time.Instant;
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
    /** When it was collected, where that is known without its text. */
    private Instant time;
    private final Map<String, String> others = new LinkedHashMap<>();
    /** Names that a mapping reads, each with its place, so that no map is filled for every record. */
    private final Map<String, Integer> mapped;
    private final String[] mappedTexts;
    private long mappedPresent;

    RawFields() {
        this(Map.of());
    }

    /** @param mapped names beside those of the report form, numbered from 0; {@link Long#SIZE} at most */
    RawFields(Map<String, Integer> mapped) {
        this.mapped = mapped;
        mappedTexts = new String[mapped.size()];
    }

    static RawFields of(Map<String, String> values) {
        RawFields fields = new RawFields();
        values.forEach(fields::put);
        return fields;
    }

    void clear() {
        present = 0;
        numeric = 0;
        mappedPresent = 0;
        time = null;
        others.clear();
    }

    /** False when it stood there already. */
    boolean put(ReportField field, String text) {
        boolean first = !has(field);
        present |= field.bit();
        numeric &= ~field.bit();
        time = field == ReportField.COLLECTED_AT ? null : time;
        texts[field.slot()] = text;
        return first;
    }

    /** False when it stood there already. */
    boolean put(ReportField field, long number) {
        boolean first = !has(field);
        present |= field.bit();
        numeric |= field.bit();
        time = field == ReportField.COLLECTED_AT ? null : time;
        numbers[field.slot()] = number;
        return first;
    }

    /** When it was collected. */
    void put(Instant at) {
        put(ReportField.COLLECTED_AT, 0);
        time = at;
    }

    /** {@code null} where only its text may tell. */
    Instant time() {
        return time;
    }

    /** False when it stood there already. */
    boolean put(String name, String text) {
        ReportField field = ReportField.named(name);
        int place = field == null ? mappedPlace(name) : -1;
        return field != null ? put(field, text) : place >= 0 ? putMapped(place, text) : others.put(name, text) == null;
    }

    /** Below zero for a name that no mapping reads. */
    int mappedPlace(String name) {
        return mapped.getOrDefault(name, -1);
    }

    /** False when it stood there already. */
    boolean putMapped(int place, String text) {
        boolean first = (mappedPresent & 1L << place) == 0;
        mappedPresent |= 1L << place;
        mappedTexts[place] = text;
        return first;
    }

    /** By the place of a mapping's name, or by the name where this knows no places; {@code null} when it is not there. */
    String mapped(int place, String name) {
        return mappedTexts.length == 0 ? others.get(name) : (mappedPresent & 1L << place) == 0 ? null : mappedTexts[place];
    }

    /** Whether every name that a mapping reads is there, beside those of the report form. */
    boolean hasAllMapped() {
        return !mapped.isEmpty() && Long.bitCount(mappedPresent) == mapped.size();
    }

    /** A bit for each place of a mapping's name that is there. */
    long mappedPresent() {
        return mappedPresent;
    }

    /**
     * Those of the other that are not here.
     *
     * @param up put before all of its names, under which they stand here too; {@code null} for nothing of the kind
     */
    void putAbsent(RawFields other, String up) {
        if (other.size() == 0) {
            return;
        }
        for (ReportField field : ReportField.ALL) {
            if (other.has(field) && !has(field)) {
                put(field, other.get(field));
            }
        }
        other.others.forEach((name, text) -> {
            if (get(name) == null) {
                put(name, text);
            }
        });
        if (up != null) {
            other.names().forEach(name -> put(up + name, other.get(name)));
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
        if (!has(field)) {
            return null;
        }
        if (time != null && field == ReportField.COLLECTED_AT) {
            return time.toString();
        }
        return isNumber(field) ? Long.toString(numbers[field.slot()]) : texts[field.slot()];
    }

    String get(String name) {
        ReportField field = ReportField.named(name);
        if (field != null) {
            return get(field);
        }
        int place = mappedPlace(name);
        return place >= 0 ? mapped(place, name) : others.get(name);
    }

    /** A bit for each field of the report form that is there. */
    long present() {
        return present;
    }

    int size() {
        return Long.bitCount(present) + Long.bitCount(mappedPresent) + others.size();
    }

    boolean hasHealth() {
        return (present & ReportField.HEALTH_BITS) != 0;
    }

    /** Those that neither the report form nor a mapping knows. */
    Map<String, String> others() {
        return others;
    }

    Set<String> names() {
        Set<String> names = new LinkedHashSet<>();
        ReportField.ALL.stream().filter(this::has).forEach(field -> names.add(field.dotted()));
        mapped.forEach((name, place) -> {
            if ((mappedPresent & 1L << place) != 0) {
                names.add(name);
            }
        });
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

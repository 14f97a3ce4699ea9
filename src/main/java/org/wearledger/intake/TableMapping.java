package org.wearledger.intake;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.MappedField;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * How a side table of one's own calls its columns, and writes what stands in them.
 *
 * @param columns by the names of {@code schemas/side-tables.md}
 * @param words for reasons and actions, folded, with those of this program
 */
record TableMapping(LinkedHashMap<String, MappedSource> columns, HashMap<String, String> words) implements Serializable {
    private static final Set<String> DATES = Set.of("inServiceOn", "warrantyEndsOn", "userSince", "driveReplacedOn", "refreshOn", "supportEndsOn", "repairDate");
    private static final Set<String> NUMBERS = Set.of("memoryBytes", "memoryGibibytes", "cost");

    static TableMapping none() {
        return new TableMapping(new LinkedHashMap<>(), new HashMap<>());
    }

    /** The field of the report form that is written as the column is, with the same units and formats. */
    static String asField(String column) {
        return DATES.contains(column) ? ReportField.IN_SERVICE_ON.dotted() : column.equals("memoryBytes") ? ReportField.MEMORY_BYTES.dotted() : ReportField.SITE.dotted();
    }

    boolean isNone() {
        return columns.isEmpty();
    }

    String word(String own) {
        return words.getOrDefault(Headings.folded(own), own);
    }

    /** The table's headings, those that are mapped under the names that they stand for. */
    List<String> named(List<String> headings) {
        List<String> named = new ArrayList<>(headings);
        columns.values().forEach(source -> named.remove(source.from()));
        columns.forEach((column, source) -> {
            if (headings.contains(source.from())) {
                named.add(column);
            }
        });
        return named;
    }

    /** The cells under those names, dates and numbers as this program writes them where they can be read. */
    Map<String, String> named(Map<String, String> cells) {
        Map<String, String> named = new LinkedHashMap<>(cells);
        columns.values().forEach(source -> named.remove(source.from()));
        columns.forEach((column, source) -> {
            if (cells.containsKey(source.from())) {
                named.put(column, read(column, source, cells.get(source.from())));
            }
        });
        return named;
    }

    private static String read(String column, MappedSource source, String cell) {
        if (!NUMBERS.contains(column) || source.unit() != null) {
            String read = source.read(asField(column), cell).text();
            return read == null ? cell : read;
        }
        String plain = source.numbers().plain(cell);
        // Three decimals could be thousands, were it not for the mapping's sign: a fourth settles it.
        return plain == null ? cell : source.numbers() != NumberForm.PLAIN && plain.matches("\\d+\\.\\d{3}") ? plain + "0" : plain;
    }

    /** With its heading where it has another. */
    MappedField field(String column) {
        MappedSource source = columns.get(column);
        return source == null ? MappedField.of(column) : new MappedField(column, source.from(), source.unit());
    }

    /** The pattern of a date's column; {@code null} for this program's own. */
    String format(String column) {
        MappedSource source = columns.get(column);
        return source == null || source.format() == null ? null : source.format().pattern();
    }

    /** Mapped columns that the table does not have. */
    List<Problem> absent(String file, List<String> headings) {
        return columns.entrySet().stream().filter(column -> !headings.contains(column.getValue().from()))
            .map(column -> Problem.of(Finding.MAPPED_FIELD_ABSENT, SourcePlace.wholeFile(file), "").about(List.of(field(column.getKey())))
                .with(Fact.NEAR, Headings.nearest(column.getValue().from(), headings)).with(Fact.MET, Headings.listed(headings))).toList();
    }
}

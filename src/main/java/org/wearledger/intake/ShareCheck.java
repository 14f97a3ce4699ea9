package org.wearledger.intake;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;

/**
 * Whether a column holds percent, by its own values: 0.4 may be a share, but not where 17 stands as well. A file of one record is judged
 * with the others of its folder.
 */
public final class ShareCheck {
    private static final List<HealthField> PERCENTS = List.of(HealthField.PERCENTAGE_USED, HealthField.AVAILABLE_SPARE, HealthField.AVAILABLE_SPARE_THRESHOLD);
    private static final long ALL = 100;

    private final FieldMapping mapping;
    private final Set<String> inPercent = new TreeSet<>();

    /** Of a file under this mapping. */
    ShareCheck(FieldMapping mapping) {
        this.mapping = mapping;
    }

    void add(Health health) {
        for (HealthField field : PERCENTS) {
            if (health.has(field) && inPercent.size() < PERCENTS.size() && !inPercent.contains(field.dotted()) && isPercent(field, health.value(field))) {
                inPercent.add(field.dotted());
            }
        }
    }

    /** What was converted is rounded down: above 1 as it stands is 2 and more, or 98 used and less of what remains. */
    private boolean isPercent(HealthField field, long value) {
        boolean remaining = mapping.unit(field.dotted(), "").endsWith("Remaining");
        return remaining ? value < ALL - 1 : value > 1;
    }

    Set<String> inPercent() {
        return inPercent;
    }

    /** The problems but for shares that may be percent of columns that are. */
    public static List<Problem> withoutPercent(List<Problem> problems, Collection<FileSummary> files, Pseudonyms names) {
        Map<String, Set<String>> inPercent = new HashMap<>();
        files.forEach(file -> inPercent.computeIfAbsent(group(file), group -> new TreeSet<>()).addAll(file.inPercent()));
        Map<String, Set<String>> byFile = new HashMap<>();
        files.forEach(file -> byFile.put(names.file(file.file()), inPercent.get(group(file))));
        return problems.stream().filter(problem -> problem.finding() != Finding.PERHAPS_SHARE
            || problem.fields().stream().noneMatch(field -> byFile.getOrDefault(problem.source().file(), Set.of()).contains(field.name()))).toList();
    }

    private static String group(FileSummary file) {
        return file.records() > 1 ? file.file() : file.file().substring(0, file.file().lastIndexOf('/') + 1);
    }
}

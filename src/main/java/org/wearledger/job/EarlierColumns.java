package org.wearledger.job;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.wearledger.history.Stint;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

/**
 * A mapped field that the newest reports have and earlier ones of the same drives lack: the mapping was mended for a new heading, and no longer
 * fits what came before.
 */
final class EarlierColumns {
    private static final int FEWEST_DRIVES = 2;

    private EarlierColumns() {
    }

    /**
     * Empty for few drives: in files of one report each, some may have come to report what they did not, as after an update of their firmware.
     *
     * @param lacking files that lack it, with the problem that says so
     * @param mapped files in which the mapping reads something
     * @param late of the active drives and the field
     * @param latest of the active drives
     */
    static List<Problem> problem(Map<String, Problem> lacking, Set<String> mapped, Collection<LateMeasure> late, Collection<Stint> latest) {
        Map<String, Long> drivesByFile = new TreeMap<>();
        List<Instant> lastOfDrives = new ArrayList<>();
        for (LateMeasure drive : late) {
            Map<String, Instant> lastIn = new TreeMap<>(drive.lastIn());
            lastIn.keySet().removeIf(file -> !lacking.containsKey(file) || !mapped.contains(file));
            lastIn.keySet().forEach(file -> drivesByFile.merge(file, 1L, Long::sum));
            lastIn.values().stream().max(Comparator.naturalOrder()).ifPresent(lastOfDrives::add);
        }
        long seenBefore = latest.stream().filter(stint -> stint.first().isBefore(stint.last())).count();
        boolean ofAnExport = drivesByFile.values().stream().anyMatch(drives -> drives >= FEWEST_DRIVES);
        if (lastOfDrives.size() < FEWEST_DRIVES || !ofAnExport && 2L * lastOfDrives.size() <= seenBefore) {
            return List.of();
        }
        String file = drivesByFile.entrySet().stream()
            .max(Map.Entry.<String, Long>comparingByValue().thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder()))).orElseThrow().getKey();
        LocalDate last = LocalDate.ofInstant(lastOfDrives.stream().max(Comparator.naturalOrder()).orElseThrow(), ZoneOffset.UTC);
        // Beside those of the drives counted, earlier files of drives that are gone, or whose latest report was set aside.
        Set<String> files = new TreeSet<>(lacking.keySet());
        files.retainAll(mapped);
        MissingColumns.recent(latest).forEach(stint -> files.remove(stint.lastSource().file()));
        files.addAll(drivesByFile.keySet());
        Finding finding = files.size() == 1 ? Finding.COLUMN_MISSING_ONCE : Finding.COLUMN_MISSING_BEFORE;
        return List.of(MissingColumns.missing(finding, file, lacking.get(file)).with(Fact.COUNT, files.size()).with(Fact.OF, mapped.size()).with(Fact.AT, last));
    }
}

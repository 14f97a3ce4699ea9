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
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * A mapped field that the newest reports have and earlier ones of the same drives lack: the mapping was mended for a new heading, and no longer
 * fits what came before.
 */
final class EarlierColumns {
    private static final int FEWEST_DRIVES = 2;
    /** What is not known by that. */
    private static final Map<String, String> UNKNOWN = Map.of("health.dataUnitsWritten", "what was written before is not known, so rates begin late",
        "health.percentageUsed", "what was used up before is not known", "health.mediaAndDataIntegrityErrors", "what errors there were before is not known, so a rise may not be seen");

    private EarlierColumns() {
    }

    /**
     * Empty for few drives: in files of one report each, some may have come to report what they did not, as after an update of their firmware.
     *
     * @param what the field in words
     * @param lacking files that lack it, with the words on their heading
     * @param mapped files in which the mapping reads something
     * @param late of the active drives and this field
     * @param latest of the active drives
     */
    static List<Problem> problem(String field, String what, Map<String, String> lacking, Set<String> mapped, Collection<LateMeasure> late, Collection<Stint> latest) {
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
        String file = drivesByFile.entrySet().stream().max(Map.Entry.<String, Long>comparingByValue().thenComparing(Map.Entry.comparingByKey(Comparator.reverseOrder())))
            .orElseThrow().getKey();
        LocalDate last = LocalDate.ofInstant(lastOfDrives.stream().max(Comparator.naturalOrder()).orElseThrow(), ZoneOffset.UTC);
        // Beside those of the drives counted, earlier files of drives that are gone, or whose latest report was set aside.
        Set<String> files = new TreeSet<>(lacking.keySet());
        files.retainAll(mapped);
        MissingColumns.recent(latest).forEach(stint -> files.remove(stint.lastSource().file()));
        files.addAll(drivesByFile.keySet());
        boolean one = files.size() == 1;
        return List.of(new Problem(ProblemKind.COLUMN_MISSING, SourcePlace.wholeFile(file), "", files.size() + " of " + mapped.size() + " files, " + (one ? "of " : "the latest of ") + last
            + ", " + (one ? "has" : "have") + " no " + what + ": nothing stands there for " + field + lacking.get(file), "what standings are decided by, in earlier reports as in the newest",
            UNKNOWN.get(field) + "; " + Problem.packApart("those files")));
    }
}

package org.wearledger.job;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.history.Placements;
import org.wearledger.history.Stint;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.SourcePlace;

/**
 * Mapped fields that decide standings and that the newest reports lack. A drive that does not report one of them is no news, and neither is
 * its file of one report; a field that none of the newest reports has, or that an export of several drives lacks, is a mapping that does not fit.
 * Where it fits those, earlier ones that it does not fit are found by {@link EarlierColumns}.
 */
final class MissingColumns {
    /** Reports are the newest for so long before the very last one. */
    private static final Duration NEWEST_WITHIN = Duration.ofDays(31);
    private static final int FEWEST_OF_AN_EXPORT = 2;
    private static final Set<String> DECISIVE = Stream.concat(HealthField.ALL.stream().filter(HealthField::isDecisive).map(HealthField::dotted), Stream.of("drive.capacityBytes"))
        .collect(Collectors.toSet());
    private static final Comparator<Stint> BY_LAST = Comparator.comparing(Stint::last).thenComparing(Stint::lastSource);

    private MissingColumns() {
    }

    /**
     * One problem a field, of the file with most of the drives that lack it.
     *
     * @param mapped files in which the mapping reads something
     */
    static List<Problem> problems(Collection<Problem> problems, JoinFindings joined, Placements placements, Set<String> mapped) {
        Map<String, Map<String, Problem>> filesByField = new TreeMap<>();
        problems.stream().filter(problem -> problem.kind() == ProblemKind.MAPPED_FIELD_ABSENT).forEach(absent -> absent.fields().stream().filter(field -> DECISIVE.contains(field.name()))
            .forEach(field -> filesByField.computeIfAbsent(field.name(), name -> new HashMap<>()).put(absent.source().file(), absent)));
        List<Problem> missing = new ArrayList<>();
        if (!filesByField.isEmpty()) {
            Map<DriveId, Stint> latest = joined.stints.stream().filter(stint -> placements.isActive(stint.drive(), stint.machineId()))
                .collect(Collectors.toMap(Stint::drive, Function.identity(), (one, other) -> BY_LAST.compare(one, other) >= 0 ? one : other));
            filesByField.forEach((field, files) -> {
                List<Problem> newest = problem(files, latest.values());
                List<LateMeasure> late = joined.late.stream().filter(drive -> drive.field().equals(field) && placements.isActive(drive.drive(), drive.machineId())).toList();
                missing.addAll(!newest.isEmpty() ? newest : EarlierColumns.problem(files, mapped, late, latest.values()));
            });
        }
        return missing;
    }

    private static List<Problem> problem(Map<String, Problem> files, Collection<Stint> latest) {
        List<Stint> recent = recent(latest);
        Map<String, Long> lacking = recent.stream().map(stint -> stint.lastSource().file()).filter(files::containsKey)
            .collect(Collectors.groupingBy(Function.identity(), TreeMap::new, Collectors.counting()));
        long drives = lacking.values().stream().mapToLong(Long::longValue).sum();
        if (drives == 0 || drives < recent.size() && lacking.values().stream().noneMatch(count -> count >= FEWEST_OF_AN_EXPORT)) {
            return List.of();
        }
        String file = lacking.entrySet().stream().max(Map.Entry.<String, Long>comparingByValue().thenComparing(Map.Entry.comparingByKey())).orElseThrow().getKey();
        long all = latest.stream().filter(stint -> files.containsKey(stint.lastSource().file())).count();
        return List.of(missing(Finding.COLUMN_MISSING_NOW, file, files.get(file)).with(Fact.COUNT, all).with(Fact.OF, latest.size()));
    }

    /** The same field, and what may have been meant by its heading. */
    static Problem missing(Finding finding, String file, Problem absent) {
        return Problem.of(finding, SourcePlace.wholeFile(file), "").about(absent.fields()).with(Fact.TEXT, absent.facts().get(Fact.TEXT)).with(Fact.NEAR, absent.facts().get(Fact.NEAR))
            .with(Fact.NOT_USED, absent.facts().get(Fact.NOT_USED));
    }

    /** Those of the newest reports. */
    static List<Stint> recent(Collection<Stint> latest) {
        Instant newest = latest.stream().map(Stint::last).max(Comparator.naturalOrder()).orElse(Instant.MIN);
        return latest.stream().filter(stint -> !stint.last().plus(NEWEST_WITHIN).isBefore(newest)).toList();
    }
}

package org.wearledger.history;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.wearledger.model.Attachment;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

/**
 * What shows that a drive was taken out of its machine, before its silence does.
 *
 * <p>Either somebody says so, or a new drive does: one that first reports after the old one's last report, and that has run no longer
 * than the time since, give or take a day on the bench. That holds for machines that report one drive at a time. Where two were ever
 * reported together there is room for two, and only silence tells.
 */
final class Replacements {
    /** Reports of one collection lie closer together; an exchange takes longer. */
    static final Duration ONE_COLLECTION = Duration.ofHours(1);
    /** For copying and testing. */
    static final long BENCH_HOURS = 24;

    private static final Comparator<Stint> BY_FIRST =
        Comparator.comparing(Stint::first).thenComparing(Stint::drive).thenComparing(Stint::last);

    private final Map<String, List<Stint>> byMachine;
    private final Map<String, LocalDate> replacedOn;
    private final Set<String> severalDrives = new HashSet<>();

    /** @param replacedOn by folded machine id, where it is known */
    Replacements(Collection<Stint> stints, Map<String, LocalDate> replacedOn) {
        this.replacedOn = replacedOn;
        byMachine = stints.stream().collect(Collectors.groupingBy(Stint::machineId, HashMap::new, Collectors.toList()));
        byMachine.values().removeIf(own -> own.size() == 1 && !replacedOn.containsKey(own.get(0).machineId()));
        byMachine.forEach((machine, own) -> {
            own.sort(BY_FIRST);
            if (haveMet(own)) {
                severalDrives.add(machine);
            }
        });
    }

    /** @param own in the order of their first readings */
    private static boolean haveMet(List<Stint> own) {
        Stint longest = own.get(0);
        for (Stint next : own.subList(1, own.size())) {
            boolean met = !next.first().isAfter(longest.last().plus(ONE_COLLECTION));
            if (met && !next.drive().equals(longest.drive())) {
                return true;
            }
            longest = next.last().isAfter(longest.last()) ? next : longest;
        }
        return false;
    }

    /** {@code null} when nothing shows that the drive of this stint is no longer in the machine. */
    Problem evidence(Stint latest) {
        List<Stint> own = byMachine.getOrDefault(latest.machineId(), List.of());
        LocalDate said = replacedOn.get(latest.machineId());
        if (said != null && isOutSince(said, latest, own)) {
            return problem(Finding.REPLACED_BY_INVENTORY, latest).with(Fact.AT, said);
        }
        return severalDrives.contains(latest.machineId()) ? null : own.stream().filter(other -> isNewDriveAfter(latest, other)).findFirst()
            .map(other -> problem(Finding.NEWER_DRIVE, latest).with(Fact.AT, other.first()).with(Fact.DRIVE, other.drive()).with(Fact.HOURS, other.firstHours())).orElse(null);
    }

    private static Problem problem(Finding finding, Stint latest) {
        return Problem.of(finding, latest.lastSource(), latest.drive().toString());
    }

    private boolean isOutSince(LocalDate said, Stint latest, List<Stint> own) {
        Instant day = said.atStartOfDay(ZoneOffset.UTC).toInstant();
        if (latest.last().isBefore(day)) {
            // Of several drives it is not known which one was meant, until the others report.
            return !severalDrives.contains(latest.machineId()) || own.stream().anyMatch(other -> !other.last().isBefore(day));
        }
        return latest.last().isBefore(day.plus(Duration.ofDays(1)))
            && own.stream().anyMatch(other -> !other.drive().equals(latest.drive()) && !other.first().isBefore(latest.last())
                && (other.first().isAfter(latest.last()) || hasRunLess(other, latest)));
    }

    private static boolean hasRunLess(Stint other, Stint old) {
        return other.firstHours() != null && old.lastHours() != null && other.firstHours() < old.lastHours();
    }

    private static boolean isNewDriveAfter(Stint old, Stint other) {
        // A soldered drive leaves with its board, so that a socketed one beside it was added.
        boolean canFollow = old.attachment() != Attachment.SOLDERED || other.attachment() == Attachment.SOLDERED;
        return canFollow && !other.drive().equals(old.drive()) && other.first().isAfter(old.last().plus(ONE_COLLECTION)) && hasRunLess(other, old)
            && other.firstHours() <= Duration.between(old.last(), other.first()).toHours() + BENCH_HOURS;
    }
}

package org.wearledger.history;

import java.io.Serializable;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;

/**
 * Which drive is active in which machine, over the whole fleet. Keeps only the answers, one entry a drive, because it
 * is broadcast.
 */
public final class Placements implements Serializable {
    /** A drive whose machine reported other drives for longer than this without it is no longer in it. */
    public static final Duration ACTIVE_WITHIN = Duration.ofDays(14);

    private static final Comparator<Stint> BY_LAST = Comparator.comparing(Stint::last)
        .thenComparing(Comparator.comparing(Stint::machineId).reversed())
        .thenComparing(Comparator.comparing(Stint::drive).reversed());
    private static final Comparator<Stint> BY_FIRST =
        Comparator.comparing(Stint::first).thenComparing(Stint::machineId).thenComparing(Stint::drive);

    private final HashMap<DriveId, String> activeMachines = new HashMap<>();
    private final HashSet<DriveId> firstDrives = new HashSet<>();
    private final HashMap<String, String> lastDriveNowIn = new HashMap<>();
    private final ArrayList<Problem> problems = new ArrayList<>();

    private Placements() {
    }

    /** The drive's consecutive runs per machine, in time order. */
    static List<Stint> stintsOf(DriveHistory history) {
        List<Stint> stints = new ArrayList<>();
        for (HistoryPoint point : history.points()) {
            Reading reading = point.reading();
            int end = stints.size() - 1;
            if (end >= 0 && isIn(stints.get(end), reading)) {
                stints.set(end, stints.get(end).upTo(reading));
            } else {
                stints.add(Stint.of(history.id(), reading));
            }
        }
        return stints;
    }

    /**
     * The same, where readings that were set aside also show the drive in the machine of its first or last run, before or after it.
     * They show no move: for that a reading must be believed.
     *
     * @param seen in time order
     */
    static List<Stint> stintsOf(DriveHistory history, List<Reading> seen) {
        List<Stint> stints = stintsOf(history);
        for (Reading reading : seen) {
            int end = stints.size() - 1;
            if (reading.collectedAt().isAfter(stints.get(end).last()) && isIn(stints.get(end), reading)) {
                stints.set(end, stints.get(end).seenAt(reading.collectedAt(), reading.source()));
            }
            if (reading.collectedAt().isBefore(stints.get(0).first()) && isIn(stints.get(0), reading)) {
                stints.set(0, stints.get(0).seenAt(reading.collectedAt(), reading.source()));
            }
        }
        return stints;
    }

    private static boolean isIn(Stint stint, Reading reading) {
        return stint.machineId().equals(DriveId.fold(reading.machine().id()));
    }

    /**
     * Where the drives of these stints sit and sat; their order does not matter.
     *
     * @param replacedOn by folded machine id, the day on which its drive was replaced, of those of which it is known
     * @param ended as {@link RepairedDrives#ended}
     */
    public static Placements of(Collection<Stint> stints, Map<String, LocalDate> replacedOn, Map<DriveId, Repair> ended) {
        Replacements replacements = new Replacements(stints, replacedOn);
        Map<DriveId, Stint> firstOfDrive = new HashMap<>();
        Map<DriveId, Stint> latestOfDrive = new HashMap<>();
        Map<String, Stint> firstInMachine = new HashMap<>();
        Map<String, Stint> latestInMachine = new HashMap<>();
        for (Stint stint : stints) {
            firstOfDrive.merge(stint.drive(), stint, Placements::earlier);
            latestOfDrive.merge(stint.drive(), stint, Placements::later);
            firstInMachine.merge(stint.machineId(), stint, Placements::earlier);
            latestInMachine.merge(stint.machineId(), stint, Placements::later);
        }
        Placements placements = new Placements();
        firstOfDrive.forEach((drive, stint) -> {
            if (!firstInMachine.get(stint.machineId()).first().isBefore(stint.first())) {
                placements.firstDrives.add(drive);
            }
        });
        latestOfDrive.forEach((drive, stint) -> placements.place(stint, latestInMachine.get(stint.machineId()), replacements, ended.get(drive)));
        latestInMachine.forEach((machine, stint) -> {
            String now = placements.activeMachines.get(stint.drive());
            if (now != null && !now.equals(machine)) {
                placements.lastDriveNowIn.put(machine, now);
            }
        });
        placements.problems.addAll(Lookalikes.problems(latestOfDrive.values()));
        placements.problems.sort(null);
        return placements;
    }

    /** @param end the repair that ended the drive's use, {@code null} when none did */
    private void place(Stint latest, Stint latestInMachine, Replacements replacements, Repair end) {
        boolean silent = latest.last().plus(ACTIVE_WITHIN).isBefore(latestInMachine.last());
        Problem replaced;
        if (end != null) {
            replaced = problem(Finding.ENDED_BY_REPAIR, latest).with(Fact.AT, end.date()).with(Fact.RULE, end.reason().label());
        } else if (silent) {
            replaced = problem(Finding.SILENT, latest).with(Fact.AT, latestInMachine.last()).with(Fact.DRIVE, latestInMachine.drive())
                .with(Fact.MOST, ACTIVE_WITHIN.toDays());
        } else {
            replaced = replacements.evidence(latest);
        }
        if (replaced == null) {
            activeMachines.put(latest.drive(), latest.machineId());
        } else {
            problems.add(replaced.with(Fact.MACHINE, latest.machineId()).with(Fact.SINCE, latest.last()));
        }
    }

    private static Problem problem(Finding finding, Stint latest) {
        return Problem.of(finding, latest.lastSource(), latest.drive().toString());
    }

    /**
     * Whether the drive's latest stint is in the machine, its last reading is within 14 days of the machine's latest reading of any
     * drive, and nothing shows that it was {@linkplain Replacements replaced} since.
     *
     * @param machineId folded
     */
    public boolean isActive(DriveId drive, String machineId) {
        return machineId.equals(activeMachines.get(drive));
    }

    /** Of each machine whose drive, the one it reported last, is active in another now: that other; both folded. A renamed machine is one. */
    public Map<String, String> lastDriveNowIn() {
        return Map.copyOf(lastDriveNowIn);
    }

    /**
     * Whether no other drive was seen in the machine of the drive's first stint before the drive's first reading; then
     * the machine's in-service date may stand for the drive's. False for an unknown drive.
     */
    public boolean firstDriveOf(DriveId drive) {
        return firstDrives.contains(drive);
    }

    /** One {@link ProblemKind#DRIVE_REPLACED} for each drive whose machine now reports only others, and notes on drives that look alike. */
    public List<Problem> problems() {
        return List.copyOf(problems);
    }

    private static Stint earlier(Stint one, Stint other) {
        return BY_FIRST.compare(one, other) <= 0 ? one : other;
    }

    private static Stint later(Stint one, Stint other) {
        return BY_LAST.compare(one, other) >= 0 ? one : other;
    }
}

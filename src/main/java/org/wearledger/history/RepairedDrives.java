package org.wearledger.history;

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
import java.util.TreeMap;
import java.util.function.BinaryOperator;
import java.util.stream.Collectors;
import org.wearledger.model.DriveId;
import org.wearledger.model.Repair;
import org.wearledger.model.SeenDrive;

/** Which drive each repair was of, and which drives and machines are in use no longer since one. */
public final class RepairedDrives {
    private static final Comparator<Stint> BY_LAST = Comparator.comparing(Stint::last).thenComparing(Stint::drive);

    private final Map<Repair, DriveId> drives = new HashMap<>();
    private final Map<DriveId, Repair> ended = new HashMap<>();
    private final Set<String> machinesLeft = new HashSet<>();

    /**
     * The drive is the one with the serial of the repair. Without one it is the drive that the machine reported last up to the day; not a drive that
     * reports later although it came in dead or worn, nor one that is new on that day.
     */
    public static RepairedDrives of(Collection<Repair> repairs, Collection<Stint> stints) {
        Map<String, List<Stint>> byMachine = stints.stream().collect(Collectors.groupingBy(Stint::machineId));
        Map<String, List<Stint>> bySerial = stints.stream().collect(Collectors.groupingBy(stint -> stint.drive().serial()));
        Map<DriveId, Stint> latest = new HashMap<>();
        stints.forEach(stint -> latest.merge(stint.drive(), stint, (one, other) -> BY_LAST.compare(one, other) >= 0 ? one : other));
        RepairedDrives repaired = new RepairedDrives();
        for (Repair repair : repairs) {
            List<Stint> inMachine = byMachine.getOrDefault(DriveId.fold(repair.machineId()), List.of());
            List<Stint> named = repair.driveSerial() == null ? null : bySerial.getOrDefault(DriveId.fold(repair.driveSerial()), List.of());
            (named == null ? inMachine : named).stream().filter(stint -> named != null || mayBeOf(repair, stint, latest.get(stint.drive())))
                .max(Comparator.comparing((Stint stint) -> inMachine.contains(stint)).thenComparing(BY_LAST)).ifPresent(stint -> {
                    repaired.drives.put(repair, stint.drive());
                    if (repair.reason().endsDrive() && !dayOf(latest.get(stint.drive()).last()).isAfter(repair.date())) {
                        repaired.ended.put(stint.drive(), repair);
                    }
                });
            if (repair.reason().endsMachine() && inMachine.stream().noneMatch(stint -> dayOf(stint.last()).isAfter(repair.date()))) {
                repaired.machinesLeft.add(DriveId.fold(repair.machineId()));
            }
        }
        return repaired;
    }

    /** When each drive was seen, by id. */
    public static List<SeenDrive> seen(Collection<Stint> stints) {
        Map<DriveId, List<Stint>> byDrive = stints.stream().collect(Collectors.groupingBy(Stint::drive, TreeMap::new, Collectors.toList()));
        return byDrive.values().stream().map(own -> {
            Stint first = own.stream().min(Comparator.comparing(Stint::first).thenComparing(Stint::machineId)).orElseThrow();
            Stint last = own.stream().max(BY_LAST.thenComparing(Stint::machineId)).orElseThrow();
            return new SeenDrive(first.drive(), dayOf(first.first()), dayOf(last.last()), first.firstHours(), last.lastHours());
        }).toList();
    }

    private static boolean mayBeOf(Repair repair, Stint stint, Stint latest) {
        LocalDate first = dayOf(stint.first());
        boolean isNew = first.equals(repair.date()) && stint.firstHours() != null && stint.firstHours() < Replacements.BENCH_HOURS;
        boolean livesOn = repair.reason().endsDrive() && dayOf(latest.last()).isAfter(repair.date());
        return !first.isAfter(repair.date()) && !isNew && !livesOn;
    }

    private static LocalDate dayOf(Instant moment) {
        return LocalDate.ofInstant(moment, ZoneOffset.UTC);
    }

    /** Of the repairs those of which a report tells the drive. */
    public Map<Repair, DriveId> drives() {
        return Map.copyOf(drives);
    }

    /** Drives that came in dead or worn, or left with their machine, and have not reported since. */
    public Map<DriveId, Repair> ended() {
        return Map.copyOf(ended);
    }

    /** The same repairs by the folded id of their machine; of several the last. */
    public Map<String, Repair> endedIn() {
        return ended.values().stream().collect(Collectors.toMap(repair -> DriveId.fold(repair.machineId()), repair -> repair,
            BinaryOperator.maxBy(Comparator.comparing(Repair::date).thenComparing(Repair::ticket))));
    }

    /** Machines, by folded id, that were withdrawn or sold and have not reported since. */
    public Set<String> machinesLeft() {
        return Set.copyOf(machinesLeft);
    }
}

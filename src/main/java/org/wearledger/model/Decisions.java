package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What people decided, and what of it still stands.
 *
 * @param all up to the as-of date, in the order of their days; of one day in that of the table
 * @param open by machine id, those that still stand, the latest last
 * @param unknown machines that no report and no inventory has, by name
 * @param later how many are dated after the as-of date, and left out
 */
public record Decisions(List<Decision> all, Map<String, List<Decision>> open, List<String> unknown, int later) implements Serializable {
    private static final long HOURS_PER_DAY = 24;

    public Decisions {
        all = List.copyOf(all);
        open = Map.copyOf(open);
        unknown = List.copyOf(unknown);
    }

    /** None at all. */
    public static Decisions none() {
        return new Decisions(List.of(), Map.of(), List.of(), 0);
    }

    /**
     * Those of later days are left out. One stands no more after its {@linkplain Decision#until end}, or when a new drive came into the machine after it.
     * Of one machine and item the latest stands.
     */
    public static Decisions of(Collection<Decision> decisions, Collection<MachineAssessment> machines, LocalDate asOf) {
        List<Decision> all = decisions.stream().filter(decision -> !decision.date().isAfter(asOf)).sorted(Comparator.comparing(Decision::date)).toList();
        Map<String, MachineAssessment> byId = new HashMap<>();
        machines.forEach(machine -> byId.put(DriveId.fold(machine.machine().id()), machine));
        Map<String, Map<String, Decision>> latest = new HashMap<>();
        for (Decision decision : all) {
            MachineAssessment machine = byId.get(DriveId.fold(decision.machineId()));
            if (machine != null && !hasNewDrive(machine, decision.date())) {
                Map<String, Decision> ofMachine = latest.computeIfAbsent(machine.machine().id(), id -> new HashMap<>());
                if (decision.item() == null) {
                    ofMachine.clear();
                }
                ofMachine.put(decision.item() == null ? "" : DriveId.fold(decision.item()), decision);
            }
        }
        Map<String, List<Decision>> open = new HashMap<>();
        latest.forEach((id, ofMachine) -> {
            List<Decision> stand = ofMachine.values().stream().filter(decision -> !decision.state().hasEnd() || !decision.until().isBefore(asOf))
                .sorted(Comparator.comparingInt(all::indexOf)).toList();
            if (!stand.isEmpty()) {
                open.put(id, stand);
            }
        });
        return new Decisions(all, open, all.stream().map(Decision::machineId).filter(id -> !byId.containsKey(DriveId.fold(id))).distinct().sorted().toList(),
            decisions.size() - all.size());
    }

    /** The latest that stands for this machine, of whichever item; {@code null} for none. */
    public Decision latest(String machineId) {
        return open.getOrDefault(machineId, List.of()).stream().reduce((earlier, later) -> later).orElse(null);
    }

    private static boolean hasNewDrive(MachineAssessment machine, LocalDate date) {
        return machine.driveReplacedOn() != null && machine.driveReplacedOn().isAfter(date)
            || machine.activeDrives().stream().anyMatch(drive -> day(drive.seen().firstCollectedAt()).isAfter(date) && !ranBefore(drive.latest(), date));
    }

    /** A drive with more hours than have passed since was there, and merely not swept. */
    private static boolean ranBefore(Reading latest, LocalDate date) {
        Long hours = latest.health().powerOnHours();
        return hours != null && hours > HOURS_PER_DAY * ChronoUnit.DAYS.between(date, day(latest.collectedAt()));
    }

    private static LocalDate day(Instant moment) {
        return LocalDate.ofInstant(moment, ZoneOffset.UTC);
    }

    /** What stands for this machine, and this item of it where it has one; {@code null} for nothing. */
    public Decision of(String machineId, String item) {
        return open.getOrDefault(machineId, List.of()).stream()
            .filter(decision -> decision.item() == null || item != null && DriveId.fold(decision.item()).equals(DriveId.fold(item)))
            .reduce((earlier, later) -> later).orElse(null);
    }
}

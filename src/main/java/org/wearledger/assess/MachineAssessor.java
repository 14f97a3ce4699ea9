package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.BinaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Repair;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/** Gives each machine, seen or only inventoried, the worst standing of its active drives. */
public final class MachineAssessor {
    private static final Comparator<DriveAssessment> WORST_FIRST =
        Comparator.comparing(DriveAssessment::standing).thenComparing(DriveAssessment::id);

    private MachineAssessor() {
    }

    /**
     * A machine without an active drive has no verdict, and its reason says why.
     *
     * @param machines every machine seen, as last reported, by folded id
     * @param lastSeen latest reading of any drive, by folded machine id
     * @param setAside by folded machine id, the rule that keeps the machine's latest report out, where one does
     * @param refused by folded machine id, how many records that name it were refused, and by which rules
     * @param lastDriveNowIn by folded machine id, the machine that now holds the drive which this one reported last
     * @param inventory empty when none was given; then every machine counts as inventoried
     * @return by folded machine id
     */
    public static List<MachineAssessment> assess(Collection<DriveAssessment> activeDrives,
                                                 Map<String, Machine> machines, Map<String, Instant> lastSeen,
                                                 Map<String, ProblemKind> setAside, Map<String, String> refused, Map<String, String> lastDriveNowIn,
                                                 Collection<InventoryEntry> inventory, LocalDate asOf, SweepSettings settings) {
        return assess(activeDrives, machines, lastSeen, setAside, refused, lastDriveNowIn, Map.of(), inventory, asOf, settings);
    }

    /**
     * The same, where machines came in for repair.
     *
     * @param endedIn by folded machine id, the repair that ended the use of its drive
     */
    public static List<MachineAssessment> assess(Collection<DriveAssessment> activeDrives,
                                                 Map<String, Machine> machines, Map<String, Instant> lastSeen,
                                                 Map<String, ProblemKind> setAside, Map<String, String> refused, Map<String, String> lastDriveNowIn,
                                                 Map<String, Repair> endedIn, Collection<InventoryEntry> inventory, LocalDate asOf, SweepSettings settings) {
        Map<String, List<DriveAssessment>> drives = activeDrives.stream()
            .sorted(Comparator.comparing(DriveAssessment::id))
            .collect(Collectors.groupingBy(drive -> DriveId.fold(drive.latest().machine().id())));
        Map<String, InventoryEntry> entries = new TreeMap<>();
        BinaryOperator<InventoryEntry> sameWhateverTheOrder =
            BinaryOperator.minBy(Comparator.comparing(InventoryEntry::toString));
        inventory.forEach(entry -> entries.merge(DriveId.fold(entry.machineId()), entry, sameWhateverTheOrder));

        TreeSet<String> ids = new TreeSet<>(machines.keySet());
        ids.addAll(drives.keySet());
        ids.addAll(entries.keySet());
        List<MachineAssessment> assessments = new ArrayList<>();
        for (String id : ids) {
            List<DriveAssessment> own = drives.getOrDefault(id, List.of());
            InventoryEntry entry = entries.get(id);
            Machine reported = machines.get(id) != null || own.isEmpty() ? machines.get(id)
                : latest(own).latest().machine();
            Instant seenAt = lastSeen.get(id) != null || own.isEmpty() ? lastSeen.get(id)
                : latest(own).latest().collectedAt();
            Machine other = own.isEmpty() && lastDriveNowIn.containsKey(id) ? machines.get(lastDriveNowIn.get(id)) : null;
            assessments.add(assess(own, reported, setAside.get(id), refused.get(id), other == null ? null : other.id(), endedIn.get(id), entry, seenAt, inventory.isEmpty() || entry != null, asOf,
                settings));
        }
        return List.copyOf(assessments);
    }

    private static MachineAssessment assess(List<DriveAssessment> drives, Machine reported, ProblemKind setAside,
                                            String refused, String driveNowIn, Repair ended, InventoryEntry entry, Instant seenAt, boolean inInventory, LocalDate asOf,
                                            SweepSettings settings) {
        long daysSince = seenAt == null ? Long.MAX_VALUE
            : ChronoUnit.DAYS.between(LocalDate.ofInstant(seenAt, ZoneOffset.UTC), asOf);
        boolean reportedThisSweep = daysSince <= settings.recentDays();
        String late = reportedThisSweep || seenAt == null ? "" : "; last report is " + daysSince + " days old";
        String notRead = reportedThisSweep ? null : refused;
        Standing standing = drives.stream().min(WORST_FIRST).map(DriveAssessment::standing).orElse(Standing.NO_VERDICT);
        LocalDate replacedOn = !drives.isEmpty() || reported == null || setAside != null ? null : ended != null ? ended.date() : driveReplacedOn(entry, seenAt, asOf);
        return new MachineAssessment(complete(reported, entry), attachment(drives, entry), drives, standing,
            reason(drives, reported, setAside, notRead, driveNowIn, ended, replacedOn) + late + (notRead == null ? "" : "; " + notRead), seenAt, reportedThisSweep,
            setAside, entry == null ? null : entry.warrantyEndsOn(), inInventory, notRead, setAside == null ? driveNowIn : null, replacedOn,
            entry == null || entry.ownership() == null ? settings.ownership() : entry.ownership());
    }

    /** {@code null} when the machine has reported since, or when it is not known. */
    private static LocalDate driveReplacedOn(InventoryEntry entry, Instant seenAt, LocalDate asOf) {
        LocalDate on = entry == null ? null : entry.driveReplacedOn();
        return on == null || seenAt == null || on.isAfter(asOf) || LocalDate.ofInstant(seenAt, ZoneOffset.UTC).isAfter(on) ? null : on;
    }

    private static String reason(List<DriveAssessment> drives, Machine reported, ProblemKind setAside, String notRead, String driveNowIn,
                                 Repair ended, LocalDate driveReplacedOn) {
        if (drives.isEmpty()) {
            return reported == null ? "in the inventory, but no " + (notRead == null ? "" : "usable ") + "report found"
                : setAside != null ? "its latest report was set aside (" + setAside.id() + ")"
                : driveReplacedOn != null ? "drive replaced on " + driveReplacedOn + " (" + (ended == null ? "inventory" : ended.reason().label()) + "), not read since"
                : "no active drive: the drive it reported " + (driveNowIn == null ? "was in another machine later" : "is now in " + driveNowIn);
        }
        DriveAssessment worst = drives.stream().min(WORST_FIRST).orElseThrow();
        String aside = setAside == null ? "" : "; the machine's latest report was set aside (" + setAside.id() + "), this is judged by "
            + LocalDate.ofInstant(worst.latest().collectedAt(), ZoneOffset.UTC);
        return (drives.size() == 1 ? worst.reason() : worst.id().serial() + ": " + worst.reason()) + aside;
    }

    /** What the report says wins; the inventory fills what it leaves out. */
    private static Machine complete(Machine reported, InventoryEntry entry) {
        if (entry == null) {
            return reported;
        }
        Machine base = reported != null ? reported
            : new Machine(entry.machineId(), null, null, null, null, null, null, null);
        return new Machine(base.id(), first(base.assetTag(), entry.assetTag()), first(base.site(), entry.site()),
            first(base.costCentre(), entry.costCentre()), first(base.model(), entry.machineModel()), first(base.memoryBytes(), entry.memoryBytes()),
            base.swapUsedBytes(), first(base.inServiceOn(), entry.inServiceOn()), first(base.userSince(), entry.userSince()),
            entry.user(), entry.refreshOn());
    }

    private static <T> T first(T reported, T inventoried) {
        return reported != null ? reported : inventoried;
    }

    /** The worst known: soldered before socketed before unknown, the order of the constants. */
    private static Attachment attachment(List<DriveAssessment> drives, InventoryEntry entry) {
        return Stream.concat(drives.stream().map(drive -> drive.latest().drive().attachment()),
                Stream.ofNullable(entry == null ? null : entry.attachment()))
            .min(Comparator.naturalOrder()).orElse(Attachment.UNKNOWN);
    }

    private static DriveAssessment latest(List<DriveAssessment> drives) {
        return drives.stream().max(Comparator.comparing((DriveAssessment drive) -> drive.latest().collectedAt())
            .thenComparing(DriveAssessment::id)).orElseThrow();
    }
}

package org.wearledger.assess;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
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
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

/** Gives each machine, seen or only inventoried, the worst standing of its active drives. */
public final class MachineAssessor {
    private static final Comparator<DriveAssessment> WORST_FIRST =
        Comparator.comparing(DriveAssessment::standing).thenComparing(DriveAssessment::id);

    /**
     * What is known of machines beside their drives, all by folded machine id.
     *
     * @param machines every machine seen, as last reported
     * @param lastSeen latest reading of any drive
     * @param setAside the rule that keeps the machine's latest report out, where one does
     * @param refused how many records that name it were refused, and by which rules
     * @param lastDriveNowIn the machine that now holds the drive which this one reported last
     * @param endedIn the repair that ended the use of its drive
     */
    public record Known(Map<String, Machine> machines, Map<String, Instant> lastSeen, Map<String, ProblemKind> setAside, Map<String, String> refused,
                        Map<String, String> lastDriveNowIn, Map<String, Repair> endedIn) {
    }

    private final List<DriveAssessment> drives;
    /** {@code null} when the inventory does not list the machine; the others {@code null} when they are not known. */
    private final InventoryEntry entry;
    private final Machine reported;
    private final Instant seenAt;
    private final ProblemKind setAside;
    private final String driveNowIn;
    private final Repair ended;
    /** {@code null} for a machine that has reported well since. */
    private final String refused;
    private final LocalDate asOf;
    private final SweepSettings settings;

    private MachineAssessor(String id, List<DriveAssessment> drives, InventoryEntry entry, Known known, LocalDate asOf, SweepSettings settings) {
        this.drives = drives;
        this.entry = entry;
        this.asOf = asOf;
        this.settings = settings;
        Reading latest = drives.stream().map(DriveAssessment::latest).max(Comparator.comparing(Reading::collectedAt).thenComparing(reading -> reading.drive().id())).orElse(null);
        reported = latest == null ? known.machines.get(id) : known.machines.getOrDefault(id, latest.machine());
        seenAt = latest == null ? known.lastSeen.get(id) : known.lastSeen.getOrDefault(id, latest.collectedAt());
        setAside = known.setAside.get(id);
        boolean moved = drives.isEmpty() && known.lastDriveNowIn.containsKey(id);
        Machine other = moved ? known.machines.get(known.lastDriveNowIn.get(id)) : null;
        driveNowIn = other == null ? null : other.id();
        ended = known.endedIn.get(id);
        refused = reportedThisSweep() ? null : known.refused.get(id);
    }

    /**
     * A machine without an active drive has no verdict, and its reason says why.
     *
     * @param inventory empty when none was given; then every machine counts as inventoried
     * @return by folded machine id
     */
    public static List<MachineAssessment> assess(Collection<DriveAssessment> activeDrives, Known known, Collection<InventoryEntry> inventory, LocalDate asOf,
                                                 SweepSettings settings) {
        Map<String, List<DriveAssessment>> drives = activeDrives.stream().sorted(Comparator.comparing(DriveAssessment::id))
            .collect(Collectors.groupingBy(drive -> DriveId.fold(drive.latest().machine().id())));
        Map<String, InventoryEntry> entries = new TreeMap<>();
        BinaryOperator<InventoryEntry> sameWhateverTheOrder = BinaryOperator.minBy(Comparator.comparing(InventoryEntry::toString));
        inventory.forEach(entry -> entries.merge(DriveId.fold(entry.machineId()), entry, sameWhateverTheOrder));
        TreeSet<String> ids = new TreeSet<>(known.machines.keySet());
        ids.addAll(drives.keySet());
        ids.addAll(entries.keySet());
        return ids.stream().map(id -> new MachineAssessor(id, drives.getOrDefault(id, List.of()), entries.get(id), known, asOf, settings)
            .assessment(inventory.isEmpty() || entries.containsKey(id))).toList();
    }

    private MachineAssessment assessment(boolean inInventory) {
        Standing standing = drives.stream().min(WORST_FIRST).map(DriveAssessment::standing).orElse(Standing.NO_VERDICT);
        String late = reportedThisSweep() || seenAt == null ? "" : "; last report is " + daysSinceSeen() + " days old";
        String reason = (drives.isEmpty() ? reasonWithoutDrive() : reasonOfWorst()) + late + (refused == null ? "" : "; " + refused);
        return new MachineAssessment(complete(reported, entry), attachment(drives, entry), drives, standing, reason, seenAt, reportedThisSweep(),
            setAside, entry == null ? null : entry.warrantyEndsOn(), inInventory, refused, setAside == null ? driveNowIn : null, replacedOn(),
            entry == null || entry.ownership() == null ? settings.ownership() : entry.ownership());
    }

    private boolean reportedThisSweep() {
        return seenAt != null && daysSinceSeen() <= settings.recentDays();
    }

    private long daysSinceSeen() {
        return ChronoUnit.DAYS.between(seenOn(), asOf);
    }

    private LocalDate seenOn() {
        return LocalDate.ofInstant(seenAt, ZoneOffset.UTC);
    }

    /** The day on which its last drive was replaced; {@code null} when it has reported since, or when it is not known. */
    private LocalDate replacedOn() {
        if (!drives.isEmpty() || reported == null || setAside != null) {
            return null;
        }
        if (ended != null) {
            return ended.date();
        }
        LocalDate on = entry == null ? null : entry.driveReplacedOn();
        return on == null || seenAt == null || on.isAfter(asOf) || seenOn().isAfter(on) ? null : on;
    }

    private String reasonWithoutDrive() {
        if (reported == null) {
            return "in the inventory, but no " + (refused == null ? "" : "usable ") + "report found";
        }
        if (setAside != null) {
            return "its latest report was set aside (" + setAside.id() + ")";
        }
        if (replacedOn() != null) {
            return "drive replaced on " + replacedOn() + " (" + (ended == null ? "inventory" : ended.reason().label()) + "), not read since";
        }
        return "no active drive: the drive it reported " + (driveNowIn == null ? "was in another machine later" : "is now in " + driveNowIn);
    }

    private String reasonOfWorst() {
        DriveAssessment worst = drives.stream().min(WORST_FIRST).orElseThrow();
        String aside = setAside == null ? "" : "; the machine's latest report was set aside (" + setAside.id() + "), this is judged by " + worst.latest().collectedOn();
        return (drives.size() == 1 ? worst.reason() : worst.id().serial() + ": " + worst.reason()) + aside;
    }

    /** What the report says wins; the inventory fills what it leaves out. */
    private static Machine complete(Machine reported, InventoryEntry entry) {
        if (entry == null) {
            return reported;
        }
        Machine base = reported != null ? reported : new Machine(entry.machineId(), null, null, null, null, null, null, null);
        return new Machine(base.id(), first(base.assetTag(), entry.assetTag()), first(base.site(), entry.site()),
            first(base.costCentre(), entry.costCentre()), first(base.model(), entry.machineModel()), first(base.memoryBytes(), entry.memoryBytes()),
            base.swapUsedBytes(), first(base.inServiceOn(), entry.inServiceOn()), first(base.userSince(), entry.userSince()),
            entry.user(), entry.refreshOn(), entry.supportEndsOn());
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
}

package org.wearledger.assess;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.history.Sample;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveAssessment;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.MachineAssessment;
import org.wearledger.model.Ownership;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.ProjectionMethod;
import org.wearledger.model.Reading;
import org.wearledger.model.Repair;
import org.wearledger.model.Standing;
import org.wearledger.model.SweepSettings;

class MachineAssessorTest {
    private static final LocalDate AS_OF = LocalDate.of(2025, 1, 1);
    private static final MachineAssessor.Known NOTHING_KNOWN = new MachineAssessor.Known(Map.of(), Map.of(), Map.of(), Map.of(), Map.of(), Map.of());

    @Test
    void theWorstDriveSpeaksForItsMachine() {
        MachineAssessment machine = assess(
            List.of(drive("2025-01-01", "KX-0001", 10), drive("2025-01-01", "KX-0002", 100)), List.of()).get(0);
        assertThat(machine.standing()).isEqualTo(Standing.PAST_RATING);
        assertThat(machine.reason()).startsWith("KX-0002: the controller itself reports 100 % used");
        assertThat(machine.activeDrives()).extracting(drive -> drive.id().serial())
            .containsExactly("KX-0001", "KX-0002");
        assertThat(machine.inInventory()).isTrue();
        assertThat(machine.reportedThisSweep()).isTrue();
    }

    @Test
    void aLateReportIsSaid() {
        assertThat(assess(List.of(drive("2024-11-17", "KX-0001", 10)), List.of()).get(0).reportedThisSweep()).isTrue();
        MachineAssessment late = assess(List.of(drive("2024-11-16", "KX-0001", 10)), List.of()).get(0);
        assertThat(late.reportedThisSweep()).isFalse();
        assertThat(late.reason()).endsWith("; last report is 46 days old");
    }

    @Test
    void theInventoryCompletesAndAddsMachines() {
        LocalDate bought = LocalDate.of(2022, 5, 1);
        List<InventoryEntry> inventory = List.of(
            new InventoryEntry("pc-9", "North", "410", bought, null, 8L << 30, Attachment.SOLDERED),
            new InventoryEntry("pc-1", "South", "420", bought, null, 16L << 30, Attachment.SOCKETED));
        List<MachineAssessment> machines = assess(List.of(drive("2025-01-01", "KX-0001", 10)), inventory);
        assertThat(machines).extracting(m -> m.machine().id()).containsExactly("PC-1", "pc-9");
        assertThat(machines.get(0).machine())
            .isEqualTo(new Machine("PC-1", null, "South", "420", null, 16L << 30, null, bought));
        assertThat(machines.get(0).attachment()).isEqualTo(Attachment.SOCKETED);
        assertThat(machines.get(1).standing()).isEqualTo(Standing.NO_VERDICT);
        assertThat(machines.get(1).reason()).isEqualTo("in the inventory, but no report found");
        assertThat(machines.get(1).lastSeenAt()).isNull();
        assertThat(machines.get(1).reportedThisSweep()).isFalse();
    }

    @Test
    void aSeenMachineWithoutActiveDriveHasNoVerdict() {
        Machine seen = new Machine("PC-7", null, null, null, null, null, null, null);
        InventoryEntry other = new InventoryEntry("PC-1", null, null, null, null, null, null);
        List<MachineAssessment> machines = MachineAssessor.assess(List.of(), new MachineAssessor.Known(Map.of("PC-7", seen, "PC-8", seen), Map.of("PC-7", Instant.parse("2025-01-01T08:00:00Z"), "PC-8", Instant.parse("2025-01-01T08:00:00Z")), Map.of("PC-8", ProblemKind.SERIAL_PLACEHOLDER), Map.of(), Map.of(), Map.of()),
            List.of(other), AS_OF, SweepSettings.withDefaults());
        assertThat(machines).extracting(MachineAssessment::reason)
            .containsExactly("in the inventory, but no report found", "no active drive: the drive it reported was in another machine later",
                "its latest report was set aside (serial-placeholder)");
        assertThat(machines.get(1).inInventory()).isFalse();
        assertThat(machines.get(1).reportedThisSweep()).isTrue();
        assertThat(machines.get(1).attachment()).isEqualTo(Attachment.UNKNOWN);
    }

    /** Nobody shall order a second drive for it. */
    @ParameterizedTest(name = "replaced on {0}")
    @CsvSource({"2024-12-20, 'drive replaced on 2024-12-20 (inventory), not read since'",
        "2025-01-02, no active drive: the drive it reported was in another machine later"})
    void aDriveThatTheInventoryCallsReplacedIsNotMissed(LocalDate replacedOn, String reason) {
        InventoryEntry entry = new InventoryEntry("PC-7", null, null, null, null, null, null, null, replacedOn, null, null, null, null, null, null);
        assertThat(MachineAssessor.assess(List.of(), new MachineAssessor.Known(Map.of("PC-7", machine("PC-7")), Map.of("PC-7", Instant.parse("2024-11-26T08:00:00Z")), Map.of(), Map.of(), Map.of(), Map.of()),
            List.of(entry), AS_OF, SweepSettings.withDefaults()).get(0).reason()).isEqualTo(reason);
    }

    @Test
    void aDriveThatCameInDeadIsNotMissed() {
        Repair dead = new Repair("R-1", "PC-7", null, null, LocalDate.of(2024, 12, 20), Repair.Reason.DEAD_DRIVE, null, null);
        assertThat(MachineAssessor.assess(List.of(), new MachineAssessor.Known(Map.of("PC-7", machine("PC-7")), Map.of("PC-7", Instant.parse("2024-12-17T08:00:00Z")), Map.of(), Map.of(), Map.of(), Map.of("PC-7", dead)),
            List.of(), AS_OF, SweepSettings.withDefaults()).get(0).reason())
            .isEqualTo("drive replaced on 2024-12-20 (dead drive), not read since");
    }

    @ParameterizedTest(name = "all {0}, in the inventory {1}")
    @CsvSource({"OWN, , OWN", "OWN, CUSTOMER, CUSTOMER", "CUSTOMER, , CUSTOMER", "CUSTOMER, OWN, OWN", "OWN, none, OWN", "CUSTOMER, none, CUSTOMER"})
    void whoseAMachineIsTheInventorySaysFirst(Ownership ofAll, String inInventory, Ownership ownership) {
        List<InventoryEntry> inventory = "none".equals(inInventory) ? List.of()
            : List.of(new InventoryEntry("PC-1", null, null, null, null, null, null, null, null, inInventory == null ? null : Ownership.valueOf(inInventory), null, null, null, null, null));
        SweepSettings settings = new SweepSettings(AS_OF, 30, 45, ProjectionMethod.POOLED, 0.5, 0.1, ofAll);
        assertThat(MachineAssessor.assess(List.of(drive("2025-01-01", "KX-0001", 10)), NOTHING_KNOWN,
            inventory, AS_OF, settings))
            .extracting(MachineAssessment::ownership).containsExactly(ownership);
    }

    /** The machine may have been renamed: nobody would look for the other name. */
    @Test
    void theMachineThatNowHasTheDriveIsNamed() {
        Map<String, Machine> seen = Map.of("PC-7", machine("PC-7"), "PC-7-NEW", machine("PC-7-new"));
        Instant at = Instant.parse("2025-01-01T08:00:00Z");
        MachineAssessment inventoried = MachineAssessor.assess(List.of(), new MachineAssessor.Known(seen, Map.of("PC-7", at), Map.of(), Map.of(), Map.of("PC-7", "PC-7-NEW"), Map.of()),
            List.of(new InventoryEntry("PC-7", null, null, null, null, null, null)), AS_OF, SweepSettings.withDefaults()).get(0);
        assertThat(inventoried.reason()).isEqualTo("no active drive: the drive it reported is now in PC-7-new");
        assertThat(inventoried.ifRenamed()).isEqualTo("if it was renamed PC-7-new, change its name in inventory.csv; if its drive was moved there, collect a report of its new drive");
        assertThat(MachineAssessment.formerNames(List.of(inventoried))).isEqualTo(Map.of("PC-7-new", "PC-7"));
        MachineAssessment stray = MachineAssessor.assess(List.of(), new MachineAssessor.Known(seen, Map.of("PC-7", at), Map.of(), Map.of(), Map.of("PC-7", "PC-7-NEW"), Map.of()),
            List.of(new InventoryEntry("PC-7-NEW", null, null, null, null, null, null)), AS_OF, SweepSettings.withDefaults()).get(0);
        assertThat(stray.ifRenamed()).as("once the inventory has the new name")
            .isEqualTo("if it was renamed PC-7-new, nothing is to be done; else enter it in the inventory, or find out whose it is");
        assertThat(MachineAssessor.assess(List.of(), new MachineAssessor.Known(seen, Map.of("PC-7", at), Map.of("PC-7", ProblemKind.SERIAL_PLACEHOLDER), Map.of(), Map.of("PC-7", "PC-7-NEW"), Map.of()),
            List.of(), AS_OF, SweepSettings.withDefaults()).get(0).driveNowIn()).as("its latest report shows another drive").isNull();
    }

    private static Machine machine(String id) {
        return new Machine(id, null, null, null, null, null, null, null);
    }

    /** It would be looked for in vain: it reports. A refusal of long ago is no matter while it reports well. */
    @Test
    void aMachineWhoseReportsAreRefusedIsNotCalledSilent() {
        String refused = "3 records of it were refused (field-missing)";
        List<MachineAssessment> machines = MachineAssessor.assess(List.of(drive("2025-01-01", "KX-0001", 10)), new MachineAssessor.Known(Map.of(), Map.of(), Map.of(), Map.of("PC-9", refused, "PC-1", refused), Map.of(), Map.of()),
            List.of(new InventoryEntry("pc-9", null, null, null, null, null, null)), AS_OF, SweepSettings.withDefaults());
        assertThat(machines).extracting(MachineAssessment::refused).containsExactly(null, refused);
        assertThat(machines.get(0).reason()).doesNotContain("refused");
        assertThat(machines.get(1).reason()).isEqualTo("in the inventory, but no usable report found; " + refused);
        assertThat(MachineAssessor.assess(List.of(drive("2024-11-16", "KX-0001", 10)), new MachineAssessor.Known(Map.of(), Map.of(), Map.of(), Map.of("PC-1", refused), Map.of(), Map.of()),
            List.of(), AS_OF, SweepSettings.withDefaults()).get(0).reason()).endsWith("; last report is 46 days old; " + refused);
    }

    private static List<MachineAssessment> assess(List<DriveAssessment> drives, List<InventoryEntry> inventory) {
        return MachineAssessor.assess(drives, NOTHING_KNOWN,
            inventory, AS_OF, SweepSettings.withDefaults());
    }

    private static DriveAssessment drive(String at, String serial, int percentageUsed) {
        Reading reading = Sample.at(at).serial(serial).used(percentageUsed).reading();
        DriveHistory history =
            new DriveHistory(DriveId.of(Sample.MODEL, serial), List.of(new HistoryPoint(reading, 0, null)));
        return new DriveAssessor(history, Ratings.of(List.of()), false, null).assess(WearModel.fit(List.of()), AS_OF, SweepSettings.withDefaults());
    }

    @Test
    void whatTheReportSaysWinsOverTheInventory() {
        InventoryEntry entry = new InventoryEntry("PC-1", "South", "420", LocalDate.of(2022, 5, 1), LocalDate.of(2027, 5, 1), 16L << 30, null);
        Machine reported = new Machine("PC-1", "A-1", "North", "410", "Torvane 14", 8L << 30, 1L, LocalDate.of(2023, 1, 1));
        MachineAssessment machine = MachineAssessor.assess(List.of(drive("2025-01-01", "KX-0001", 10)), new MachineAssessor.Known(Map.of("PC-1", reported), Map.of(), Map.of(), Map.of(), Map.of(), Map.of()),
            List.of(entry), AS_OF, SweepSettings.withDefaults()).get(0);
        assertThat(machine.machine()).isEqualTo(reported);
        assertThat(machine.warrantyEndsOn()).isEqualTo("2027-05-01");
        assertThat(MachineAssessor.assess(List.of(), new MachineAssessor.Known(Map.of("PC-1", reported), Map.of(), Map.of(), Map.of(), Map.of(), Map.of()),
            List.of(), AS_OF, SweepSettings.withDefaults()).get(0).machine())
            .as("without an inventory").isEqualTo(reported);
    }

    /** Of one drive its reason, of several whose; a later report that was set aside is named with the day that is judged by instead. */
    @Test
    void aReportSetAsideIsSaidBesideTheVerdict() {
        List<MachineAssessment> machines = MachineAssessor.assess(List.of(drive("2025-01-01", "KX-0001", 40)), new MachineAssessor.Known(Map.of(), Map.of(), Map.of("PC-1", ProblemKind.SERIAL_PLACEHOLDER), Map.of(), Map.of(), Map.of()),
            List.of(), AS_OF, SweepSettings.withDefaults());
        assertThat(machines.get(0).reason()).startsWith("the controller itself reports 40 % used; ")
            .endsWith("; the machine's latest report was set aside (serial-placeholder), this is judged by 2025-01-01");
        assertThat(machines.get(0).latestSetAsideBy()).isEqualTo(ProblemKind.SERIAL_PLACEHOLDER);
        assertThat(assess(List.of(drive("2025-01-01", "KX-0001", 40)), List.of()).get(0).reason()).doesNotContain("set aside");
    }

    @Test
    void aMachineNotInTheInventoryIsTold() {
        InventoryEntry other = new InventoryEntry("PC-9", null, null, null, null, null, null);
        assertThat(assess(List.of(drive("2025-01-01", "KX-0001", 10)), List.of(other))).extracting(MachineAssessment::inInventory).containsExactly(false, true);
    }
}

package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * One machine: the worst standing of its active drives.
 *
 * @param machine as last reported, completed from the inventory
 * @param attachment worst known of the active drives and the inventory
 * @param activeDrives by drive id; empty when none is active
 * @param lastSeenAt latest reading of any drive in this machine, {@code null} when never seen
 * @param reportedThisSweep the latest reading is recent enough at the as-of date
 * @param reason what the standing rests on, a clause without a final stop
 * @param inInventory true also when no inventory was given
 * @param warrantyEndsOn of the machine, as the inventory has it; {@code null} when not known
 * @param latestSetAsideBy the rule that keeps the machine's latest report out; {@code null} when none does
 * @param refused of a machine without a reading this sweep, how many records that name it were refused, and by which rules; else {@code null}
 * @param driveNowIn of a machine without an active drive, the machine that now holds the drive which it reported last; else {@code null}
 * @param driveReplacedOn of a machine without an active drive, the day of the repair, or by the inventory, when its drive was taken out; the new one was not read since; else {@code null}
 * @param ownership as the inventory has it, else as the sweep was asked to take all
 */
public record MachineAssessment(Machine machine, Attachment attachment, List<DriveAssessment> activeDrives,
                                Standing standing, String reason, Instant lastSeenAt, boolean reportedThisSweep,
                                ProblemKind latestSetAsideBy, LocalDate warrantyEndsOn,
                                boolean inInventory, String refused, String driveNowIn, LocalDate driveReplacedOn, Ownership ownership) implements Serializable {
    public MachineAssessment {
        activeDrives = List.copyOf(activeDrives);
    }

    /** Whether its latest report was set aside because its bytes written cannot be believed. */
    public boolean isReportDisbelieved() {
        return latestSetAsideBy != null && latestSetAsideBy.disbelievesWritten();
    }

    /** What to do where its drive is now in another machine, and only there: one that was renamed looks the same. */
    public String ifRenamed() {
        return "if it was renamed " + driveNowIn + ", " + (inInventory ? "change its name in inventory.csv; if its drive was moved there, collect a report of its new drive"
            : "nothing is to be done; else enter it in the inventory, or find out whose it is");
    }

    /** By the name of a machine that now has the drive of one in the inventory that went without: that one's name, the first of several. */
    public static Map<String, String> formerNames(Collection<MachineAssessment> machines) {
        return machines.stream().filter(machine -> machine.inInventory && machine.driveNowIn != null)
            .collect(Collectors.toMap(MachineAssessment::driveNowIn, machine -> machine.machine.id(), (one, other) -> one.compareTo(other) <= 0 ? one : other));
    }

    /** Whether it is planned for, and missed when it does not report. */
    public boolean isOwn() {
        return ownership == Ownership.OWN;
    }

    /** An own one, none of whose records was refused. */
    public MachineAssessment(Machine machine, Attachment attachment, List<DriveAssessment> activeDrives, Standing standing, String reason,
                             Instant lastSeenAt, boolean reportedThisSweep, ProblemKind latestSetAsideBy, LocalDate warrantyEndsOn, boolean inInventory) {
        this(machine, attachment, activeDrives, standing, reason, lastSeenAt, reportedThisSweep, latestSetAsideBy, warrantyEndsOn, inInventory, null, null, null, Ownership.OWN);
    }
}

package org.wearledger.model;

import java.io.Serializable;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;

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
 */
public record MachineAssessment(Machine machine, Attachment attachment, List<DriveAssessment> activeDrives,
                                Standing standing, String reason, Instant lastSeenAt, boolean reportedThisSweep,
                                ProblemKind latestSetAsideBy, LocalDate warrantyEndsOn,
                                boolean inInventory, String refused) implements Serializable {
    public MachineAssessment {
        activeDrives = List.copyOf(activeDrives);
    }

    /** Whether its latest report was set aside because its bytes written cannot be believed. */
    public boolean isReportDisbelieved() {
        return latestSetAsideBy != null && latestSetAsideBy.disbelievesWritten();
    }

    /** None of whose records was refused. */
    public MachineAssessment(Machine machine, Attachment attachment, List<DriveAssessment> activeDrives, Standing standing, String reason,
                             Instant lastSeenAt, boolean reportedThisSweep, ProblemKind latestSetAsideBy, LocalDate warrantyEndsOn, boolean inInventory) {
        this(machine, attachment, activeDrives, standing, reason, lastSeenAt, reportedThisSweep, latestSetAsideBy, warrantyEndsOn, inInventory, null);
    }
}

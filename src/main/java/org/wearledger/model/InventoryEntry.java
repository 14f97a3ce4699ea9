package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/**
 * One machine of the {@code inventory} table; all but {@code machineId} may be {@code null}.
 *
 * @param userSince day its present user took it over
 * @param driveReplacedOn day its drive was last replaced
 * @param ownership {@code null} as for all machines of the sweep
 * @param user who has it, or whose it is
 * @param refreshOn day on which another machine takes its place
 * @param supportEndsOn last day of support for its system
 */
public record InventoryEntry(String machineId, String site, String costCentre, LocalDate inServiceOn,
                             LocalDate warrantyEndsOn, Long memoryBytes, Attachment attachment, LocalDate userSince, LocalDate driveReplacedOn,
                             Ownership ownership, String assetTag, String machineModel, String user, LocalDate refreshOn,
                             LocalDate supportEndsOn)
    implements Serializable {
    /** One of which neither a change of user nor of drive nor an ownership is known. */
    public InventoryEntry(String machineId, String site, String costCentre, LocalDate inServiceOn, LocalDate warrantyEndsOn,
                          Long memoryBytes, Attachment attachment) {
        this(machineId, site, costCentre, inServiceOn, warrantyEndsOn, memoryBytes, attachment, null, null, null, null, null, null, null, null);
    }
}

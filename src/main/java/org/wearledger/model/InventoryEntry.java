package org.wearledger.model;

import java.io.Serializable;
import java.time.LocalDate;

/** One machine of the {@code inventory} table; all but {@code machineId} may be {@code null}. */
public record InventoryEntry(String machineId, String site, String costCentre, LocalDate inServiceOn,
                             LocalDate warrantyEndsOn, Long memoryBytes, Attachment attachment)
    implements Serializable {
}

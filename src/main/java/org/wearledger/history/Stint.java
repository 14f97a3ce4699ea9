package org.wearledger.history;

import java.io.Serializable;
import java.time.Instant;
import org.wearledger.model.DriveId;
import org.wearledger.model.SourcePlace;

/**
 * An unbroken run of one drive's readings in one machine.
 *
 * @param machineId folded as in {@link DriveId#fold}
 * @param lastSource where the reading at {@code last} was found
 */
public record Stint(DriveId drive, String machineId, Instant first, Instant last, SourcePlace lastSource)
    implements Serializable {
}

package org.wearledger.model;

import java.io.Serializable;

/**
 * The drive as a report names it. {@code firmware} and {@code capacityBytes} may be {@code null}: not reported;
 * {@code attachment} is then {@link Attachment#UNKNOWN}.
 */
public record Drive(String serial, String model, String firmware, Long capacityBytes, Attachment attachment)
    implements Serializable {

    /** Model and serial, folded, by which readings of this drive are joined. */
    public DriveId id() {
        return DriveId.of(model, serial);
    }
}

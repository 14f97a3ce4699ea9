package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

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

    /** Nominal capacities that are sold, in GB, from memory. 275 GB is one too, but far more often it is 256 GB read as GiB. */
    private static final List<Integer> SOLD_GIGABYTES =
        List.of(32, 64, 120, 128, 240, 250, 256, 480, 500, 512, 800, 960, 1000, 1024, 1600, 1920, 2000, 2048, 3200, 3840, 4000, 4096, 7680, 8000, 8192);

    /** Whether it lies at most this share from a capacity that is sold. */
    public static boolean isSold(double gigabytes, double share) {
        return SOLD_GIGABYTES.stream().anyMatch(sold -> Math.abs(gigabytes - sold) <= share * sold);
    }
}

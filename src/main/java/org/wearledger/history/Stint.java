package org.wearledger.history;

import java.io.Serializable;
import java.math.BigInteger;
import java.time.Instant;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.SourcePlace;

/**
 * An unbroken run of one drive's readings in one machine.
 *
 * @param machineId folded as in {@link DriveId#fold}
 * @param lastSource where the reading at {@code last} was found
 * @param counters a hash of the counters at the last reading that was kept, as of {@link #countersOf}; 0 where too few are reported to tell drives apart
 */
public record Stint(DriveId drive, String machineId, Instant first, Instant last, SourcePlace lastSource, long counters)
    implements Serializable {
    private static final long HASH_MULTIPLIER = 0x9E3779B97F4A7C15L;
    private static final int FEWEST_COUNTERS = 4;
    /** 5 GB: by then no two drives have done just the same. */
    private static final BigInteger FEWEST_DATA_UNITS = BigInteger.valueOf(10_000);

    static long countersOf(Health h) {
        if (h.dataUnitsWritten() == null || h.dataUnitsWritten().compareTo(FEWEST_DATA_UNITS) < 0) {
            return 0;
        }
        long hash = 1;
        int reported = 0;
        for (BigInteger counter : new BigInteger[] {h.dataUnitsRead(), h.dataUnitsWritten(), h.hostReadCommands(), h.hostWriteCommands(),
            h.powerCycles(), h.powerOnHours()}) {
            reported += counter == null ? 0 : 1;
            hash = (hash ^ (counter == null ? -1 : counter.longValue())) * HASH_MULTIPLIER;
            hash ^= hash >>> 32;
        }
        return reported < FEWEST_COUNTERS ? 0 : hash;
    }
}

package org.wearledger.history;

import java.io.Serializable;
import java.time.Instant;
import org.wearledger.model.Attachment;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * An unbroken run of one drive's readings in one machine.
 *
 * @param machineId folded as in {@link DriveId#fold}
 * @param lastSource where the reading at {@code last} was found
 * @param counters a hash of the counters at the last reading that was kept, as of {@link #countersOf}; 0 where too few are reported to tell drives apart
 * @param firstHours power-on hours at the first reading that was kept, {@code null} when not reported
 * @param lastHours the same at the last one
 * @param attachment as last reported
 */
public record Stint(DriveId drive, String machineId, Instant first, Instant last, SourcePlace lastSource, long counters,
                    Long firstHours, Long lastHours, Attachment attachment) implements Serializable {
    private static final long HASH_MULTIPLIER = 0x9E3779B97F4A7C15L;
    private static final int FEWEST_COUNTERS = 4;
    /** 5 GB: by then no two drives have done just the same. */
    private static final long FEWEST_DATA_UNITS = 10_000;

    /** The run of one reading. */
    static Stint of(DriveId drive, Reading reading) {
        Long hours = hoursOf(reading);
        return new Stint(drive, DriveId.fold(reading.machine().id()), reading.collectedAt(), reading.collectedAt(), reading.source(),
            countersOf(reading.health()), hours, hours, reading.drive().attachment());
    }

    /** The run with one more reading, the last now. */
    Stint upTo(Reading reading) {
        return new Stint(drive, machineId, first, reading.collectedAt(), reading.source(), countersOf(reading.health()),
            firstHours, hoursOf(reading), reading.drive().attachment());
    }

    /** The run where the drive was also seen at this time, by a reading that tells no more. */
    Stint seenAt(Instant at, SourcePlace source) {
        if (at.isAfter(last)) {
            return new Stint(drive, machineId, first, at, source, counters, firstHours, lastHours, attachment);
        }
        return at.isBefore(first) ? new Stint(drive, machineId, at, last, lastSource, counters, firstHours, lastHours, attachment) : this;
    }

    private static Long hoursOf(Reading reading) {
        return reading.health().powerOnHours();
    }

    static long countersOf(Health h) {
        if (h.dataUnitsWritten() == null || h.dataUnitsWritten() < FEWEST_DATA_UNITS) {
            return 0;
        }
        long hash = 1;
        int reported = 0;
        for (Long counter : new Long[] {h.dataUnitsRead(), h.dataUnitsWritten(), h.hostReadCommands(), h.hostWriteCommands(),
            h.powerCycles(), h.powerOnHours()}) {
            reported += counter == null ? 0 : 1;
            hash = (hash ^ (counter == null ? -1 : counter)) * HASH_MULTIPLIER;
            hash ^= hash >>> 32;
        }
        return reported < FEWEST_COUNTERS ? 0 : hash;
    }
}

package org.wearledger.job;

import java.io.Serializable;
import java.time.Instant;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.wearledger.assess.MemoryDifferences;
import org.wearledger.history.Limits;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.SideTable;
import org.wearledger.model.DriveId;
import org.wearledger.model.InventoryEntry;
import org.wearledger.model.Machine;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/** A machine as its latest report names it. */
record LatestReport(Machine machine, Instant at, SourcePlace source) implements Serializable {
    private static final Comparator<Reading> BY_TIME = Comparator.comparing(Reading::collectedAt).thenComparing(Reading::source);

    static LatestReport of(Reading reading) {
        return new LatestReport(reading.machine(), reading.collectedAt(), reading.source());
    }

    /** Where the inventory gives a machine's memory otherwise than its latest report. */
    static List<Problem> memoryDifferences(Map<String, LatestReport> latest, SideTable<InventoryEntry> inventory) {
        return MemoryDifferences.notes(id -> latest.containsKey(id) ? latest.get(id).machine() : null, id -> latest.get(id).source(),
            inventory.values(), inventory.places());
    }

    /** By folded machine id, of packed readings of which several may show one machine. */
    static Map<String, LatestReport> ofPacked(Collection<byte[]> readings, Limits limits) {
        Map<String, LatestReport> latest = new HashMap<>();
        latest(readings.parallelStream().map(PackedReading::unpack).toList(), limits).forEach((id, reading) -> latest.put(id, LatestReport.of(reading)));
        return latest;
    }

    /** The latest reading of each machine, by its folded id; readings outside the limits show no machine. */
    static Map<String, Reading> latest(Collection<Reading> readings, Limits limits) {
        Map<String, Reading> latest = new HashMap<>();
        for (Reading reading : readings) {
            if (limits.admit(reading.collectedAt())) {
                latest.merge(DriveId.fold(reading.machine().id()), reading, (one, other) -> BY_TIME.compare(one, other) >= 0 ? one : other);
            }
        }
        return latest;
    }
}

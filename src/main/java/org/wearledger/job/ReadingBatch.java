package org.wearledger.job;

import java.io.Serializable;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongPredicate;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.ValueReader;
import org.wearledger.intake.ValueWriter;
import org.wearledger.model.DriveId;
import org.wearledger.model.Reading;
import scala.Tuple2;

/**
 * Many packed readings in one array of bytes, on their way from the tasks that read to the tasks that join, and last what the task
 * has to tell of its files. To Spark they are a few large objects, whatever the number of readings.
 *
 * @param readings one after another: the drive's hash, the length, the packed reading; {@code null} beside a tally
 * @param tally {@code null} beside readings
 */
record ReadingBatch(byte[] readings, IntakeTally tally) implements Serializable {
    private static final int FULL_BYTES = 1 << 18;
    private static final long HASH_MULTIPLIER = 0x9E3779B97F4A7C15L;

    /** Of the drive's names, the same in every process: it decides where a drive is joined and whether it is in a sample. */
    static long hash(DriveId id) {
        return (id.model().hashCode() * 31L + id.serial().hashCode()) * HASH_MULTIPLIER;
    }

    /** The readings of drives with a wanted hash. */
    List<Reading> unpacked(LongPredicate wanted) {
        List<Reading> into = new ArrayList<>();
        ValueReader in = new ValueReader(readings == null ? new byte[0] : readings);
        while (in.hasMore()) {
            if (in.begins(wanted)) {
                into.add(PackedReading.read(in));
            }
        }
        return into;
    }

    /** Sorts readings into batches by where they are joined; a full one is sent on at once, so that memory stays small. */
    static final class Sorter {
        private final ValueWriter[] open;
        private final List<Tuple2<Integer, ReadingBatch>> full = new ArrayList<>();

        /** @param targets number of tasks that join */
        Sorter(int targets) {
            open = new ValueWriter[targets];
        }

        void add(Reading reading) {
            long hash = hash(reading.drive().id());
            int target = (int) Math.floorMod(hash >>> 1, (long) open.length);
            if (open[target] == null) {
                open[target] = new ValueWriter();
            }
            int began = open[target].begin(hash);
            PackedReading.write(reading, open[target]);
            open[target].end(began);
            if (open[target].size() >= FULL_BYTES) {
                full.add(sealed(target));
            }
        }

        private Tuple2<Integer, ReadingBatch> sealed(int target) {
            Tuple2<Integer, ReadingBatch> batch = new Tuple2<>(target, new ReadingBatch(open[target].bytes(), null));
            open[target] = null;
            return batch;
        }

        /** The full batches since the last call. */
        List<Tuple2<Integer, ReadingBatch>> full() {
            List<Tuple2<Integer, ReadingBatch>> given = new ArrayList<>(full);
            full.clear();
            return given;
        }

        /** Every batch that holds something. */
        List<Tuple2<Integer, ReadingBatch>> rest() {
            for (int target = 0; target < open.length; target++) {
                if (open[target] != null) {
                    full.add(sealed(target));
                }
            }
            return full();
        }

        boolean hasFull() {
            return !full.isEmpty();
        }
    }
}

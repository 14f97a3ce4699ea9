package org.wearledger.job;

import java.io.Serializable;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongPredicate;
import org.wearledger.intake.PackedReading;
import org.wearledger.intake.ValueReader;
import org.wearledger.intake.ValueWriter;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveHistory;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Machine;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * The histories of one share of the fleet as bytes, some forty for each reading, so that each is built once and read by all that asks for
 * it. The latest reading is whole; of the others there is what assessing looks at.
 */
record KeptHistories(byte[] bytes) implements Serializable {
    private static final SourcePlace NOWHERE = new SourcePlace("", 0, "");
    private static final HealthField[] LOOKED_AT = {HealthField.CRITICAL_WARNING, HealthField.AVAILABLE_SPARE, HealthField.AVAILABLE_SPARE_THRESHOLD,
        HealthField.PERCENTAGE_USED, HealthField.POWER_ON_HOURS, HealthField.MEDIA_ERRORS};
    private static final ProblemKind[] RULES = ProblemKind.values();

    /** Which drives, by their hash. */
    interface Wanted extends LongPredicate, Serializable {
        Wanted ALL = hash -> true;
    }

    /** Writes one history after another. */
    static final class Writer {
        private final ValueWriter out = new ValueWriter();

        /** @param history {@code null} for none */
        void add(DriveHistory history) {
            if (history != null) {
                int began = out.begin(ReadingBatch.hash(history.id()));
                write(history, out);
                out.end(began);
            }
        }

        KeptHistories written() {
            return new KeptHistories(out.bytes());
        }
    }

    private static void write(DriveHistory history, ValueWriter out) {
        out.whole(history.doubts().size());
        history.doubts().forEach(doubt -> out.whole(doubt.ordinal()));
        out.whole(history.points().size());
        for (HistoryPoint point : history.points()) {
            out.whole(point.epoch());
            out.exact(point.totalBytesWritten());
            PackedReading.write(point == history.latest() ? point.reading() : lookedAt(point.reading()), out);
        }
    }

    private static Reading lookedAt(Reading reading) {
        Machine m = reading.machine();
        Health.Builder health = Health.builder();
        for (HealthField field : LOOKED_AT) {
            health.fill(field, reading.health());
        }
        return new Reading(NOWHERE, reading.collectedAt(), new Machine(m.id(), null, null, null, m.model(), null, null, m.inServiceOn(), m.userSince()),
            new Drive("", "", null, reading.drive().capacityBytes(), Attachment.UNKNOWN), health.build());
    }

    /** Those of the wanted drives, in the order of their ids. */
    List<DriveHistory> of(Wanted wanted) {
        List<DriveHistory> histories = new ArrayList<>();
        ValueReader in = new ValueReader(bytes);
        while (in.hasMore()) {
            if (in.begins(wanted)) {
                histories.add(history(in));
            }
        }
        return histories;
    }

    private static DriveHistory history(ValueReader in) {
        List<ProblemKind> doubts = new ArrayList<>();
        for (long left = in.whole(); left > 0; left--) {
            doubts.add(RULES[(int) in.whole()]);
        }
        int count = (int) in.whole();
        List<HistoryPoint> points = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            int epoch = (int) in.whole();
            BigInteger total = in.exact();
            points.add(new HistoryPoint(PackedReading.read(in), epoch, total));
        }
        return new DriveHistory(points.get(count - 1).reading().drive().id(), points, doubts);
    }
}

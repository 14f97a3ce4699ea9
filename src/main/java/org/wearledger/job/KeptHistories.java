package org.wearledger.job;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.Serializable;
import java.io.UncheckedIOException;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.List;
import java.util.function.LongPredicate;
import org.wearledger.intake.PackedReading;
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
    private static final int NOT_REPORTED = -1;
    private static final int LARGE = -2;

    /** Which drives, by their hash. */
    interface Wanted extends LongPredicate, Serializable {
        Wanted ALL = hash -> true;
    }

    /** Writes one history after another. */
    static final class Writer {
        private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        private final DataOutputStream out = new DataOutputStream(bytes);

        /** @param history {@code null} for none */
        void add(DriveHistory history) {
            if (history == null) {
                return;
            }
            try {
                out.writeLong(ReadingBatch.hash(history.id()));
                byte[] kept = packed(history);
                out.writeInt(kept.length);
                out.write(kept);
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }

        KeptHistories written() {
            return new KeptHistories(bytes.toByteArray());
        }
    }

    private static byte[] packed(DriveHistory history) throws IOException {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        DataOutputStream out = new DataOutputStream(bytes);
        out.writeByte(history.doubts().size());
        for (ProblemKind doubt : history.doubts()) {
            out.writeShort(doubt.ordinal());
        }
        out.writeInt(history.points().size());
        for (HistoryPoint point : history.points()) {
            out.writeInt(point.epoch());
            write(point.totalBytesWritten(), out);
            byte[] reading = PackedReading.pack(point == history.latest() ? point.reading() : lookedAt(point.reading()));
            out.writeInt(reading.length);
            out.write(reading);
        }
        return bytes.toByteArray();
    }

    private static void write(BigInteger total, DataOutputStream out) throws IOException {
        boolean large = total != null && total.bitLength() >= Long.SIZE;
        out.writeLong(total == null ? NOT_REPORTED : large ? LARGE : total.longValue());
        if (large) {
            out.writeUTF(total.toString());
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
        try (DataInputStream in = new DataInputStream(new ByteArrayInputStream(bytes))) {
            while (in.available() > 0) {
                boolean isWanted = wanted.test(in.readLong());
                int length = in.readInt();
                if (isWanted) {
                    histories.add(history(in));
                } else {
                    in.skipNBytes(length);
                }
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return histories;
    }

    private DriveHistory history(DataInputStream in) throws IOException {
        List<ProblemKind> doubts = new ArrayList<>();
        for (int left = in.readByte(); left > 0; left--) {
            doubts.add(RULES[in.readShort()]);
        }
        int count = in.readInt();
        List<HistoryPoint> points = new ArrayList<>(count);
        for (int i = 0; i < count; i++) {
            int epoch = in.readInt();
            long total = in.readLong();
            BigInteger exact = total == NOT_REPORTED ? null : total == LARGE ? new BigInteger(in.readUTF()) : BigInteger.valueOf(total);
            int length = in.readInt();
            points.add(new HistoryPoint(PackedReading.unpack(bytes, bytes.length - in.available(), length), epoch, exact));
            in.skipNBytes(length);
        }
        DriveId id = points.get(count - 1).reading().drive().id();
        return new DriveHistory(id, points, doubts);
    }
}

package org.wearledger.intake;

import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

/**
 * A reading as a row of some two hundred bytes, to travel between Spark's stages: its values in one order, without names. Whole numbers
 * take seven bits a byte, the lowest first (LEB128); texts stand behind their length in UTF-8.
 */
public final class PackedReading {
    private static final Attachment[] ATTACHMENTS = Attachment.values();

    private PackedReading() {
    }

    /** The reading in bytes; {@link #unpack} gives an equal one. */
    public static byte[] pack(Reading r) {
        Writer out = new Writer();
        out.text(r.source().file());
        out.text(r.source().place());
        out.whole(r.source().index());
        out.signed(r.collectedAt().getEpochSecond());
        out.whole(r.collectedAt().getNano());
        Machine m = r.machine();
        out.text(m.id());
        out.text(m.assetTag());
        out.text(m.site());
        out.text(m.costCentre());
        out.text(m.model());
        out.wholeOrNull(m.memoryBytes());
        out.wholeOrNull(m.swapUsedBytes());
        out.date(m.inServiceOn());
        out.date(m.userSince());
        Drive d = r.drive();
        out.text(d.serial());
        out.text(d.model());
        out.text(d.firmware());
        out.wholeOrNull(d.capacityBytes());
        out.whole(d.attachment().ordinal());
        out.health(r.health());
        return out.bytes();
    }

    /** What {@link #pack} was given. */
    public static Reading unpack(byte[] packed) {
        return unpack(packed, 0, packed.length);
    }

    /** What {@link #pack} was given, from {@code length} of the bytes. */
    public static Reading unpack(byte[] bytes, int from, int length) {
        Reader in = new Reader(bytes, from);
        String file = in.text();
        String place = in.text();
        SourcePlace source = new SourcePlace(file, in.whole(), place);
        Instant collectedAt = Instant.ofEpochSecond(in.signed(), in.whole());
        Machine machine = new Machine(in.text(), in.text(), in.text(), in.text(), in.text(), in.wholeOrNull(), in.wholeOrNull(), in.date(), in.date());
        Drive drive = new Drive(in.text(), in.text(), in.text(), in.wholeOrNull(), ATTACHMENTS[(int) in.whole()]);
        Reading reading = new Reading(source, collectedAt, machine, drive, in.health());
        if (in.at != from + length) {
            throw new IllegalArgumentException("a packed reading of " + length + " bytes ends at " + (in.at - from));
        }
        return reading;
    }

    private static final class Writer {
        private static final int USUAL_BYTES = 256;
        private static final int MOST_BYTES_OF_A_WHOLE = 10;
        private byte[] buffer = new byte[USUAL_BYTES];
        private int at;

        byte[] bytes() {
            return Arrays.copyOf(buffer, at);
        }

        private void ensure(int more) {
            if (buffer.length - at < more) {
                buffer = Arrays.copyOf(buffer, Math.max(2 * buffer.length, at + more));
            }
        }

        /** Unsigned. */
        void whole(long value) {
            ensure(MOST_BYTES_OF_A_WHOLE);
            long left = value;
            while ((left & ~0x7FL) != 0) {
                buffer[at++] = (byte) (left | 0x80);
                left >>>= 7;
            }
            buffer[at++] = (byte) left;
        }

        void wholeOrNull(Long value) {
            whole(value == null ? 0 : value + 1);
        }

        /** Small whatever the sign: 0, -1, 1, -2 are 0, 1, 2, 3. */
        void signed(long value) {
            whole(value << 1 ^ value >> Long.SIZE - 1);
        }

        void date(LocalDate date) {
            whole(date != null);
            if (date != null) {
                signed(date.toEpochDay());
            }
        }

        private void whole(boolean is) {
            whole(is ? 1 : 0);
        }

        /** Its length plus one, 0 for none, twice, plus one when it is UTF-8. */
        void text(String text) {
            if (text == null) {
                whole(0);
                return;
            }
            int start = at;
            int length = text.length();
            whole((length + 1L) << 1);
            ensure(length);
            for (int i = 0; i < length; i++) {
                char c = text.charAt(i);
                if (c >= 0x80) {
                    at = start;
                    byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
                    whole((utf8.length + 1L) << 1 | 1);
                    block(utf8);
                    return;
                }
                buffer[at++] = (byte) c;
            }
        }

        private void block(byte[] bytes) {
            ensure(bytes.length);
            System.arraycopy(bytes, 0, buffer, at, bytes.length);
            at += bytes.length;
        }

        /** Which fields are reported, their values, the sensors, and last the counters beyond a {@code long}. */
        void health(Health h) {
            whole(h.reported());
            int large = 0;
            for (HealthField field : HealthField.ALL) {
                if (!field.isList() && h.has(field)) {
                    whole(h.value(field));
                    large += h.isLarge(field) ? 1 : 0;
                }
            }
            whole(h.sensors());
            for (int i = 0; i < h.sensors(); i++) {
                whole(h.sensor(i));
            }
            whole(large);
            if (large > 0) {
                HealthField.ALL.stream().filter(h::isLarge).forEach(field -> {
                    whole(field.ordinal());
                    text(h.exact(field).toString());
                });
            }
        }
    }

    private static final class Reader {
        private final byte[] bytes;
        private int at;

        Reader(byte[] bytes, int from) {
            this.bytes = bytes;
            at = from;
        }

        long whole() {
            long value = 0;
            for (int shift = 0;; shift += 7) {
                byte b = bytes[at++];
                value |= (long) (b & 0x7F) << shift;
                if (b >= 0) {
                    return value;
                }
            }
        }

        Long wholeOrNull() {
            long value = whole();
            return value == 0 ? null : (Long) (value - 1);
        }

        long signed() {
            long value = whole();
            return value >>> 1 ^ -(value & 1);
        }

        LocalDate date() {
            return whole() == 0 ? null : LocalDate.ofEpochDay(signed());
        }

        String text() {
            long length = whole();
            if (length == 0) {
                return null;
            }
            int count = (int) (length >>> 1) - 1;
            at += count;
            return new String(bytes, at - count, count, (length & 1) == 0 ? StandardCharsets.ISO_8859_1 : StandardCharsets.UTF_8);
        }

        Health health() {
            Health.Builder health = Health.builder();
            int reported = (int) whole();
            for (HealthField field : HealthField.ALL) {
                if ((reported & 1 << field.ordinal()) != 0) {
                    health.set(field, whole());
                }
            }
            int[] sensors = new int[(int) whole()];
            for (int i = 0; i < sensors.length; i++) {
                sensors[i] = (int) whole();
            }
            health.sensors(sensors);
            for (long large = whole(); large > 0; large--) {
                HealthField field = HealthField.ALL.get((int) whole());
                health.set(field, new BigInteger(text()));
            }
            return health.build();
        }
    }
}

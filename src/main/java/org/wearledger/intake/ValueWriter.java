package org.wearledger.intake;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;

/**
 * Writes values one after another, without names, as a row of bytes that travels between Spark's stages. Whole numbers take seven bits a
 * byte, the lowest first (LEB128, as in the DWARF standard, 7.6); texts stand behind their length in UTF-8. {@link ValueReader} reads them
 * in the same order.
 */
public final class ValueWriter {
    private static final int USUAL_BYTES = 256;
    private static final int MOST_BYTES_OF_A_WHOLE = 10;
    private byte[] buffer = new byte[USUAL_BYTES];
    private int at;

    /** What was written. */
    public byte[] bytes() {
        return Arrays.copyOf(buffer, at);
    }

    /** Bytes written so far. */
    public int size() {
        return at;
    }

    private void ensure(int more) {
        if (buffer.length - at < more) {
            buffer = Arrays.copyOf(buffer, Math.max(2 * buffer.length, at + more));
        }
    }

    /** Begins a row that a reader may skip. Gives what {@link #end} wants. */
    public int begin(long key) {
        ensure(Long.BYTES + Integer.BYTES);
        ByteBuffer.wrap(buffer, at, Long.BYTES).putLong(key);
        at += Long.BYTES + Integer.BYTES;
        return at;
    }

    /** Ends the row that began there. */
    public void end(int began) {
        ByteBuffer.wrap(buffer, began - Integer.BYTES, Integer.BYTES).putInt(at - began);
    }

    /** Unsigned. */
    public void whole(long value) {
        ensure(MOST_BYTES_OF_A_WHOLE);
        long left = value;
        while ((left & ~0x7FL) != 0) {
            buffer[at++] = (byte) (left | 0x80);
            left >>>= 7;
        }
        buffer[at++] = (byte) left;
    }

    /** Not negative, or {@code null}. */
    public void wholeOrNull(Long value) {
        whole(value == null ? 0 : value + 1);
    }

    /** Small whatever the sign: 0, -1, 1, -2 are 0, 1, 2, 3. */
    public void signed(long value) {
        whole(value << 1 ^ value >> Long.SIZE - 1);
    }

    /** One byte. */
    public void yes(boolean is) {
        whole(is ? 1 : 0);
    }

    /** Eight bytes. */
    public void number(double value) {
        ensure(Double.BYTES);
        ByteBuffer.wrap(buffer, at, Double.BYTES).putDouble(value);
        at += Double.BYTES;
    }

    /** A number or {@code null}. */
    public void numberOrNull(Double value) {
        yes(value != null);
        if (value != null) {
            number(value);
        }
    }

    /** A day or {@code null}. */
    public void date(LocalDate date) {
        yes(date != null);
        if (date != null) {
            signed(date.toEpochDay());
        }
    }

    /** To the nanosecond. */
    public void moment(Instant moment) {
        signed(moment.getEpochSecond());
        whole(moment.getNano());
    }

    /** Not negative, of any size, or {@code null}. */
    public void exact(BigInteger value) {
        boolean large = value != null && value.bitLength() >= Long.SIZE - 1;
        whole(value == null ? 0 : large ? 1 : value.longValue() + 2);
        if (large) {
            text(value.toString());
        }
    }

    /** With its scale, or {@code null}. */
    public void decimal(BigDecimal value) {
        text(value == null ? null : value.toString());
    }

    /** A text or {@code null}: its length plus one, 0 for none, twice, plus one when it is UTF-8. */
    public void text(String text) {
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
                ensure(utf8.length);
                System.arraycopy(utf8, 0, buffer, at, utf8.length);
                at += utf8.length;
                return;
            }
            buffer[at++] = (byte) c;
        }
    }
}

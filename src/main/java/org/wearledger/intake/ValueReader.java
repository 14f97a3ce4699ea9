package org.wearledger.intake;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.util.function.LongPredicate;

/** Reads what {@link ValueWriter} wrote, in the same order. Bytes of another origin end in an exception of any kind. */
public final class ValueReader {
    private final byte[] bytes;
    private int at;

    /** From the beginning. */
    public ValueReader(byte[] bytes) {
        this.bytes = bytes;
    }

    /** Whether anything is left. */
    public boolean hasMore() {
        return at < bytes.length;
    }

    /** Bytes read or skipped so far. */
    public int at() {
        return at;
    }

    /** Whether the row that begins here is wanted by its key: then its values come next; else it is skipped. */
    public boolean begins(LongPredicate wanted) {
        ByteBuffer head = ByteBuffer.wrap(bytes, at, Long.BYTES + Integer.BYTES);
        boolean is = wanted.test(head.getLong());
        int length = head.getInt();
        at += Long.BYTES + Integer.BYTES + (is ? 0 : length);
        return is;
    }

    /** As {@link ValueWriter#whole}. */
    public long whole() {
        long value = 0;
        for (int shift = 0;; shift += 7) {
            byte b = bytes[at++];
            value |= (long) (b & 0x7F) << shift;
            if (b >= 0) {
                return value;
            }
        }
    }

    /** As {@link ValueWriter#wholeOrNull}. */
    public Long wholeOrNull() {
        long value = whole();
        return value == 0 ? null : (Long) (value - 1);
    }

    /** As {@link ValueWriter#signed}. */
    public long signed() {
        long value = whole();
        return value >>> 1 ^ -(value & 1);
    }

    /** As {@link ValueWriter#yes}. */
    public boolean yes() {
        return whole() != 0;
    }

    /** As {@link ValueWriter#number}. */
    public double number() {
        at += Double.BYTES;
        return ByteBuffer.wrap(bytes, at - Double.BYTES, Double.BYTES).getDouble();
    }

    /** As {@link ValueWriter#numberOrNull}. */
    public Double numberOrNull() {
        return yes() ? (Double) number() : null;
    }

    /** As {@link ValueWriter#date}. */
    public LocalDate date() {
        return yes() ? LocalDate.ofEpochDay(signed()) : null;
    }

    /** As {@link ValueWriter#moment}. */
    public Instant moment() {
        return Instant.ofEpochSecond(signed(), whole());
    }

    /** As {@link ValueWriter#exact}. */
    public BigInteger exact() {
        long value = whole();
        return value == 0 ? null : value == 1 ? new BigInteger(text()) : BigInteger.valueOf(value - 2);
    }

    /** As {@link ValueWriter#decimal}. */
    public BigDecimal decimal() {
        String text = text();
        return text == null ? null : new BigDecimal(text);
    }

    /** As {@link ValueWriter#text}. */
    public String text() {
        long length = whole();
        if (length == 0) {
            return null;
        }
        int count = (int) (length >>> 1) - 1;
        at += count;
        return new String(bytes, at - count, count, (length & 1) == 0 ? StandardCharsets.ISO_8859_1 : StandardCharsets.UTF_8);
    }
}

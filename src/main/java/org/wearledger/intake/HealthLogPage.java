package org.wearledger.intake;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.stream.IntStream;
import org.wearledger.model.Health;

/**
 * The raw SMART / Health Information log page: 512 bytes, every integer little-endian and unsigned. Offsets from the
 * NVM Express Base Specification 2.1, Figure 206 "SMART / Health Information Log Page" (log identifier 02h). Reserved
 * bytes are ignored, since later revisions give them a meaning.
 */
final class HealthLogPage {
    static final int LENGTH_BYTES = 512;
    private static final int COUNTER_BYTES = 16;

    private final ByteBuffer page;

    private HealthLogPage(byte[] bytes) {
        page = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    }

    /**
     * The fields as they stand, zeros included.
     *
     * @throws IllegalArgumentException when there are not exactly 512 bytes
     */
    static Health decode(byte[] bytes) {
        if (bytes.length != LENGTH_BYTES) {
            throw new IllegalArgumentException("a health log page has 512 bytes, not " + bytes.length);
        }
        HealthLogPage page = new HealthLogPage(bytes);
        return new Health(
            page.unsigned8(0), page.unsigned16(1), page.unsigned8(3), page.unsigned8(4), page.unsigned8(5), page.unsigned8(6),
            page.unsigned128(32), page.unsigned128(48), page.unsigned128(64), page.unsigned128(80),
            page.unsigned128(96), page.unsigned128(112), page.unsigned128(128), page.unsigned128(144),
            page.unsigned128(160), page.unsigned128(176),
            page.unsigned32(192), page.unsigned32(196), page.sensors(),
            page.unsigned32(216), page.unsigned32(220), page.unsigned32(224), page.unsigned32(228));
    }

    /** All 00h or all FFh: what a bridge or a virtual machine returns in place of a drive's page. */
    static boolean isWithoutData(byte[] bytes) {
        for (byte each : bytes) {
            if (each != bytes[0]) {
                return false;
            }
        }
        return bytes[0] == 0 || bytes[0] == (byte) 0xFF;
    }

    private int unsigned8(int offset) {
        return Byte.toUnsignedInt(page.get(offset));
    }

    private int unsigned16(int offset) {
        return Short.toUnsignedInt(page.getShort(offset));
    }

    private long unsigned32(int offset) {
        return Integer.toUnsignedLong(page.getInt(offset));
    }

    private BigInteger unsigned128(int offset) {
        byte[] bigEndian = new byte[COUNTER_BYTES];
        for (int i = 0; i < COUNTER_BYTES; i++) {
            bigEndian[i] = page.get(offset + COUNTER_BYTES - 1 - i);
        }
        return new BigInteger(1, bigEndian);
    }

    private List<Integer> sensors() {
        return IntStream.range(0, 8).mapToObj(i -> unsigned16(200 + 2 * i)).toList();
    }
}

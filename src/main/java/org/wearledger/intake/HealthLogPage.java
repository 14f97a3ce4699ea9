package org.wearledger.intake;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.util.Arrays;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/**
 * The raw SMART / Health Information log page: 512 bytes, every integer little-endian and unsigned. Where each
 * field stands says {@link HealthField}. Reserved bytes are ignored, since later revisions give them a meaning.
 */
final class HealthLogPage {
    static final int LENGTH_BYTES = 512;

    private HealthLogPage() {
    }

    /**
     * The fields as they stand, zeros included.
     *
     * @throws IllegalArgumentException when there are not exactly 512 bytes
     */
    static Health.Builder decode(byte[] page) {
        if (page.length != LENGTH_BYTES) {
            throw new IllegalArgumentException("a health log page has 512 bytes, not " + page.length);
        }
        Health.Builder health = Health.builder();
        for (HealthField field : HealthField.ALL) {
            if (field.isList()) {
                int[] kelvins = new int[HealthField.MOST_SENSORS];
                Arrays.setAll(kelvins, i -> (int) unsigned(page, field.offset() + HealthField.SENSOR_BYTES * i, HealthField.SENSOR_BYTES));
                health.sensors(kelvins);
            } else if (field.isCounter()) {
                counter(page, field, health);
            } else {
                health.set(field, unsigned(page, field.offset(), field.bytes()));
            }
        }
        return health;
    }

    private static void counter(byte[] page, HealthField field, Health.Builder health) {
        long low = unsigned(page, field.offset(), Long.BYTES);
        long high = unsigned(page, field.offset() + Long.BYTES, Long.BYTES);
        if (high == 0 && low >= 0) {
            health.set(field, low);
        } else {
            health.set(field, new BigInteger(1, ByteBuffer.allocate(2 * Long.BYTES).putLong(high).putLong(low).array()));
        }
    }

    private static long unsigned(byte[] page, int offset, int bytes) {
        long value = 0;
        for (int i = bytes - 1; i >= 0; i--) {
            value = value << Byte.SIZE | Byte.toUnsignedInt(page[offset + i]);
        }
        return value;
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
}

package org.wearledger.simulate;

import java.util.Base64;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

/**
 * Lays a complete {@link Health} out as the raw 512-byte page (NVM Express Base Specification, "SMART / Health
 * Information", log identifier 02h; little-endian).
 */
final class LogPage {
    static final int LENGTH_BYTES = 512;

    private LogPage() {
    }

    static byte[] encode(Health h) {
        byte[] page = new byte[LENGTH_BYTES];
        for (HealthField field : HealthField.ALL) {
            if (!field.isList()) {
                // The sample's counters stay below 2^63, so the upper eight of their sixteen bytes stay zero.
                put(page, field.offset(), Math.min(field.bytes(), Long.BYTES), h.value(field));
            }
        }
        for (int i = 0; i < h.sensors(); i++) {
            put(page, HealthField.TEMPERATURE_SENSORS.offset() + HealthField.SENSOR_BYTES * i, HealthField.SENSOR_BYTES, h.sensor(i));
        }
        return page;
    }

    private static void put(byte[] page, int offset, int bytes, long value) {
        for (int i = 0; i < bytes; i++) {
            page[offset + i] = (byte) (value >>> Byte.SIZE * i);
        }
    }

    static String base64(byte[] page) {
        return Base64.getEncoder().encodeToString(page);
    }
}

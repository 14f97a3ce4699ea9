package org.wearledger.simulate;

import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.Base64;
import org.wearledger.model.Health;

/**
 * Lays a complete {@link Health} out as the raw 512-byte page (NVM Express Base Specification, "SMART / Health
 * Information", log identifier 02h; little-endian).
 */
final class LogPage {
    static final int LENGTH_BYTES = 512;
    private static final int FIRST_COUNTER_OFFSET = 32;
    private static final int COUNTER_BYTES = 16;
    private static final int FIRST_SENSOR_OFFSET = 200;

    private LogPage() {
    }

    static byte[] encode(Health h) {
        ByteBuffer page = ByteBuffer.allocate(LENGTH_BYTES).order(ByteOrder.LITTLE_ENDIAN);
        page.put(0, h.criticalWarning().byteValue());
        page.putShort(1, h.compositeTemperatureKelvin().shortValue());
        page.put(3, h.availableSparePercent().byteValue());
        page.put(4, h.availableSpareThresholdPercent().byteValue());
        page.put(5, h.percentageUsed().byteValue());
        page.put(6, h.enduranceGroupCriticalWarningSummary().byteValue());
        int offset = FIRST_COUNTER_OFFSET;
        for (BigInteger counter : new BigInteger[] {h.dataUnitsRead(), h.dataUnitsWritten(), h.hostReadCommands(),
            h.hostWriteCommands(), h.controllerBusyMinutes(), h.powerCycles(), h.powerOnHours(), h.unsafeShutdowns(),
            h.mediaAndDataIntegrityErrors(), h.errorLogEntries()}) {
            // The sample's counters stay below 2^63, so the upper eight of the sixteen bytes stay zero.
            page.putLong(offset, counter.longValueExact());
            offset += COUNTER_BYTES;
        }
        page.putInt(192, h.warningTemperatureMinutes().intValue());
        page.putInt(196, h.criticalTemperatureMinutes().intValue());
        for (int i = 0; i < h.temperatureSensorsKelvin().size(); i++) {
            page.putShort(FIRST_SENSOR_OFFSET + 2 * i, h.temperatureSensorsKelvin().get(i).shortValue());
        }
        page.putInt(216, h.thermalManagement1Transitions().intValue());
        page.putInt(220, h.thermalManagement2Transitions().intValue());
        page.putInt(224, h.thermalManagement1Seconds().intValue());
        page.putInt(228, h.thermalManagement2Seconds().intValue());
        return page.array();
    }

    static String base64(byte[] page) {
        return Base64.getEncoder().encodeToString(page);
    }
}

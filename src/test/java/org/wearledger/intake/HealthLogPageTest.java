package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.Health;

/** Offsets and units: NVM Express Base Specification 2.1, Figure 206 (log identifier 02h). */
class HealthLogPageTest {
    /** A page of zeros with {@code hex} written at {@code offset}. */
    private static byte[] page(int offset, String hex) {
        byte[] page = new byte[512];
        byte[] part = HexFormat.of().parseHex(hex.replace(" ", ""));
        System.arraycopy(part, 0, page, offset, part.length);
        return page;
    }

    @ParameterizedTest(name = "{0} is {1} data units, {2} bytes")
    @CsvSource({
        "01, 1, 512000",
        "0000000001, 4294967296, 2199023255552000",
        "0000000000000080, 9223372036854775808, 4722366482869645213696000",
        "ffffffffffffffff, 18446744073709551615, 9444732965739290426880000",
        "000000000000000001, 18446744073709551616, 9444732965739290427392000",
        "ffffffffffffffffffffffffffffffff, 340282366920938463463374607431768211455, 174224571863520493293247799005065324264960000",
        "ff277512, 309667839, 158549933568000",
        "05cd1d, 1953029, 999950848000",
        "65cd1d, 1953125, 1000000000000",
        "7817d945, 1171855224, 599989874688000",
    })
    void dataUnitsWrittenAreLittleEndianAndUnsigned(String hex, BigInteger dataUnits, BigInteger bytes) {
        Health health = HealthLogPage.decode(page(48, hex));
        assertThat(health.dataUnitsWritten()).isEqualTo(dataUnits);
        assertThat(health.bytesWritten()).isEqualTo(bytes);
    }

    @Test
    void sixHundredTerabytesAreExactly1171875000DataUnits() {
        assertThat(new BigInteger("600000000000000").divideAndRemainder(Health.BYTES_PER_DATA_UNIT))
            .containsExactly(BigInteger.valueOf(1_171_875_000), BigInteger.ZERO);
    }

    @Test
    void eachFieldStandsAtItsOffset() {
        byte[] page = new byte[512];
        for (int i = 0; i < 512; i++) {
            page[i] = (byte) (i % 251 + 1);
        }
        Health h = HealthLogPage.decode(page);
        assertThat(h.criticalWarning()).isEqualTo(1);
        assertThat(h.compositeTemperatureKelvin()).isEqualTo(0x0302);
        assertThat(List.of(h.availableSparePercent(), h.availableSpareThresholdPercent(), h.percentageUsed(),
            h.enduranceGroupCriticalWarningSummary())).containsExactly(4, 5, 6, 7);
        assertThat(h.dataUnitsRead()).isEqualTo(counterAt(32));
        assertThat(h.dataUnitsWritten()).isEqualTo(counterAt(48));
        assertThat(h.hostReadCommands()).isEqualTo(counterAt(64));
        assertThat(h.hostWriteCommands()).isEqualTo(counterAt(80));
        assertThat(h.controllerBusyMinutes()).isEqualTo(counterAt(96));
        assertThat(h.powerCycles()).isEqualTo(counterAt(112));
        assertThat(h.powerOnHours()).isEqualTo(counterAt(128));
        assertThat(h.unsafeShutdowns()).isEqualTo(counterAt(144));
        assertThat(h.mediaAndDataIntegrityErrors()).isEqualTo(counterAt(160));
        assertThat(h.errorLogEntries()).isEqualTo(counterAt(176));
        assertThat(h.warningTemperatureMinutes()).isEqualTo(0xC4C3C2C1L);
        assertThat(h.criticalTemperatureMinutes()).isEqualTo(0xC8C7C6C5L);
        assertThat(h.temperatureSensorsKelvin()).hasSize(8).startsWith(0xCAC9).endsWith(0xD8D7);
        assertThat(h.thermalManagement1Transitions()).isEqualTo(0xDCDBDAD9L);
        assertThat(h.thermalManagement2Transitions()).isEqualTo(0xE0DFDEDDL);
        assertThat(h.thermalManagement1Seconds()).isEqualTo(0xE4E3E2E1L);
        assertThat(h.thermalManagement2Seconds()).isEqualTo(0xE8E7E6E5L);
    }

    private static BigInteger counterAt(int offset) {
        StringBuilder hex = new StringBuilder();
        for (int i = offset + 15; i >= offset; i--) {
            hex.append(HexFormat.of().toHexDigits((byte) (i % 251 + 1)));
        }
        return new BigInteger(hex.toString(), 16);
    }

    @Test
    void theOneByteFieldsAreUnsigned() {
        Health h = HealthLogPage.decode(page(0, "ff 0000 64 0a ff"));
        assertThat(h.criticalWarning()).isEqualTo(255);
        assertThat(h.percentageUsed()).isEqualTo(255);
    }

    @Test
    void reservedBytesChangeNothing() {
        byte[] page = page(48, "ff277512");
        Health before = HealthLogPage.decode(page);
        Arrays.fill(page, 7, 32, (byte) 0xA5);
        Arrays.fill(page, 232, 512, (byte) 0xA5);
        assertThat(HealthLogPage.decode(page)).isEqualTo(before);
    }

    @Test
    void pagesOfOneValueThroughoutCarryNoData() {
        byte[] ones = new byte[512];
        Arrays.fill(ones, (byte) 0xFF);
        assertThat(HealthLogPage.isWithoutData(new byte[512])).isTrue();
        assertThat(HealthLogPage.isWithoutData(ones)).isTrue();
        assertThat(HealthLogPage.isWithoutData(page(5, "01"))).isFalse();
        assertThat(HealthLogPage.decode(new byte[512]).dataUnitsWritten()).isZero();
        assertThat(HealthLogPage.decode(ones).percentageUsed()).isEqualTo(255);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 511, 513, 4096})
    void anyOtherLengthIsRefused(int length) {
        assertThatThrownBy(() -> HealthLogPage.decode(new byte[length]))
            .hasMessage("a health log page has 512 bytes, not " + length);
    }
}

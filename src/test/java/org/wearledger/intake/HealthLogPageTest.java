package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigInteger;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
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

    /**
     * Offsets by a second source: {@code offsetof} over {@code struct nvme_smart_log} in include/linux/nvme.h of Linux 6.1.170 (Debian
     * linux-headers-6.1.0-47-common), compiled with the kernel's types __u8, __le16, __le32; its {@code sizeof} is 512.
     */
    @ParameterizedTest(name = "{0} at {1}")
    @CsvSource({"critical_warning, 0", "temperature, 1", "avail_spare, 3", "spare_thresh, 4", "percent_used, 5", "endu_grp_crit_warn_sumry, 6",
        "data_units_read, 32", "data_units_written, 48", "host_reads, 64", "host_writes, 80", "ctrl_busy_time, 96", "power_cycles, 112",
        "power_on_hours, 128", "unsafe_shutdowns, 144", "media_errors, 160", "num_err_log_entries, 176", "warning_temp_time, 192",
        "critical_comp_time, 196", "temp_sensor, 200", "thm_temp1_trans_count, 216", "thm_temp2_trans_count, 220", "thm_temp1_total_time, 224",
        "thm_temp2_total_time, 228"})
    void aKernelHeaderHasTheSameOffsets(String member, int offset) {
        Health h = HealthLogPage.decode(page(offset, "01"));
        Map<String, Number> fields = new HashMap<>();
        fields.put("critical_warning", h.criticalWarning());
        fields.put("temperature", h.compositeTemperatureKelvin());
        fields.put("avail_spare", h.availableSparePercent());
        fields.put("spare_thresh", h.availableSpareThresholdPercent());
        fields.put("percent_used", h.percentageUsed());
        fields.put("endu_grp_crit_warn_sumry", h.enduranceGroupCriticalWarningSummary());
        fields.put("data_units_read", h.dataUnitsRead());
        fields.put("data_units_written", h.dataUnitsWritten());
        fields.put("host_reads", h.hostReadCommands());
        fields.put("host_writes", h.hostWriteCommands());
        fields.put("ctrl_busy_time", h.controllerBusyMinutes());
        fields.put("power_cycles", h.powerCycles());
        fields.put("power_on_hours", h.powerOnHours());
        fields.put("unsafe_shutdowns", h.unsafeShutdowns());
        fields.put("media_errors", h.mediaAndDataIntegrityErrors());
        fields.put("num_err_log_entries", h.errorLogEntries());
        fields.put("warning_temp_time", h.warningTemperatureMinutes());
        fields.put("critical_comp_time", h.criticalTemperatureMinutes());
        fields.put("temp_sensor", h.temperatureSensorsKelvin().get(0));
        fields.put("thm_temp1_trans_count", h.thermalManagement1Transitions());
        fields.put("thm_temp2_trans_count", h.thermalManagement2Transitions());
        fields.put("thm_temp1_total_time", h.thermalManagement1Seconds());
        fields.put("thm_temp2_total_time", h.thermalManagement2Seconds());
        assertThat(fields.entrySet().stream().filter(field -> field.getValue().longValue() != 0).map(Map.Entry::getKey)).containsExactly(member);
        assertThat(fields.get(member).longValue()).isEqualTo(1);
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

package org.wearledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.entry;

import java.math.BigInteger;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;

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
        Health health = decode(page(48, hex));
        assertThat(health.exact(HealthField.DATA_UNITS_WRITTEN)).isEqualTo(dataUnits);
        assertThat(health.dataUnitsWritten()).isEqualTo(dataUnits.min(BigInteger.valueOf(Long.MAX_VALUE)).longValue());
        assertThat(health.bytesWritten()).isEqualTo(bytes);
    }

    @Test
    void sixHundredTerabytesAreExactly1171875000DataUnits() {
        assertThat(new BigInteger("600000000000000").divideAndRemainder(Health.BYTES_PER_DATA_UNIT))
            .containsExactly(BigInteger.valueOf(1_171_875_000), BigInteger.ZERO);
    }

    /** First and last byte as Figure 206 has them. */
    @ParameterizedTest(name = "{0} is bytes {1} to {2}")
    @CsvSource({"criticalWarning, 0, 0", "compositeTemperatureKelvin, 1, 2", "availableSparePercent, 3, 3", "availableSpareThresholdPercent, 4, 4",
        "percentageUsed, 5, 5", "enduranceGroupCriticalWarningSummary, 6, 6", "dataUnitsRead, 32, 47", "dataUnitsWritten, 48, 63",
        "hostReadCommands, 64, 79", "hostWriteCommands, 80, 95", "controllerBusyMinutes, 96, 111", "powerCycles, 112, 127", "powerOnHours, 128, 143",
        "unsafeShutdowns, 144, 159", "mediaAndDataIntegrityErrors, 160, 175", "errorLogEntries, 176, 191", "warningTemperatureMinutes, 192, 195",
        "criticalTemperatureMinutes, 196, 199", "temperatureSensorsKelvin, 200, 215", "thermalManagement1Transitions, 216, 219",
        "thermalManagement2Transitions, 220, 223", "thermalManagement1Seconds, 224, 227", "thermalManagement2Seconds, 228, 231"})
    void eachFieldStandsAtItsBytes(String name, int first, int last) {
        HealthField field = field(name);
        assertThat(field.offset()).isEqualTo(first);
        assertThat(field.bytes()).isEqualTo(last - first + 1);
        Map<String, String> lowest = notZero(page(first, "01"));
        Map<String, String> highest = notZero(page(last, "01"));
        if (field.isList()) {
            assertThat(lowest).containsExactly(entry(name, "[1, 0, 0, 0, 0, 0, 0, 0]"));
            assertThat(highest).containsExactly(entry(name, "[0, 0, 0, 0, 0, 0, 0, 256]"));
        } else {
            assertThat(lowest).containsExactly(entry(name, "1"));
            assertThat(highest).containsExactly(entry(name, BigInteger.ONE.shiftLeft(8 * (last - first)).toString()));
        }
    }

    @Test
    void theTableHasTheFieldsInTheOrderOfThePageAndNoByteTwice() {
        int from = 0;
        for (HealthField field : HealthField.ALL) {
            assertThat(field.offset()).as(field.ownName()).isGreaterThanOrEqualTo(from);
            from = field.offset() + field.bytes();
        }
        assertThat(from).isEqualTo(232);
    }

    private static HealthField field(String name) {
        return HealthField.ALL.stream().filter(each -> each.ownName().equals(name)).findFirst().orElseThrow();
    }

    private static Map<String, String> notZero(byte[] page) {
        Map<String, String> fields = new TreeMap<>(decode(page).inWords());
        fields.values().removeIf(value -> value.equals("0") || value.equals(List.of(0, 0, 0, 0, 0, 0, 0, 0).toString()));
        return fields;
    }

    private static Health decode(byte[] page) {
        return HealthLogPage.decode(page).build();
    }

    /**
     * Offsets by a second source: {@code offsetof} over {@code struct nvme_smart_log} in include/linux/nvme.h of Linux 6.1.170 (Debian
     * linux-headers-6.1.0-47-common), compiled with the kernel's types __u8, __le16, __le32; its {@code sizeof} is 512.
     */
    @ParameterizedTest(name = "{0} at {2}")
    @CsvSource({"critical_warning, criticalWarning, 0", "temperature, compositeTemperatureKelvin, 1", "avail_spare, availableSparePercent, 3",
        "spare_thresh, availableSpareThresholdPercent, 4", "percent_used, percentageUsed, 5",
        "endu_grp_crit_warn_sumry, enduranceGroupCriticalWarningSummary, 6", "data_units_read, dataUnitsRead, 32",
        "data_units_written, dataUnitsWritten, 48", "host_reads, hostReadCommands, 64", "host_writes, hostWriteCommands, 80",
        "ctrl_busy_time, controllerBusyMinutes, 96", "power_cycles, powerCycles, 112", "power_on_hours, powerOnHours, 128",
        "unsafe_shutdowns, unsafeShutdowns, 144", "media_errors, mediaAndDataIntegrityErrors, 160",
        "num_err_log_entries, errorLogEntries, 176", "warning_temp_time, warningTemperatureMinutes, 192",
        "critical_comp_time, criticalTemperatureMinutes, 196", "temp_sensor, temperatureSensorsKelvin, 200",
        "thm_temp1_trans_count, thermalManagement1Transitions, 216", "thm_temp2_trans_count, thermalManagement2Transitions, 220",
        "thm_temp1_total_time, thermalManagement1Seconds, 224", "thm_temp2_total_time, thermalManagement2Seconds, 228"})
    void aKernelHeaderHasTheSameOffsets(String member, String name, int offset) {
        assertThat(notZero(page(offset, "01"))).containsOnlyKeys(name);
    }

    @Test
    void theOneByteFieldsAreUnsigned() {
        Health h = decode(page(0, "ff 0000 64 0a ff"));
        assertThat(h.criticalWarning()).isEqualTo(255);
        assertThat(h.percentageUsed()).isEqualTo(255);
    }

    @Test
    void reservedBytesChangeNothing() {
        byte[] page = page(48, "ff277512");
        Health before = decode(page);
        Arrays.fill(page, 7, 32, (byte) 0xA5);
        Arrays.fill(page, 232, 512, (byte) 0xA5);
        assertThat(decode(page)).isEqualTo(before);
    }

    @Test
    void pagesOfOneValueThroughoutCarryNoData() {
        byte[] ones = new byte[512];
        Arrays.fill(ones, (byte) 0xFF);
        assertThat(HealthLogPage.isWithoutData(new byte[512])).isTrue();
        assertThat(HealthLogPage.isWithoutData(ones)).isTrue();
        assertThat(HealthLogPage.isWithoutData(page(5, "01"))).isFalse();
        assertThat(decode(new byte[512]).dataUnitsWritten()).isZero();
        assertThat(decode(ones).percentageUsed()).isEqualTo(255);
    }

    @ParameterizedTest
    @ValueSource(ints = {0, 511, 513, 4096})
    void anyOtherLengthIsRefused(int length) {
        assertThatThrownBy(() -> HealthLogPage.decode(new byte[length]))
            .hasMessage("a health log page has 512 bytes, not " + length);
    }
}

package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigInteger;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.wearledger.model.Attachment;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Machine;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;
import org.wearledger.report.ProblemWords;

/**
 * Every rule exactly at its threshold and one step beyond. A reading is written as its moment and its figures: written and read in
 * data units, reads and writes in commands, hours, cycles, used in percent, capacity in data units, firmware.
 */
class HistoryBoundsTest {
    private static final Limits LIMITS = new Limits(Instant.parse("2026-01-01T00:00:00Z"), null);

    /** 28 days are 672 hours; 24 more may pass under power. Below 100 hours a place among earlier readings is chance. */
    @ParameterizedTest(name = "{0}: {1}, kept {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=500 cycles=50; 2025-03-01 hours=1196 cycles=101 | COUNTER_WENT_BACK | 3
        2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=500 cycles=50; 2025-03-01 hours=1197 cycles=101 | READING_OUT_OF_ORDER | 2
        2025-01-01 hours=1000 written=100; 2025-02-01 hours=500 written=50; 2025-03-01 hours=1197 written=101 | READING_OUT_OF_ORDER | 2
        2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=500 cycles=100; 2025-03-01 hours=1197 cycles=101 | COUNTER_WENT_BACK CLOCK_DOUBTFUL | 3
        2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=500 cycles=50; 2025-02-11 hours=900 cycles=90 | COUNTER_WENT_BACK CLOCK_DOUBTFUL | 3
        2024-10-01 hours=100 cycles=10; 2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=100 cycles=20; 2025-04-01 hours=1100 cycles=110 | READING_OUT_OF_ORDER | 3
        2024-10-01 hours=90 cycles=10; 2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=99 cycles=20; 2025-04-01 hours=1100 cycles=110 | COUNTER_WENT_BACK | 4
        2024-10-01 hours=99 cycles=10; 2025-01-01 hours=1000 cycles=100; 2025-02-01 hours=150 cycles=20; 2025-04-01 hours=1100 cycles=110 | COUNTER_WENT_BACK | 4
        """)
    void order(String readings, String kinds, int kept) {
        assertBuilds(readings, kinds, kept);
    }

    /** Exchanged, both counters must go on or stand. */
    @ParameterizedTest(name = "{0}: {1}, kept {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-01-01 read=1000 written=500; 2025-02-01 read=500 written=1000 | READ_WRITTEN_EXCHANGED | 1
        2025-01-01 read=1000 written=500; 2025-02-01 read=499 written=1000 | | 2
        2025-01-01 read=1000 written=500; 2025-02-01 read=500 written=999 | | 2
        2025-01-01 read=500 written=1000; 2025-02-01 read=1100 written=600 | READ_WRITTEN_EXCHANGED | 1
        2025-01-01 read=1000 written=1000; 2025-02-01 read=1000 written=1000 | | 2
        2025-01-01 read=1000 written=500; 2025-02-01 read=1100 written=600 | | 2
        2025-01-01 read=1000; 2025-02-01 written=500; 2025-03-01 read=1100 written=600 | | 3
        """)
    void exchangedCounters(String readings, String kinds, int kept) {
        assertBuilds(readings, kinds, kept);
    }

    /** 120 seconds after the first specification; 62,500 data units, 1e8 commands and one cycle a second are the most. */
    @ParameterizedTest(name = "{0} {1} are the most")
    @CsvSource({"read, 7500000", "reads, 12000000000", "writes, 12000000000", "busy, 2", "cycles, 120", "unsafe, 120", "media, 12000000000", "log, 12000000000"})
    void countersOfTheFirstMinutes(String counter, long most) {
        assertBuilds("2011-01-01T00:02:00Z " + counter + "=" + most, null, 1);
        assertBuilds("2011-01-01T00:02:00Z " + counter + "=" + (most + 1), "COUNTER_DOUBTFUL", 1);
    }

    @ParameterizedTest(name = "{0} {1}: {2}")
    @CsvSource({"hours, 65534, ", "hours, 65535, COUNTER_TRUNCATED", "hours, 65536, ", "writes, 65535, COUNTER_TRUNCATED", "writes, 2147483647, COUNTER_TRUNCATED",
        "writes, 2147483646, ", "writes, 4294967295, COUNTER_TRUNCATED", "written, 65535, COUNTER_TRUNCATED", "written, 65536, ", "written, 255, "})
    void countersAtTheEndOfTheirWidth(String counter, long value, String kinds) {
        assertBuilds("2025-01-01 " + counter + "=" + value, kinds, 1);
    }

    /** The last tenth of 8, 16 and 32 bits begins at 231, 58,983 and 3,865,470,567. */
    @ParameterizedTest(name = "{0} falls from {1}: {2}")
    @CsvSource({"hours, 230, COUNTER_WENT_BACK", "hours, 231, COUNTER_TRUNCATED", "hours, 256, COUNTER_WENT_BACK", "hours, 58982, COUNTER_WENT_BACK",
        "hours, 58983, COUNTER_TRUNCATED", "written, 3865470566, FALL_DOUBTFUL", "written, 3865470567, COUNTER_TRUNCATED"})
    void countersThatRunOverTheirWidth(String counter, long from, String kind) {
        assertBuilds("2025-01-01 cycles=7 " + counter + "=" + from + "; 2025-02-01 cycles=8 " + counter + "=100", kind, 2);
        assertBuilds("2025-01-01 " + counter + "=" + from + "; 2025-02-01 " + counter + "=100", counter.equals("written") ? "RESET_UNCONFIRMED" : "COUNTER_WENT_BACK", 2);
    }

    /** 5 to 30,000 writes of the capacity in a whole life; without a capacity 120 GB, 234,375 data units, stand for the least. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        used=20 capacity=1000000 written=1000000 |
        used=20 capacity=1000000 written=999999 | WRITTEN_CONTRADICTS_USED
        used=5 capacity=1000000 written=250000 |
        used=5 capacity=1000000 written=249999 | WRITTEN_CONTRADICTS_USED
        used=4 capacity=1000000 written=1 |
        used=254 capacity=1000000 written=12700000 |
        used=254 capacity=1000000 written=12699999 | WRITTEN_CONTRADICTS_USED
        used=255 capacity=1000000 written=1 | PERCENTAGE_USED_AT_LIMIT
        used=20 written=234375 |
        used=20 written=234374 | WRITTEN_CONTRADICTS_USED
        used=20 capacity=0 written=234375 |
        used=20 capacity=0 written=234374 | WRITTEN_CONTRADICTS_USED
        used=0 capacity=1000000 written=300000000 |
        used=0 capacity=1000000 written=300000001 | WRITTEN_CONTRADICTS_USED
        used=0 capacity=0 written=300000001 |
        used=0 written=300000001 |
        used=254 capacity=1000000 written=76500000001 | WRITTEN_CONTRADICTS_USED
        used=255 capacity=1000000 written=76800000001 | PERCENTAGE_USED_AT_LIMIT
        """)
    void writtenAgainstUsed(String figures, String kinds) {
        assertBuilds("2025-01-01 " + figures, kinds, 1);
    }

    /** One percent is enough; what fell with a counter, without a write or an hour, or under a new firmware is no doubt. */
    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource(delimiter = '|', textBlock = """
        used=4 written=100; used=3 written=101 | PERCENTAGE_USED_FELL
        used=4 written=100; used=4 written=101 |
        used=4 written=100; used=3 written=100 |
        used=4 written=100 hours=7; used=3 written=100 hours=8 | PERCENTAGE_USED_FELL
        used=4 hours=7; used=3 hours=8 | PERCENTAGE_USED_FELL
        used=4 hours=7; used=3 hours=7 |
        used=4; used=3 |
        used=4 written=100; used=1 written=99 | FALL_DOUBTFUL
        used=4 written=100 cycles=9; used=1 written=101 cycles=8 | COUNTER_WENT_BACK
        used=4 written=100; written=101; used=3 written=102 | PERCENTAGE_USED_FELL
        used=4 written=100; written=99; used=3 written=102 | FALL_DOUBTFUL PERCENTAGE_USED_FELL
        used=4 written=100; used=3 written=101; used=2 written=102 | PERCENTAGE_USED_FELL
        used=4 written=100 firmware=1; used=3 written=101 firmware=2 |
        used=4 written=100 firmware=1; used=3 written=101 firmware=1 | PERCENTAGE_USED_FELL
        used=4 written=100 firmware=1; used=3 written=101 | PERCENTAGE_USED_FELL
        """)
    void aPercentageUsedThatFalls(String figures, String kinds) {
        String[] each = figures.split("; ");
        List<String> readings = IntStream.range(0, each.length).mapToObj(i -> "2025-0" + (i + 1) + "-01 " + each[i]).toList();
        assertBuilds(String.join("; ", readings), kinds, each.length);
    }

    /** The mean of 1 command is its data units x 512,000 bytes; 4 to 512 KiB is a common size. */
    @ParameterizedTest(name = "{0} data units: {1}")
    @CsvSource({"4095, ", "4096, bytes", "524288, bytes", "524289, ", "1024, sectors of 512 bytes", "1025, ", "17, sectors of 512 bytes"})
    void theUnitOfADoubtfulMeanWrite(long written, String unit) {
        assertThat(assertBuilds("2025-01-01 writes=1 written=" + written, "UNITS_DOUBTFUL", 1)).singleElement().satisfies(found ->
            assertThat(found).endsWith(unit == null ? " data units over 1 write commands" : "; taken as " + unit + " it would be of common size"));
    }

    /** Compared unrounded: 511.995 and 8,388,608.04 bytes would be on the bound to one place. */
    @ParameterizedTest(name = "{0} data units in {1} commands: {2}")
    @CsvSource({"100, 100000, ", "100, 100001, 511.9", "209715200, 12800000, ", "209715201, 12800000, 8388608.1"})
    void aMeanWriteJustOutsideItsBounds(long written, long writes, String mean) {
        List<String> found = assertBuilds("2025-01-01 writes=" + writes + " written=" + written, mean == null ? null : "UNITS_DOUBTFUL", 1);
        assertThat(found).allSatisfy(words -> assertThat(words).startsWith("the mean write is " + mean + " bytes: "));
    }

    /** A capacity of 0 is none: the smallest drive's stands in, and the sentence says so. */
    @ParameterizedTest(name = "capacity {0}")
    @CsvSource({"capacity=1000000, on a drive of 512 GB", "capacity=0, on a drive of unknown capacity", "'', on a drive of unknown capacity"})
    void theCapacityThatWritesAreHeldAgainst(String capacity, String words) {
        assertThat(assertBuilds("2025-01-01 used=20 written=200000 " + capacity, "WRITTEN_CONTRADICTS_USED", 1))
            .containsExactly("0.102 TB written at 20 % used " + words);
    }

    /** 20 writes of a capacity of 1,000,000 data units within a day are 20,000,000; what is set aside last is in another unit or too much. */
    @ParameterizedTest(name = "{0}: {1}, kept {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=51199999 | IMPLAUSIBLE_INCREASE LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=51200000 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=76800000 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=76800001 | IMPLAUSIBLE_INCREASE LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=20000; 2025-01-02 capacity=1000000 written=20020000 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=20000; 2025-01-02 capacity=1000000 written=20020001 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 written=300000; 2025-01-02 written=312800000 | INCREASE_DOUBTFUL | 2
        2025-01-01 written=300000; 2025-01-02 written=312800001 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=0 written=300000; 2025-01-02 capacity=0 written=312800000 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=0 written=300000; 2025-01-02 capacity=0 written=312800001 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1 written=64; 2025-01-02 capacity=1 written=32000 | CAPACITY_DOUBTFUL UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1 written=32000 hours=7; 2025-01-02 capacity=1 written=64 hours=8 | CAPACITY_DOUBTFUL UNIT_CHANGED | 1
        2025-01-01 capacity=1000000 written=1000 writes=1000; 2025-01-02 capacity=1000000 written=1025000 writes=63500 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=1000 writes=1000; 2025-01-02 capacity=1000000 written=1025000 writes=63499 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=20000 writes=0; 2025-01-02 capacity=1000000 written=20010000 writes=0 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=2000 writes=2000000; 2025-01-02 capacity=1000000 written=2000000 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=2000 writes=2000001; 2025-01-02 capacity=1000000 written=2000000 | UNIT_CHANGED | 1
        2025-01-01 capacity=1000000 written=2000 writes=9000000; 2025-01-02 capacity=1000000 written=2000000 | UNIT_CHANGED | 1
        2025-01-01 capacity=1000000 written=100000 hours=20; 2025-01-31 capacity=1000000 written=100000000 hours=24 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=100000 hours=20; 2025-01-31 capacity=1000000 written=100000001 hours=24 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=1000 used=20; 2025-01-02 capacity=1000000 written=1000000 used=20 | UNIT_CHANGED | 1
        2025-01-01 capacity=1000000 written=1000 used=4; 2025-01-02 capacity=1000000 written=1000000 used=4 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=300000 used=0; 2025-01-31 capacity=1000000 written=300000000 used=0 | INCREASE_DOUBTFUL | 2
        2025-01-01 capacity=1000000 written=300000 used=0; 2025-01-31 capacity=1000000 written=300000001 used=0 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        """)
    void risesOfAnotherUnit(String readings, String kinds, int kept) {
        assertBuilds(readings, kinds, kept);
    }

    /** A fall by the ratio of two units is another unit, unless a counter beside it fell too. */
    @ParameterizedTest(name = "{0}: {1}, kept {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2025-01-01 written=51200000 hours=10; 2025-01-02 written=101 hours=10 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 written=51200000 hours=10; 2025-01-02 written=101 hours=9 | COUNTER_WENT_BACK | 2
        2025-01-01 written=51200000 cycles=10; 2025-01-02 written=101 cycles=10 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 written=51200000 cycles=10; 2025-01-02 written=101 cycles=9 | RESET_UNCONFIRMED | 2
        2025-01-01 written=51200000 writes=20000000; 2025-01-02 written=101 writes=1000 | RESET_UNCONFIRMED | 2
        2025-01-01 written=51200000 writes=1000; 2025-01-02 written=101 writes=1000 | UNIT_CHANGED | 1
        2025-01-01 written=51200000; 2025-01-02 written=101 | UNIT_CHANGED LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 written=51200000 used=40; 2025-01-02 written=101 used=0 | RESET_UNCONFIRMED | 2
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=52000000; 2025-01-03 capacity=1000000 written=150 | UNIT_CHANGED | 2
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=51200000; 2025-01-03 capacity=1000000 written=100 | UNIT_CHANGED | 2
        2025-01-01 capacity=1000000 written=100; 2025-01-02 capacity=1000000 written=52000000; 2025-01-03 capacity=1000000 written=151 | UNIT_CHANGED | 2
        """)
    void fallsToAnotherUnit(String readings, String kinds, int kept) {
        assertBuilds(readings, kinds, kept);
    }

    /** 16 seconds after the first specification the fastest link has carried 1,000,000 data units. An epoch is set aside for no increase. */
    @ParameterizedTest(name = "{0}: {1}, kept {2}")
    @CsvSource(delimiter = '|', textBlock = """
        2011-01-01T00:00:16Z written=1000000 | | 1
        2011-01-01T00:00:16Z written=1000001 | COUNTER_IMPOSSIBLE NO_REPORT_BELIEVED | 0
        2011-01-01T00:00:16Z written=1000000; 2011-01-01T00:00:17Z written=1062501 | COUNTER_IMPOSSIBLE LATEST_REPORT_SET_ASIDE | 1
        2025-01-01 capacity=1000000 written=1000 hours=50; 2025-01-02 capacity=1000000 written=30000000 hours=30 | COUNTER_WENT_BACK INCREASE_DOUBTFUL | 2
        """)
    void countersOfTheChain(String readings, String kinds, int kept) {
        assertBuilds(readings, kinds, kept);
    }

    @ParameterizedTest(name = "{0}: {1}")
    @CsvSource({"2026-01-02T00:00:00Z, , true", "2026-01-02T00:00:01Z, , false", "2025-06-30T23:59:59Z, 2025-06-30T23:59:59Z, true",
        "2025-07-01T00:00:00Z, 2025-06-30T23:59:59Z, false"})
    void timesAdmitted(Instant at, Instant asOfEnd, boolean admitted) {
        assertThat(new Limits(LIMITS.now(), asOfEnd).admit(at)).isEqualTo(admitted);
    }

    private static List<String> assertBuilds(String readings, String kinds, int kept) {
        List<Reading> built = Arrays.stream(readings.split(";")).map(String::strip).map(HistoryBoundsTest::reading).toList();
        HistoryOutcome outcome = DriveHistories.build(Sample.ID, built, LIMITS);
        assertThat(outcome.problems()).extracting(problem -> problem.kind().name()).containsExactlyInAnyOrderElementsOf(kinds == null ? List.of() : List.of(kinds.split(" ")));
        assertThat(outcome.kept()).isEqualTo(kept);
        return outcome.problems().stream().map(problem -> ProblemWords.of(problem).found()).toList();
    }

    static Reading reading(String text) {
        String[] words = text.split(" ");
        String at = words[0].length() == 10 ? words[0] + "T00:00:00Z" : words[0];
        Map<String, BigInteger> f = new HashMap<>();
        Stream.of(words).skip(1).map(word -> word.split("=")).forEach(pair -> f.put(pair[0], new BigInteger(pair[1])));
        Integer used = f.containsKey("used") ? f.get("used").intValueExact() : null;
        Long capacity = f.containsKey("capacity") ? f.get("capacity").multiply(Health.BYTES_PER_DATA_UNIT).longValueExact() : null;
        Health health = Health.builder().set(HealthField.PERCENTAGE_USED, used).set(HealthField.DATA_UNITS_READ, f.get("read"))
            .set(HealthField.DATA_UNITS_WRITTEN, f.get("written")).set(HealthField.HOST_READ_COMMANDS, f.get("reads")).set(HealthField.HOST_WRITE_COMMANDS, f.get("writes"))
            .set(HealthField.CONTROLLER_BUSY_MINUTES, f.get("busy")).set(HealthField.POWER_CYCLES, f.get("cycles")).set(HealthField.POWER_ON_HOURS, f.get("hours"))
            .set(HealthField.UNSAFE_SHUTDOWNS, f.get("unsafe")).set(HealthField.MEDIA_ERRORS, f.get("media")).set(HealthField.ERROR_LOG_ENTRIES, f.get("log")).build();
        DriveId id = Sample.ID;
        return new Reading(SourcePlace.wholeFile(at + ".json"), Instant.parse(at), new Machine("PC-1", null, null, null, null, null, null, null),
            new Drive(id.serial(), Sample.MODEL, f.containsKey("firmware") ? f.get("firmware").toString() : null, capacity, Attachment.UNKNOWN), health);
    }
}

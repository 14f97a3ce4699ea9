package org.wearledger.history;

import static org.assertj.core.api.Assertions.assertThat;
import static org.wearledger.model.ProblemKind.CLOCK_DOUBTFUL;
import static org.wearledger.model.ProblemKind.COLLECTED_AFTER_AS_OF;
import static org.wearledger.model.ProblemKind.COLLECTED_IN_FUTURE;
import static org.wearledger.model.ProblemKind.COUNTER_WENT_BACK;
import static org.wearledger.model.ProblemKind.DRIVE_MOVED;
import static org.wearledger.model.ProblemKind.DUPLICATE_CONFLICTING;
import static org.wearledger.model.ProblemKind.DUPLICATE_IDENTICAL;
import static org.wearledger.model.ProblemKind.IMPLAUSIBLE_INCREASE;
import static org.wearledger.model.ProblemKind.LATEST_REPORT_SET_ASIDE;
import static org.wearledger.model.ProblemKind.NO_REPORT_BELIEVED;
import static org.wearledger.model.ProblemKind.READING_OUT_OF_ORDER;
import static org.wearledger.model.ProblemKind.RESET_UNCONFIRMED;
import static org.wearledger.model.ProblemKind.SERIAL_PLACEHOLDER;
import static org.wearledger.model.ProblemKind.SERIAL_SHARED;
import static org.wearledger.model.ProblemKind.UNITS_DOUBTFUL;
import static org.wearledger.model.ProblemKind.UNIT_CHANGED;
import static org.wearledger.model.ProblemKind.WRITTEN_CONTRADICTS_USED;

import java.math.BigInteger;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.wearledger.model.DriveId;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.report.ProblemWords;

class DriveHistoriesTest {
    private static final Limits LIMITS = new Limits(Instant.parse("2025-06-30T12:00:00Z"), null);

    @ParameterizedTest
    @ValueSource(strings = {"", "  ", "0000", "ffff", "XXXXXXXX", "....", "none", "N/A", "na", "Null", "unknown",
        "default", "Default  string", "To be filled by O.E.M.", "Serial Number", "Not specified", "12345678",
        "123456789", "0123456789", "0123456789ABCDEF", "A-1"})
    void placeholderSerialsAreNeverJoined(String serial) {
        HistoryOutcome outcome = DriveHistories.build(DriveId.of(Sample.MODEL, serial),
            List.of(Sample.at("2025-01-01").serial(serial).reading(), Sample.at("2025-02-01").serial(serial).reading()),
            LIMITS);
        assertThat(outcome.history()).isNull();
        assertThat(kinds(outcome)).containsExactly(SERIAL_PLACEHOLDER, SERIAL_PLACEHOLDER);
        assertThat(outcome.setAside()).isEqualTo(2);
    }

    @ParameterizedTest
    @ValueSource(strings = {"KX1", "12345679", "0001", "S-NONE-1", "123456780"})
    void realSerialsAreJoined(String serial) {
        assertThat(DriveId.isPlaceholder(serial)).isFalse();
    }

    @ParameterizedTest
    @CsvSource({"2025-07-01T12:00:00Z, true", "2025-07-01T12:00:01Z, false"})
    void aClockMayRunAheadByOneDay(String at, boolean kept) {
        HistoryOutcome outcome = build(Sample.at(at));
        assertThat(outcome.kept()).isEqualTo(kept ? 1 : 0);
        assertThat(kinds(outcome)).isEqualTo(kept ? List.of() : List.of(COLLECTED_IN_FUTURE));
    }

    @Test
    void readingsAfterTheAsOfDateAreSetAside() {
        Limits limits = new Limits(LIMITS.now(), Instant.parse("2025-03-31T23:59:59Z"));
        HistoryOutcome outcome = DriveHistories.build(Sample.ID,
            List.of(Sample.at("2025-03-31").reading(), Sample.at("2025-04-01T00:00:00Z").reading()), limits);
        assertThat(outcome.kept()).isEqualTo(1);
        assertThat(kinds(outcome)).containsExactly(COLLECTED_AFTER_AS_OF);
        assertThat(ProblemWords.of(outcome.problems().get(0)).sentence()).isEqualTo("2025-04-01T00:00:00Z.json, whole file: collected "
            + "at 2025-04-01T00:00:00Z; expected a time up to the as-of date's end, 2025-03-31T23:59:59Z; "
            + "choose a later as-of date to use it");
    }

    @Test
    void theRichestOfAgreeingDuplicatesIsKept() {
        Sample poor = Sample.at("2025-01-01").file("a.json").units(10).machine("pc-1");
        HistoryOutcome outcome = build(poor, poor.file("b.json").hours(5), poor.file("c.json"));
        assertThat(outcome.history().latest().reading().source().file()).isEqualTo("b.json");
        assertThat(kinds(outcome)).containsExactly(DUPLICATE_IDENTICAL, DUPLICATE_IDENTICAL);
        assertThat(ProblemWords.of(outcome.problems().get(0)).found())
            .isEqualTo("the same reading, of 2025-01-01T12:00:00Z, is in b.json, whole file");
    }

    @Test
    void agreeingDuplicatesCompleteEachOther() {
        Sample one = Sample.at("2025-01-01").file("a.json").units(10).hours(7).cycles(2);
        HistoryOutcome outcome = build(one, Sample.at("2025-01-01").file("b.json").units(10).used(40));
        assertThat(outcome.history().latest().reading().source().file()).isEqualTo("a.json");
        assertThat(outcome.history().latest().reading().health().percentageUsed()).isEqualTo(40);
        assertThat(outcome.history().latest().reading().health().powerOnHours()).isEqualTo(7);
    }

    /** The richest agrees with both, but they contradict each other. */
    @Test
    void twoThatTheRichestAgreesWithMayStillContradict() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").file("a.json").units(10).hours(7).cycles(2),
            Sample.at("2025-01-01").file("b.json").units(10).used(40), Sample.at("2025-01-01").file("c.json").units(10).used(41));
        assertThat(kinds(outcome)).containsOnly(DUPLICATE_CONFLICTING).hasSize(3);
    }

    @Test
    void noneOfContradictingDuplicatesIsKept() {
        Sample one = Sample.at("2025-01-01").file("a.json").units(10).hours(3);
        HistoryOutcome outcome = build(one, one.file("b.json").units(11), Sample.at("2025-02-01").units(12));
        assertThat(outcome.kept()).isEqualTo(1);
        assertThat(kinds(outcome)).containsExactly(DUPLICATE_CONFLICTING, DUPLICATE_CONFLICTING);
        assertThat(ProblemWords.of(outcome.problems().get(0)).found()).isEqualTo("2 readings of this drive at 2025-01-01T12:00:00Z "
            + "contradict each other: health.dataUnitsWritten 10 and 11");
    }

    @Test
    void twoMachinesOnOneDayShareASerial() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01T01:00:00Z"),
            Sample.at("2025-01-01T23:00:00Z").machine("PC-2"), Sample.at("2025-02-01"));
        assertThat(outcome.history()).isNull();
        assertThat(kinds(outcome)).containsExactly(SERIAL_SHARED, SERIAL_SHARED, SERIAL_SHARED);
        assertThat(ProblemWords.of(outcome.problems().get(0)).sentence()).isEqualTo("2025-01-01T01:00:00Z.json, whole file: machines "
            + "PC-1 and PC-2 both report this serial on 2025-01-01; expected one drive to a serial number; read each serial by the "
            + "machine's own system; only if that fails have qualified people open it and read the print; their histories are not joined");
    }

    @Test
    void aMachineThatComesBackWithFallingCountersSharesASerial() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(900),
            Sample.at("2025-01-02").machine("PC-2").units(5), Sample.at("2025-01-03").units(950));
        assertThat(kinds(outcome)).containsOnly(SERIAL_SHARED).hasSize(3);
        assertThat(ProblemWords.of(outcome.problems().get(0)).found()).isEqualTo("the serial comes back to machine PC-1, and data units "
            + "written fall from 900 to 5 between machines PC-1 and PC-2");
    }

    @Test
    void aDriveLentAndReturnedIsOnlyMoved() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(900),
            Sample.at("2025-01-02").machine("PC-2").units(910), Sample.at("2025-01-03").machine("pc-1").units(950));
        assertThat(outcome.kept()).isEqualTo(3);
        assertThat(kinds(outcome)).containsExactly(DRIVE_MOVED, DRIVE_MOVED);
        assertThat(ProblemWords.of(outcome.problems().get(0)).remedy()).isEqualTo("nothing to do if it was moved on purpose; its history goes with it; "
            + "if the machine was renamed, which looks the same, change its name in inventory.csv");
    }

    @Test
    void writesAddUpOverEpochs() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(1000), Sample.at("2025-02-01"),
            Sample.at("2025-03-01").units(10), Sample.at("2025-04-01").units(30));
        assertThat(outcome.history().points()).extracting(HistoryPoint::epoch).containsExactly(0, 0, 1, 1);
        assertThat(outcome.history().points()).extracting(HistoryPoint::totalBytesWritten).containsExactly(
            bytes(1000), null, bytes(1010), bytes(1030));
        assertThat(kinds(outcome)).containsExactly(RESET_UNCONFIRMED);
        assertThat(ProblemWords.of(outcome.problems().get(0)).sentence()).isEqualTo("2025-03-01T12:00:00Z.json, whole file: data units "
            + "written fell from 1000 (2025-01-01T12:00:00Z.json, whole file) to 10, and no power-on hours confirm a reset; "
            + "expected counters that never fall, or power-on hours that begin anew with them; check whether the drive was reset; "
            + "writes are added up as if it was; else correct this report");
    }

    /** Only the hours fell: the data units went on counting, and adding the first epoch again would double its writes. */
    @Test
    void writesAreNotAddedTwiceWhereOnlyAnotherCounterFell() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(1000).hours(500), Sample.at("2025-02-01").units(1200).hours(3));
        assertThat(outcome.history().latest().epoch()).isEqualTo(1);
        assertThat(outcome.history().latest().totalBytesWritten()).isEqualTo(bytes(1200));
    }

    /** 100 x 500 GB for each of 48 hours / 24 is 100 TB; fewer than 24 hours count as a day, 50 TB. */
    @ParameterizedTest
    @CsvSource({"100, 48, 1", "100.1, 48, 0", "50, 0, 1", "50.1, 0, 0"})
    void aTotalBeyondTheHoursUnderPowerIsAWrongUnitInTheFirstReadingToo(double terabytes, long hours, int kept) {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").terabytes(terabytes).hours(hours));
        assertThat(outcome.kept()).isEqualTo(kept);
        assertThat(kinds(outcome)).isEqualTo(kept == 1 ? List.of() : List.of(IMPLAUSIBLE_INCREASE, NO_REPORT_BELIEVED));
    }

    @Test
    void powerOnHoursAndCyclesStartAnEpochToo() {
        assertThat(build(Sample.at("2025-01-01").hours(9), Sample.at("2025-02-01").hours(8)).history().latest().epoch())
            .isEqualTo(1);
        assertThat(build(Sample.at("2025-01-01").cycles(9), Sample.at("2025-02-01").cycles(8)).history().latest()
            .epoch()).isEqualTo(1);
    }

    /** 20 x 500 GB a day over 2 days is 20 TB, 39,062,500 data units. */
    @ParameterizedTest
    @CsvSource({"39062500, 2", "39062501, 1"})
    void twentyCapacityWritesADayAreTheLimit(long units, int kept) {
        assertThat(build(Sample.at("2025-01-01").units(0), Sample.at("2025-01-03").units(units)).kept())
            .isEqualTo(kept);
    }

    @Test
    void anImplausibleRiseIsSetAsideAndTheChainGoesOn() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").terabytes(1), Sample.at("2025-01-02").terabytes(100),
            Sample.at("2025-01-03").terabytes(2));
        assertThat(outcome.kept()).isEqualTo(2);
        assertThat(outcome.history().latest().epoch()).isZero();
        assertThat(kinds(outcome)).containsExactly(IMPLAUSIBLE_INCREASE);
        assertThat(ProblemWords.of(outcome.problems().get(0)).sentence()).isEqualTo("2025-01-02T12:00:00Z.json, whole file: data units "
            + "written rose from 1953125 to 195312500, 99.000 TB, since 2025-01-01T12:00:00Z (2025-01-01T12:00:00Z.json, whole file); expected at most "
            + "10.000 TB, 20 writes of the capacity a day; check the unit: one data unit is 512,000 bytes; about 1,000 times too high or too low is GB for TB; "
            + "where only some files are in another unit, move those into a folder with a mapping.json of their own");
    }

    /** A report between others leaves no doubt; where it is the latest, the drive is judged by figures older than what arrived. */
    @Test
    void aDriveWhoseLatestReportCannotBeBelievedIsInDoubt() {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").terabytes(1), Sample.at("2025-01-02").terabytes(100), Sample.at("2025-01-03").terabytes(101));
        assertThat(kinds(outcome)).containsExactly(IMPLAUSIBLE_INCREASE, IMPLAUSIBLE_INCREASE, LATEST_REPORT_SET_ASIDE);
        assertThat(outcome.history().doubts()).containsExactly(LATEST_REPORT_SET_ASIDE);
        assertThat(ProblemWords.of(outcome.problems().get(2)).sentence()).isEqualTo("2025-01-03T12:00:00Z.json, whole file: the latest report of this drive was set aside "
            + "(implausible-increase), so its figures are those of 2025-01-01T12:00:00Z (2025-01-01T12:00:00Z.json, whole file); expected a latest report that can be "
            + "used; settle which of the two is right, most often by the unit, before acting on this drive's wear");
    }

    /** 1 TB is 1,953,125 data units, 1,953,125,000 sectors and 1,000 GB. The majority stands, wherever the slip is. */
    @ParameterizedTest(name = "{0}, {1}, {2}: {3}, the latest {4}")
    @CsvSource(delimiter = '|', textBlock = """
        1953125       | 1953125000 | 1953325       | a thousand times smaller, such as GB for TB under a mapping, or sectors of 512 bytes for data units | kept
        1953125       | 1953325    | 1000202000000 | bytes for data units | set aside
        1000000000000 | 1953325    | 1953525       | bytes for data units | kept
        1953125       | 1000       | 1953325       | GB or GiB for data units | kept
        1000          | 1953325    | 1953525       | GB or GiB for data units | kept
        1953125       | 1953325    | 1             | TB or TiB for data units | set aside
        19531250      | 20531250   | 20541         | a thousand times larger, such as TB for GB under a mapping, or data units for sectors of 512 bytes | set aside
        """)
    void aReadingInAnotherUnitIsSetAsideAndTheUnitNamed(long one, long two, long three, String unit, String latest) {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(one).hours(900).used(20), Sample.at("2025-01-02").units(two).hours(910).used(20),
            Sample.at("2025-01-03").units(three).hours(920).used(20));
        assertThat(outcome.kept()).isEqualTo(2);
        assertThat(outcome.history().latest().epoch()).isZero();
        assertThat(kinds(outcome)).isEqualTo(latest.equals("kept") ? List.of(UNIT_CHANGED) : List.of(UNIT_CHANGED, LATEST_REPORT_SET_ASIDE));
        assertThat(ProblemWords.of(outcome.problems().get(0)).found()).endsWith(": by their ratio another unit, " + unit);
    }

    /** 278 TB of 150 rated at 20 % used, 5.5 TB of 300 at 1 %, 67 writes of the capacity at 0 %: real drives, no doubt raised. */
    @ParameterizedTest
    @CsvSource({"256, 278, 20, false", "512, 5.5, 1, false", "1600, 107, 0, false", "256, 0.158, 20, true", "256, 0.05, 4, false",
        "256, 158000, 0, true", "256, 1280, 100, false", "256, 1.27, 100, true", "256, 76.8, 0, false", "256, 76.9, 0, true"})
    void whatIsWrittenIsHeldAgainstPercentageUsed(long gigabytes, double terabytes, int used, boolean doubtful) {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").capacity(gigabytes * 1_000_000_000).terabytes(terabytes).used(used));
        assertThat(outcome.kept()).isEqualTo(1);
        assertThat(kinds(outcome)).isEqualTo(doubtful ? List.of(WRITTEN_CONTRADICTS_USED) : List.of());
    }

    /** After a real reset the hours begin anew as well, and after a long pause a drive may well write a thousandfold. */
    @Test
    void aResetAndABusyNewDriveAreNoOtherUnit() {
        assertThat(kinds(build(Sample.at("2025-01-01").units(1_953_125).hours(900), Sample.at("2025-04-01").units(1000).hours(3))))
            .containsExactly(COUNTER_WENT_BACK);
        assertThat(kinds(build(Sample.at("2025-01-01").units(10_000).hours(20), Sample.at("2025-04-01").units(10_500_000).hours(1500)))).isEmpty();
    }

    @ParameterizedTest(name = "{0} hours after 65400: {1}")
    @CsvSource({"65500, ", "100, COUNTER_TRUNCATED"})
    void aCounterThatRunsOverItsWidthAloneIsTruncated(long hours, ProblemKind kind) {
        assertThat(kinds(build(Sample.at("2025-01-01").hours(65_400).cycles(7), Sample.at("2025-02-01").hours(hours).cycles(8))))
            .isEqualTo(kind == null ? List.of() : List.of(kind));
    }

    @Test
    void aReadingOfAWrongClockIsSetAsideAndNotTakenForAReset() {
        HistoryOutcome outcome = build(Sample.at("2024-10-01").terabytes(1).hours(1000).cycles(100), Sample.at("2025-01-01").terabytes(2).hours(1500).cycles(150),
            Sample.at("2025-01-20").terabytes(1.5).hours(1200).cycles(120), Sample.at("2025-04-01").terabytes(3).hours(2000).cycles(200));
        assertThat(kinds(outcome)).containsExactly(READING_OUT_OF_ORDER);
        assertThat(outcome.history().latest().epoch()).isZero();
    }

    @Test
    void withoutCapacityNoIncreaseIsImplausible() {
        assertThat(build(Sample.at("2025-01-01").capacity(null).terabytes(1),
            Sample.at("2025-01-02").capacity(null).terabytes(100)).kept()).isEqualTo(2);
    }

    /** 1000 data units are 512,000,000 bytes: 1,000,000 commands of 512 bytes. */
    @ParameterizedTest
    @CsvSource({"1000000, false", "1002000, true", "62, false", "61, true", "0, false"})
    void meanWritesOutsideTheirRangeAreDoubtful(long commands, boolean doubtful) {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").units(1000).writeCommands(commands),
            Sample.at("2025-02-01").units(1000).writeCommands(commands));
        assertThat(outcome.kept()).isEqualTo(2);
        assertThat(kinds(outcome)).isEqualTo(doubtful ? List.of(UNITS_DOUBTFUL) : List.of());
    }

    @ParameterizedTest
    @CsvSource({"148, false", "149, true"})
    void powerOnHoursCannotOutrunTheClock(long hours, boolean doubtful) {
        HistoryOutcome outcome = build(Sample.at("2025-01-01").hours(100), Sample.at("2025-01-02").hours(hours));
        assertThat(kinds(outcome)).isEqualTo(doubtful ? List.of(CLOCK_DOUBTFUL) : List.of());
    }

    @Test
    void theOrderOfTheInputDoesNotMatter() {
        List<Reading> readings = new ArrayList<>(Arrays.asList(readings(
            Sample.at("2025-01-01").units(10), Sample.at("2025-01-01").file("copy.json").units(10),
            Sample.at("2025-02-01").units(5).machine("PC-2"), Sample.at("2025-03-01").terabytes(900),
            Sample.at("2025-03-02").terabytes(90_000), Sample.at("2026-01-01").units(1))));
        HistoryOutcome expected = DriveHistories.build(Sample.ID, readings, LIMITS);
        assertThat(expected.kept() + expected.setAside()).isEqualTo(readings.size());
        for (int seed = 0; seed < 50; seed++) {
            Collections.shuffle(readings, new Random(seed));
            assertThat(DriveHistories.build(Sample.ID, readings, LIMITS)).isEqualTo(expected);
        }
    }

    private static HistoryOutcome build(Sample... samples) {
        HistoryOutcome outcome = DriveHistories.build(Sample.ID, List.of(readings(samples)), LIMITS);
        assertThat(outcome.kept() + outcome.setAside()).isEqualTo(samples.length);
        return outcome;
    }

    private static Reading[] readings(Sample... samples) {
        return Arrays.stream(samples).map(Sample::reading).toArray(Reading[]::new);
    }

    private static List<ProblemKind> kinds(HistoryOutcome outcome) {
        return outcome.problems().stream().map(Problem::kind).toList();
    }

    private static BigInteger bytes(long units) {
        return BigInteger.valueOf(units * 512_000);
    }
}

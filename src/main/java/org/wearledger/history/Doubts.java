package org.wearledger.history;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * What is strange in one drive's figures without keeping them out. Each doubt is told once a drive: what is wrong with a unit
 * is wrong in every reading.
 */
final class Doubts {
    private static final String CHECK_UNIT = "check the unit: one data unit is 512,000 bytes; about 1,000 times too high or too low is GB for TB";
    private static final long POWER_ON_TOLERANCE_HOURS = 24;
    /** More than any drive handles (from memory: some millions of commands a second at most). */
    private static final double MOST_COMMANDS_PER_SECOND = 1e8;
    /** 32 GB. */
    private static final double MOST_DATA_UNITS_PER_SECOND = 62_500;
    private static final double SECONDS_PER_MINUTE = 60;
    private static final Set<Integer> WIDTHS_IN_BITS = Set.of(16, 31, 32, 63, 64);

    private final DriveId id;
    private final List<Problem> problems;
    /** Settled by the next report that goes on from there. */
    private Problem increase;
    private final Set<ProblemKind> told = EnumSet.noneOf(ProblemKind.class);

    Doubts(DriveId id, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
    }

    /** The remedy of most doubts: it is the capacity's unit that is wrong when no client machine has such a drive. */
    static String checkUnit(Long capacityBytes) {
        boolean odd = capacityBytes != null && capacityBytes > 0 && !Capacities.isCredible(capacityBytes);
        return odd ? "check the unit of the capacity, which comes to " + new BigDecimal(capacityBytes).movePointLeft(9).stripTrailingZeros().toPlainString()
            + " GB; then that of bytes written" : CHECK_UNIT;
    }

    /** The same where it may be the unit of some files only. */
    static String checkUnitOfFiles(Long capacityBytes) {
        return checkUnit(capacityBytes) + "; where only some files are in another unit, " + Problem.packApart("those");
    }

    /** The rules among a drive's problems by which its wear is to be read with care; in their own order. */
    static List<ProblemKind> ofWear(List<Problem> problems) {
        return problems.stream().map(Problem::kind).filter(ProblemKind::doubtsWear).distinct().sorted().toList();
    }

    /** @param firstEpoch whether no counter has begun anew, as far as is known; percentage used may or may not have begun anew with them */
    void raise(Reading reading, Long capacityBytes, boolean firstEpoch) {
        meanWrite(reading);
        if (reading.health().percentageUsed() == null) {
            beyondAnyLife(reading, capacityBytes);
        }
        if (firstEpoch) {
            againstUsed(reading, capacityBytes);
        }
        Integer used = reading.health().percentageUsed();
        if (used != null && used == Health.USED_AT_ITS_LIMIT) {
            note(ProblemKind.PERCENTAGE_USED_AT_LIMIT, reading, "percentage used is 255, the most that its byte holds", "0 to 254, where the figure says how much",
                "take it as 255 or more");
        }
        atWidth(reading);
        otherCounters(reading);
    }

    private void meanWrite(Reading reading) {
        if (!MeanCommand.isImpossible(reading.health().dataUnitsWritten(), reading.health().hostWriteCommands())) {
            return;
        }
        BigDecimal mean = MeanCommand.bytes(reading.health(), HealthField.DATA_UNITS_WRITTEN, HealthField.HOST_WRITE_COMMANDS);
        WrongUnit unit = WrongUnit.ofMeanCommand(mean);
        note(ProblemKind.UNITS_DOUBTFUL, reading, "the mean write is " + mean.toPlainString() + " bytes: " + reading.health().dataUnitsWritten()
            + " data units over " + reading.health().exact(HealthField.HOST_WRITE_COMMANDS) + " write commands" + (unit == null ? "" : "; taken as " + unit.words()
            + " it would be of common size"), "a mean write of 512 to 8388608 bytes", checkUnit(reading.drive().capacityBytes()));
    }

    /** Where the controller says nothing to hold it against. */
    private void beyondAnyLife(Reading reading, Long capacityBytes) {
        BigInteger bytes = reading.health().bytesWritten();
        if (WriteLimits.isBeyondAnyLife(bytes, capacityBytes)) {
            note(ProblemKind.UNITS_DOUBTFUL, reading, WriteLimits.terabytes(bytes) + " written on a drive of "
                + new BigDecimal(capacityBytes).movePointLeft(9).setScale(0, RoundingMode.HALF_UP) + " GB, " + bytes.divide(BigInteger.valueOf(capacityBytes)) + " times its capacity",
                "at most 30,000 writes of the capacity, more than any drive lasts", checkUnit(capacityBytes));
        }
    }

    private void againstUsed(Reading reading, Long capacityBytes) {
        BigInteger bytes = reading.health().bytesWritten();
        Integer used = reading.health().percentageUsed();
        if (!WriteLimits.isBelowUsed(bytes, used, capacityBytes) && !WriteLimits.isAboveUsed(bytes, used, capacityBytes)) {
            return;
        }
        boolean known = capacityBytes != null && capacityBytes > 0;
        String capacity = " on a drive of " + (known ? new BigDecimal(capacityBytes).movePointLeft(9).setScale(0, RoundingMode.HALF_UP) + " GB" : "unknown capacity");
        note(ProblemKind.WRITTEN_CONTRADICTS_USED, reading, WriteLimits.terabytes(bytes) + " written at " + used + " % used" + capacity,
            known ? "a life of 5 to 30,000 writes of the capacity" : "a life of 5 writes or more of the capacity, taken as 120 GB",
            checkUnit(capacityBytes) + "; is percentage used what remains of the life? A mapping reads that by the unit percentRemaining; "
                + "nothing to do if the counter began anew in an earlier life of the drive");
    }

    /** A fall of data units written that nothing shows to be a restart. */
    void fell(Reading reading, String words) {
        note(ProblemKind.FALL_DOUBTFUL, reading, words + ", and nothing shows that the drive was reset",
            "counters that go on, or begin anew together", "correct the report that is wrong, or leave it out; until then the largest figure stands");
    }

    /** What a drive's own earlier readings make hard to believe; before the run takes the reading in. */
    void againstItself(CounterRun run, Reading reading, Long capacityBytes) {
        CounterRun.Seen before = run.units();
        if (increase != null && run.units() != null && reading.health().dataUnitsWritten() != null && !run.fell(reading.health().dataUnitsWritten())) {
            problems.remove(increase);
            told.remove(increase.kind());
            increase = null;
        }
        Integer used = reading.health().percentageUsed();
        if (OwnPace.isOutrun(run, reading, capacityBytes)) {
            increase = note(ProblemKind.INCREASE_DOUBTFUL, reading, "data units written rose from " + before.value() + " (" + before.source().inWords() + ") to "
                + reading.health().dataUnitsWritten() + ", far faster than this drive ever wrote", "a rise near the drive's own pace",
                "check digits, unit and date of both reports; nothing to do if the machine was used so much more");
        }
        if (run.withUsed() != null && used != null && !isReflashed(run.withUsed(), reading) && OwnPace.measuresPart(run.withUsed().health(), reading.health())) {
            note(ProblemKind.MEASURES_PARTED, reading, "percentage used went from " + run.withUsed().health().percentageUsed() + " to " + used + " since " + run.withUsed().source().inWords()
                + ", while data units written went from " + run.withUsed().health().dataUnitsWritten() + " to " + reading.health().dataUnitsWritten(),
                "two measures that grow together", "check digits and units of both; is percentage used what remains of the life? A mapping reads that by the unit percentRemaining");
        }
    }

    /**
     * Percentage used never falls while a drive is written. A new firmware may estimate anew, and counters that began anew are no life
     * of the same count: neither is doubted.
     *
     * @param before the reading of this run of the counters that reported percentage used before
     */
    void usedFell(Reading before, Reading reading) {
        Integer was = before.health().percentageUsed();
        Integer now = reading.health().percentageUsed();
        String meanwhile = rise(before.health(), reading.health());
        if (now >= was || meanwhile == null || isReflashed(before, reading)) {
            return;
        }
        note(ProblemKind.PERCENTAGE_USED_FELL, reading, "percentage used fell from " + was + " to " + now + " since " + before.collectedAt() + " (" + before.source().inWords()
            + "), while " + meanwhile, "a percentage used that never falls",
            "the figure is used as it stands: is it what remains of the life? A mapping reads that by the unit percentRemaining; else read the health log again");
    }

    /** What shows that the drive was in use from one to the other: its writes, else its hours; {@code null} when neither does. */
    private static String rise(Health was, Health now) {
        return Counters.rose(was.dataUnitsWritten(), now.dataUnitsWritten()) ? "data units written rose from " + was.dataUnitsWritten() + " to " + now.dataUnitsWritten()
            : Counters.rose(was.powerOnHours(), now.powerOnHours()) ? "power-on hours rose from " + was.powerOnHours() + " to " + now.powerOnHours() : null;
    }

    private static boolean isReflashed(Reading before, Reading reading) {
        String was = before.drive().firmware();
        return was != null && reading.drive().firmware() != null && !was.equals(reading.drive().firmware());
    }

    /** A counter that stands at the very end of its width. */
    private void atWidth(Reading reading) {
        atWidth(reading, "data units written", HealthField.DATA_UNITS_WRITTEN);
        atWidth(reading, "power-on hours", HealthField.POWER_ON_HOURS);
        atWidth(reading, "host write commands", HealthField.HOST_WRITE_COMMANDS);
    }

    private void atWidth(Reading reading, String counter, HealthField field) {
        long least = reading.health().value(field);
        if ((least & least + 1) != 0) {
            return;
        }
        BigInteger value = reading.health().exact(field);
        if (value != null && WIDTHS_IN_BITS.contains(value.bitLength()) && value.bitCount() == value.bitLength()) {
            note(ProblemKind.COUNTER_TRUNCATED, reading, counter + " are " + value + ", the most that " + value.bitLength() + " bits hold",
                "a counter of 128 bits", "read the raw page; the true value may be higher");
        }
    }

    private void otherCounters(Reading reading) {
        double seconds = Math.max(0, reading.collectedAt().getEpochSecond() - Health.FIRST_SPECIFICATION.getEpochSecond());
        doubtful(reading, "data units read", HealthField.DATA_UNITS_READ, seconds * MOST_DATA_UNITS_PER_SECOND);
        doubtful(reading, "host read commands", HealthField.HOST_READ_COMMANDS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, "host write commands", HealthField.HOST_WRITE_COMMANDS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, "controller busy minutes", HealthField.CONTROLLER_BUSY_MINUTES, seconds / SECONDS_PER_MINUTE);
        doubtful(reading, "power cycles", HealthField.POWER_CYCLES, seconds);
        doubtful(reading, "unsafe shutdowns", HealthField.UNSAFE_SHUTDOWNS, seconds);
        doubtful(reading, "media and data integrity errors", HealthField.MEDIA_ERRORS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, "error log entries", HealthField.ERROR_LOG_ENTRIES, seconds * MOST_COMMANDS_PER_SECOND);
    }

    private void doubtful(Reading reading, String counter, HealthField field, double most) {
        if (reading.health().value(field) > most) {
            note(ProblemKind.COUNTER_DOUBTFUL, reading, counter + " are " + reading.health().exact(field), "at most " + new BigDecimal(most).toBigInteger() + " since 2011",
                "read the page again; the figure is kept as it stands");
        }
    }

    /** Since the hours were last reported, at {@code before}. */
    void clock(Reading reading, long hoursBefore, Instant before) {
        long elapsedHours = Duration.between(before, reading.collectedAt()).toHours();
        long increase = reading.health().powerOnHours() - hoursBefore;
        if (increase > elapsedHours + POWER_ON_TOLERANCE_HOURS) {
            note(ProblemKind.CLOCK_DOUBTFUL, reading, "power-on hours rose by " + increase + " within " + elapsedHours + " hours",
                "a rise of at most the elapsed hours plus " + POWER_ON_TOLERANCE_HOURS,
                "check the clock of machine " + reading.machine().id() + ", and the unit, which is hours");
        }
    }

    private Problem note(ProblemKind kind, Reading reading, String found, String expected, String remedy) {
        Problem problem = new Problem(kind, reading.source(), id.toString(), found, expected, remedy);
        if (told.add(kind)) {
            problems.add(problem);
        }
        return problem;
    }
}

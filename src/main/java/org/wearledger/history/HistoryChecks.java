package org.wearledger.history;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * The checks of one drive's figures against each other and against the figures before. What looks strange stays in the history and becomes
 * a problem, once a drive: what is wrong with a unit is wrong in every reading.
 */
final class HistoryChecks {
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

    HistoryChecks(DriveId id, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
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
            tell(of(Finding.USED_AT_LIMIT, reading));
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
        tell(of(Finding.MEAN_WRITE, reading).with(Fact.BYTES, mean.toPlainString()).with(Fact.VALUE, reading.health().dataUnitsWritten())
            .with(Fact.COMMANDS, reading.health().exact(HealthField.HOST_WRITE_COMMANDS)).with(Fact.UNIT, unit).with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(reading.drive().capacityBytes())));
    }

    /** Where the controller says nothing to hold it against. */
    private void beyondAnyLife(Reading reading, Long capacityBytes) {
        if (WriteLimits.isBeyondAnyLife(reading.health().dataUnitsWritten(), capacityBytes)) {
            BigInteger bytes = reading.health().bytesWritten();
            tell(of(Finding.BEYOND_LIFE, reading).with(Fact.BYTES, bytes).with(Fact.CAPACITY_BYTES, capacityBytes).with(Fact.RATIO, bytes.divide(BigInteger.valueOf(capacityBytes)))
                .with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(capacityBytes)));
        }
    }

    private void againstUsed(Reading reading, Long capacityBytes) {
        Long units = reading.health().dataUnitsWritten();
        Integer used = reading.health().percentageUsed();
        if (!WriteLimits.isBelowUsed(units, used, capacityBytes) && !WriteLimits.isAboveUsed(units, used, capacityBytes)) {
            return;
        }
        tell(of(Finding.CONTRADICTS_USED, reading).with(Fact.BYTES, reading.health().bytesWritten()).with(Fact.USED_PERCENT, used)
            .with(Fact.CAPACITY_BYTES, capacityBytes != null && capacityBytes > 0 ? capacityBytes : null).with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(capacityBytes)));
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
            increase = of(Finding.RISE_DOUBTFUL, reading).with(Fact.BEFORE, before.value()).with(Fact.PLACE, before.source().inWords())
                .with(Fact.AFTER, reading.health().dataUnitsWritten());
            tell(increase);
        }
        if (run.withUsed() != null && used != null && !isReflashed(run.withUsed(), reading) && OwnPace.measuresPart(run.withUsed().health(), reading.health())) {
            Health was = run.withUsed().health();
            tell(of(Finding.PARTED, reading).with(Fact.USED_PERCENT_BEFORE, was.percentageUsed()).with(Fact.USED_PERCENT, used).with(Fact.PLACE, run.withUsed().source().inWords())
                .with(Fact.BEFORE, was.dataUnitsWritten()).with(Fact.AFTER, reading.health().dataUnitsWritten()));
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
        // What shows that the drive was in use from one to the other: its writes, else its hours.
        boolean wrote = Counters.rose(before.health().dataUnitsWritten(), reading.health().dataUnitsWritten());
        if (now >= was || !wrote && !Counters.rose(before.health().powerOnHours(), reading.health().powerOnHours()) || isReflashed(before, reading)) {
            return;
        }
        tell(of(Finding.USED_FELL, reading).with(Fact.USED_PERCENT_BEFORE, was).with(Fact.USED_PERCENT, now).with(Fact.SINCE, before.collectedAt())
            .with(Fact.PLACE, before.source().inWords()).with(Fact.COUNTER, wrote ? CounterChain.UNITS : CounterChain.HOURS)
            .with(Fact.BEFORE, wrote ? before.health().dataUnitsWritten() : before.health().powerOnHours())
            .with(Fact.AFTER, wrote ? reading.health().dataUnitsWritten() : reading.health().powerOnHours()));
    }

    private static boolean isReflashed(Reading before, Reading reading) {
        String was = before.drive().firmware();
        return was != null && reading.drive().firmware() != null && !was.equals(reading.drive().firmware());
    }

    /** A counter that stands at the very end of its width. */
    private void atWidth(Reading reading) {
        atWidth(reading, HealthField.DATA_UNITS_WRITTEN);
        atWidth(reading, HealthField.POWER_ON_HOURS);
        atWidth(reading, HealthField.HOST_WRITE_COMMANDS);
    }

    private void atWidth(Reading reading, HealthField field) {
        long least = reading.health().value(field);
        if ((least & least + 1) != 0) {
            return;
        }
        BigInteger value = reading.health().exact(field);
        if (value != null && WIDTHS_IN_BITS.contains(value.bitLength()) && value.bitCount() == value.bitLength()) {
            tell(of(Finding.AT_WIDTH, reading).with(Fact.COUNTER, field.ownName()).with(Fact.VALUE, value).with(Fact.BITS, value.bitLength()));
        }
    }

    private void otherCounters(Reading reading) {
        double seconds = Math.max(0, reading.collectedAt().getEpochSecond() - Health.FIRST_SPECIFICATION.getEpochSecond());
        doubtful(reading, HealthField.DATA_UNITS_READ, seconds * MOST_DATA_UNITS_PER_SECOND);
        doubtful(reading, HealthField.HOST_READ_COMMANDS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, HealthField.HOST_WRITE_COMMANDS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, HealthField.CONTROLLER_BUSY_MINUTES, seconds / SECONDS_PER_MINUTE);
        doubtful(reading, HealthField.POWER_CYCLES, seconds);
        doubtful(reading, HealthField.UNSAFE_SHUTDOWNS, seconds);
        doubtful(reading, HealthField.MEDIA_ERRORS, seconds * MOST_COMMANDS_PER_SECOND);
        doubtful(reading, HealthField.ERROR_LOG_ENTRIES, seconds * MOST_COMMANDS_PER_SECOND);
    }

    private void doubtful(Reading reading, HealthField field, double most) {
        if (reading.health().value(field) > most) {
            tell(of(Finding.BEYOND_DRIVE, reading).with(Fact.COUNTER, field.ownName()).with(Fact.VALUE, reading.health().exact(field)).with(Fact.MOST, new BigDecimal(most).toBigInteger()));
        }
    }

    /** Since the hours were last reported, at {@code before}. */
    void clock(Reading reading, long hoursBefore, Instant before) {
        long elapsedHours = Duration.between(before, reading.collectedAt()).toHours();
        long increase = reading.health().powerOnHours() - hoursBefore;
        if (increase > elapsedHours + POWER_ON_TOLERANCE_HOURS) {
            tell(of(Finding.HOURS_OUTRUN_CLOCK, reading).with(Fact.VALUE, increase).with(Fact.HOURS, elapsedHours).with(Fact.MOST, POWER_ON_TOLERANCE_HOURS)
                .with(Fact.MACHINE, reading.machine().id()));
        }
    }

    private Problem of(Finding finding, Reading reading) {
        return Problem.of(finding, reading.source(), id.toString());
    }

    /** Once a drive. */
    void tell(Problem problem) {
        if (told.add(problem.kind())) {
            problems.add(problem);
        }
    }
}

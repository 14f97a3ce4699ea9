package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/**
 * Follows one drive's counters through its readings in time order. A counter that a reading does not report keeps its
 * last reported value, so a gap neither breaks the chain nor hides a fall.
 */
final class CounterChain {
    static final String UNITS = HealthField.DATA_UNITS_WRITTEN.ownName();
    static final String HOURS = HealthField.POWER_ON_HOURS.ownName();

    private final DriveId id;
    private final List<Problem> problems;
    private final List<HistoryPoint> points = new ArrayList<>();
    private Reading last;
    private int epoch;
    private BigInteger bytesOfEarlierEpochs = BigInteger.ZERO;
    private CounterRun run = new CounterRun();
    private Long capacityBytes;
    private final HistoryChecks checks;

    CounterChain(DriveId id, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
        checks = new HistoryChecks(id, problems);
    }

    List<HistoryPoint> points() {
        return points;
    }

    void add(Reading reading) {
        capacityBytes = reading.drive().capacityBytes() != null ? reading.drive().capacityBytes() : capacityBytes;
        if (isImplausibleInTotal(reading)) {
            return;
        }
        if (!startsEpoch(reading) && increasesImplausibly(reading)) {
            return;
        }
        noteMove(reading);
        if (run.hours() != null && reading.health().powerOnHours() != null) {
            checks.clock(reading, run.hours().value(), run.hours().at());
        }
        checks.againstItself(run, reading, capacityBytes);
        keep(reading);
    }

    private void keep(Reading reading) {
        checks.raise(reading, capacityBytes, epoch == 0);
        if (reading.health().percentageUsed() != null && run.withUsed() != null) {
            checks.usedFell(run.withUsed(), reading);
        }
        run.add(reading);
        // Of a fall that is no restart the largest figure stands.
        BigInteger total = !reading.health().has(HealthField.DATA_UNITS_WRITTEN) ? null
            : bytesOfEarlierEpochs.add(BigInteger.valueOf(run.units().value()).multiply(Health.BYTES_PER_DATA_UNIT));
        points.add(new HistoryPoint(reading, epoch, total));
        last = reading;
    }

    /** One counter of the three that never fall, before and after. */
    private record Change(String counter, long before, long after) {
        boolean falls() {
            return Counters.fell(before, after);
        }

        boolean byHalf() {
            return Counters.isBelowHalf(after, before);
        }
    }

    private boolean startsEpoch(Reading reading) {
        Health health = reading.health();
        List<Change> changes = new ArrayList<>();
        add(changes, UNITS, run.units(), health.dataUnitsWritten());
        add(changes, HOURS, run.hours(), health.powerOnHours());
        add(changes, "powerCycles", run.cycles(), health.powerCycles());
        List<Change> falls = changes.stream().filter(Change::falls).toList();
        if (falls.isEmpty()) {
            return false;
        }
        Change fall = falls.get(0);
        boolean written = fall.counter().equals(UNITS);
        if (falls.size() == 1 && changes.size() > 1 && Overrun.bits(fall.before()) > 0 && fall.byHalf()) {
            problems.add(of(Finding.OVERRUN, reading, fall).with(Fact.BITS, Overrun.bits(fall.before())));
        } else if (!written || run.restart(reading) == CounterRun.Restart.PROVEN) {
            problems.add(of(Finding.WENT_BACK, reading, fall));
        } else if (run.restart(reading) == CounterRun.Restart.POSSIBLE) {
            problems.add(of(Finding.FELL_AS_BY_RESET, reading, fall).with(Fact.PLACE, run.units().source().inWords()));
        } else {
            checks.tell(of(Finding.FELL, reading, fall).with(Fact.PLACE, run.units().source().inWords()));
            return false;
        }
        startEpoch(health.dataUnitsWritten());
        return true;
    }

    private Problem of(Finding finding, Reading reading, Change fall) {
        return of(finding, reading).with(Fact.COUNTER, fall.counter()).with(Fact.BEFORE, fall.before()).with(Fact.AFTER, fall.after());
    }

    private static void add(List<Change> changes, String counter, CounterRun.Seen before, Long after) {
        if (before != null && after != null) {
            changes.add(new Change(counter, before.value(), after));
        }
    }

    private void startEpoch(Long units) {
        boolean restarted = run.fell(units);
        if (restarted) {
            bytesOfEarlierEpochs = bytesOfEarlierEpochs.add(BigInteger.valueOf(run.units().value()).multiply(Health.BYTES_PER_DATA_UNIT));
        }
        epoch++;
        // Where only another counter fell, data units went on counting: adding them again would count their writes twice.
        run = restarted ? new CounterRun() : run.withUnitsOnly();
    }

    /** Compares whole numbers: increase x seconds a day > 20 x capacity x elapsed seconds. */
    private boolean increasesImplausibly(Reading reading) {
        Long units = reading.health().dataUnitsWritten();
        CounterRun.Seen unitsWritten = run.units();
        if (unitsWritten == null || units == null || capacityBytes == null || capacityBytes <= 0) {
            return false;
        }
        if (WriteLimits.isCommonIncrease(units - unitsWritten.value(), capacityBytes, unitsWritten.at(), reading.collectedAt())) {
            return false;
        }
        BigInteger increaseBytes = BigInteger.valueOf(units - unitsWritten.value()).multiply(Health.BYTES_PER_DATA_UNIT);
        BigInteger mostBytes = WriteLimits.mostWithin(capacityBytes, Duration.between(unitsWritten.at(), reading.collectedAt()));
        if (increaseBytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        problems.add(of(Finding.RISE_IMPLAUSIBLE, reading).with(Fact.BEFORE, unitsWritten.value()).with(Fact.AFTER, units).with(Fact.BYTES, increaseBytes).with(Fact.MOST, mostBytes)
            .with(Fact.SINCE, unitsWritten.at()).with(Fact.PLACE, unitsWritten.source().inWords()).with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(capacityBytes)));
        return true;
    }

    /**
     * A total that no drive can have written in its hours under power. Generous, since laptops do not count every hour;
     * what it finds is a wrong unit, in a first reading too, where there is no increase to judge.
     */
    private boolean isImplausibleInTotal(Reading reading) {
        Long units = reading.health().dataUnitsWritten();
        Long hours = reading.health().powerOnHours();
        if (units == null || WriteLimits.isCommon(units, capacityBytes, hours, reading.collectedAt())) {
            return false;
        }
        BigInteger bytes = reading.health().bytesWritten();
        BigInteger carried = WriteLimits.mostSinceFirstSpecification(reading.collectedAt());
        if (bytes.compareTo(carried) > 0) {
            problems.add(of(Finding.BEYOND_LINK, reading).with(Fact.VALUE, reading.health().exact(HealthField.DATA_UNITS_WRITTEN)).with(Fact.MOST, carried.divide(Health.BYTES_PER_DATA_UNIT))
                .with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(capacityBytes)));
            return true;
        }
        BigInteger mostBytes = WriteLimits.mostUnderPower(capacityBytes, hours);
        if (mostBytes == null || bytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        problems.add(of(Finding.TOTAL_IMPLAUSIBLE, reading).with(Fact.BYTES, bytes).with(Fact.HOURS, hours).with(Fact.MOST, mostBytes)
            .with(Fact.ODD_CAPACITY_BYTES, Capacities.odd(capacityBytes)));
        return true;
    }

    private void noteMove(Reading reading) {
        if (last == null) {
            return;
        }
        String from = DriveId.fold(last.machine().id());
        String to = DriveId.fold(reading.machine().id());
        if (!from.equals(to)) {
            problems.add(of(Finding.MOVED, reading).with(Fact.MACHINE, to).with(Fact.UNTIL, last.collectedAt()).with(Fact.MACHINE_BEFORE, from));
        }
    }

    private Problem of(Finding finding, Reading reading) {
        return Problem.of(finding, reading.source(), id.toString());
    }
}

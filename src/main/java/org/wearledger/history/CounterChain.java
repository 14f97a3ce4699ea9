package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HealthField;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * Follows one drive's counters through its readings in time order. A counter that a reading does not report keeps its
 * last reported value, so a gap neither breaks the chain nor hides a fall.
 */
final class CounterChain {
    private static final String UNITS = "data units written";

    private final DriveId id;
    private final List<Problem> problems;
    private final List<HistoryPoint> points = new ArrayList<>();
    private Reading last;
    private int epoch;
    private BigInteger bytesOfEarlierEpochs = BigInteger.ZERO;
    private CounterRun run = new CounterRun();
    private Long capacityBytes;
    private final Doubts doubts;

    CounterChain(DriveId id, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
        doubts = new Doubts(id, problems);
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
            doubts.clock(reading, run.hours().value(), run.hours().at());
        }
        doubts.againstItself(run, reading, capacityBytes);
        keep(reading);
    }

    private void keep(Reading reading) {
        doubts.raise(reading, capacityBytes, epoch == 0);
        if (reading.health().percentageUsed() != null && run.withUsed() != null) {
            doubts.usedFell(run.withUsed(), reading);
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

        String words() {
            return counter + " went back from " + before + " to " + after;
        }
    }

    private boolean startsEpoch(Reading reading) {
        Health health = reading.health();
        List<Change> changes = new ArrayList<>();
        add(changes, UNITS, run.units(), health.dataUnitsWritten());
        add(changes, "power-on hours", run.hours(), health.powerOnHours());
        add(changes, "power cycles", run.cycles(), health.powerCycles());
        List<Change> falls = changes.stream().filter(Change::falls).toList();
        if (falls.isEmpty()) {
            return false;
        }
        Change fall = falls.get(0);
        boolean written = fall.counter().equals(UNITS);
        if (falls.size() == 1 && changes.size() > 1 && Overrun.bits(fall.before()) > 0 && fall.byHalf()) {
            note(ProblemKind.COUNTER_TRUNCATED, reading, fall.words() + " near the end of " + Overrun.bits(fall.before()) + " bits, while the other counters go on",
                "a counter of 128 bits", "read the raw page; counting begins anew from what stands, so the true value may be higher");
        } else if (!written || run.restart(reading) == CounterRun.Restart.PROVEN) {
            note(ProblemKind.COUNTER_WENT_BACK, reading, fall.words(), "counters that never fall over a drive's life",
                "check whether the drive was reset, re-flashed or exchanged under the same serial; writes are added up"
                    + " over both runs of the counters");
        } else if (run.restart(reading) == CounterRun.Restart.POSSIBLE) {
            note(ProblemKind.RESET_UNCONFIRMED, reading, fellFrom(fall) + ", and no power-on hours confirm a reset",
                "counters that never fall, or power-on hours that begin anew with them",
                "check whether the drive was reset; writes are added up as if it was; else correct this report");
        } else {
            doubts.fell(reading, fellFrom(fall));
            return false;
        }
        startEpoch(health.dataUnitsWritten());
        return true;
    }

    private String fellFrom(Change fall) {
        return fall.counter() + " fell from " + fall.before() + " (" + run.units().source().inWords() + ") to " + fall.after();
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
        BigInteger increaseBytes = BigInteger.valueOf(units - unitsWritten.value()).multiply(Health.BYTES_PER_DATA_UNIT);
        BigInteger mostBytes = WriteLimits.mostWithin(capacityBytes, Duration.between(unitsWritten.at(), reading.collectedAt()));
        if (increaseBytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        note(ProblemKind.IMPLAUSIBLE_INCREASE, reading,
            "data units written rose from " + unitsWritten.value() + " to " + units + ", " + WriteLimits.terabytes(increaseBytes)
                + ", since " + unitsWritten.at() + " (" + unitsWritten.source().inWords() + ")",
            "at most " + WriteLimits.terabytes(mostBytes) + ", 20 writes of the capacity a day",
            Doubts.checkUnitOfFiles(capacityBytes));
        return true;
    }

    /**
     * A total that no drive can have written in its hours under power. Generous, since laptops do not count every hour;
     * what it finds is a wrong unit, in a first reading too, where there is no increase to judge.
     */
    private boolean isImplausibleInTotal(Reading reading) {
        BigInteger bytes = reading.health().bytesWritten();
        Long hours = reading.health().powerOnHours();
        if (bytes == null) {
            return false;
        }
        BigInteger carried = WriteLimits.mostSinceFirstSpecification(reading.collectedAt());
        if (bytes.compareTo(carried) > 0) {
            note(ProblemKind.COUNTER_IMPOSSIBLE, reading, "data units written are " + reading.health().exact(HealthField.DATA_UNITS_WRITTEN),
                "at most " + carried.divide(Health.BYTES_PER_DATA_UNIT) + ", what 32 GB a second come to since 2011", Doubts.checkUnit(capacityBytes));
            return true;
        }
        BigInteger mostBytes = WriteLimits.mostUnderPower(capacityBytes, hours);
        if (mostBytes == null || bytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        note(ProblemKind.IMPLAUSIBLE_INCREASE, reading, WriteLimits.terabytes(bytes) + " written in " + hours + " power-on hours",
            "at most " + WriteLimits.terabytes(mostBytes) + ", 100 writes of the capacity a day under power",
            Doubts.checkUnitOfFiles(capacityBytes));
        return true;
    }

    private void noteMove(Reading reading) {
        if (last == null) {
            return;
        }
        String from = DriveId.fold(last.machine().id());
        String to = DriveId.fold(reading.machine().id());
        if (!from.equals(to)) {
            note(ProblemKind.DRIVE_MOVED, reading, "the drive is now in machine " + to + ", until "
                    + last.collectedAt() + " it was in machine " + from, "a drive that stays in its machine",
                "nothing to do if it was moved on purpose; its history goes with it; if the machine was renamed, which looks the same, change its name in inventory.csv");
        }
    }

    private void note(ProblemKind kind, Reading reading, String found, String expected, String remedy) {
        problems.add(new Problem(kind, reading.source(), id.toString(), found, expected, remedy));
    }
}

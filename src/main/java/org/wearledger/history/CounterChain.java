package org.wearledger.history;

import java.math.BigInteger;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;
import org.wearledger.model.SourcePlace;

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
    private Seen unitsWritten;
    private Seen powerOnHours;
    private Seen powerCycles;
    private Long capacityBytes;
    /** The latest of this epoch that reports percentage used. */
    private Reading withUsed;
    private final Doubts doubts;

    /** A counter's last reported value of this epoch. */
    private record Seen(BigInteger value, Instant at, SourcePlace source) {
    }

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
        if (powerOnHours != null && reading.health().powerOnHours() != null) {
            doubts.clock(reading, powerOnHours.value(), powerOnHours.at());
        }
        keep(reading);
    }

    private void keep(Reading reading) {
        Health health = reading.health();
        unitsWritten = seen(health.dataUnitsWritten(), reading, unitsWritten);
        powerOnHours = seen(health.powerOnHours(), reading, powerOnHours);
        powerCycles = seen(health.powerCycles(), reading, powerCycles);
        BigInteger bytes = health.bytesWritten();
        doubts.raise(reading, capacityBytes, epoch == 0);
        if (health.percentageUsed() != null) {
            if (withUsed != null) {
                doubts.usedFell(withUsed, reading);
            }
            withUsed = reading;
        }
        points.add(new HistoryPoint(reading, epoch, bytes == null ? null : bytesOfEarlierEpochs.add(bytes)));
        last = reading;
    }

    private static Seen seen(BigInteger value, Reading reading, Seen before) {
        return value == null ? before : new Seen(value, reading.collectedAt(), reading.source());
    }

    /** One counter of the three that never fall, before and after. */
    private record Change(String counter, BigInteger before, BigInteger after) {
        boolean falls() {
            return Counters.fell(before, after);
        }
    }

    private boolean startsEpoch(Reading reading) {
        Health health = reading.health();
        List<Change> changes = new ArrayList<>();
        add(changes, UNITS, unitsWritten, health.dataUnitsWritten());
        add(changes, "power-on hours", powerOnHours, health.powerOnHours());
        add(changes, "power cycles", powerCycles, health.powerCycles());
        List<Change> falls = changes.stream().filter(Change::falls).toList();
        if (falls.isEmpty()) {
            return false;
        }
        Change fall = falls.get(0);
        String found = fall.counter() + " went back from " + fall.before() + " to " + fall.after();
        if (falls.size() == 1 && changes.size() > 1 && Overrun.bits(fall.before()) > 0) {
            note(ProblemKind.COUNTER_TRUNCATED, reading, found + " near the end of " + Overrun.bits(fall.before()) + " bits, while the other counters go on",
                "a counter of 128 bits", "read the raw page; counting begins anew from what stands, so the true value may be higher");
        } else {
            note(ProblemKind.COUNTER_WENT_BACK, reading, found, "counters that never fall over a drive's life",
                "check whether the drive was reset, re-flashed or exchanged under the same serial; writes are added up"
                    + " over both runs of the counters");
            if (fall.counter().equals(UNITS) && falls.size() == 1 && changes.size() > 1 && fall.after().shiftLeft(1).compareTo(fall.before()) >= 0) {
                noteNoReset(reading, fall);
            }
        }
        startEpoch(health.dataUnitsWritten());
        return true;
    }

    /** Nothing that begins anew stands at more than half of what was there, nor alone among counters that go on. */
    private void noteNoReset(Reading reading, Change fall) {
        note(ProblemKind.FALL_DOUBTFUL, reading, fall.counter() + " fell from " + fall.before() + " (" + unitsWritten.source().inWords() + ") to " + fall.after()
                + ", by less than a half, while the other counters went on", "counters that go on, or begin anew together",
            "correct the report that is wrong, or leave it out: both are added up, which counts most of the writes twice");
    }

    private static void add(List<Change> changes, String counter, Seen before, BigInteger after) {
        if (before != null && after != null) {
            changes.add(new Change(counter, before.value(), after));
        }
    }

    private void startEpoch(BigInteger units) {
        // Where only another counter fell, this one went on counting: adding it again would count its writes twice.
        if (unitsWritten != null && Counters.fell(unitsWritten.value(), units)) {
            bytesOfEarlierEpochs =
                bytesOfEarlierEpochs.add(unitsWritten.value().multiply(Health.BYTES_PER_DATA_UNIT));
            unitsWritten = null;
        }
        epoch++;
        powerOnHours = null;
        powerCycles = null;
        withUsed = null;
    }

    /** Compares whole numbers: increase x seconds a day > 20 x capacity x elapsed seconds. */
    private boolean increasesImplausibly(Reading reading) {
        BigInteger units = reading.health().dataUnitsWritten();
        if (unitsWritten == null || units == null || capacityBytes == null || capacityBytes <= 0) {
            return false;
        }
        BigInteger increaseBytes = units.subtract(unitsWritten.value()).multiply(Health.BYTES_PER_DATA_UNIT);
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
        BigInteger hours = reading.health().powerOnHours();
        if (bytes == null) {
            return false;
        }
        BigInteger carried = WriteLimits.mostSinceFirstSpecification(reading.collectedAt());
        if (bytes.compareTo(carried) > 0) {
            note(ProblemKind.COUNTER_IMPOSSIBLE, reading, "data units written are " + reading.health().dataUnitsWritten(),
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

package org.wearledger.history;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.wearledger.model.DriveId;
import org.wearledger.model.Health;
import org.wearledger.model.HistoryPoint;
import org.wearledger.model.Problem;
import org.wearledger.model.ProblemKind;
import org.wearledger.model.Reading;

/**
 * Follows one drive's counters through its readings in time order. A counter that a reading does not report keeps its
 * last reported value, so a gap neither breaks the chain nor hides a fall.
 */
final class CounterChain {
    /** No drive for client machines sustains more than 20 writes of its whole capacity a day; a wrong unit does. */
    private static final BigInteger MOST_CAPACITY_WRITES_PER_DAY = BigInteger.valueOf(20);
    private static final BigInteger MOST_CAPACITY_WRITES_PER_POWERED_DAY = BigInteger.valueOf(100);
    private static final BigInteger HOURS_PER_DAY = BigInteger.valueOf(24);
    /** Shorter intervals count as one day: a bulk copy or a benchmark may fill a drive several times within hours. */
    private static final Duration SHORTEST_ELAPSED = Duration.ofDays(1);
    private static final BigInteger SECONDS_PER_DAY = BigInteger.valueOf(86_400);
    private static final BigDecimal SMALLEST_MEAN_WRITE_BYTES = BigDecimal.valueOf(512);
    private static final BigDecimal LARGEST_MEAN_WRITE_BYTES = BigDecimal.valueOf(8L << 20);
    private static final long POWER_ON_TOLERANCE_HOURS = 24;

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
    private boolean unitsDoubted;

    /** A counter's last reported value of this epoch. */
    private record Seen(BigInteger value, Instant at) {
    }

    CounterChain(DriveId id, List<Problem> problems) {
        this.id = id;
        this.problems = problems;
    }

    List<HistoryPoint> points() {
        return points;
    }

    void add(Reading reading) {
        capacityBytes = reading.drive().capacityBytes() != null ? reading.drive().capacityBytes() : capacityBytes;
        if (isImplausibleInTotal(reading)) {
            return;
        }
        String fall = fallOf(reading.health());
        if (fall != null) {
            startEpoch(reading, fall);
        } else if (increasesImplausibly(reading)) {
            return;
        }
        noteMove(reading);
        noteDoubtfulUnits(reading);
        keep(reading);
    }

    private void keep(Reading reading) {
        Health health = reading.health();
        unitsWritten = seen(health.dataUnitsWritten(), reading, unitsWritten);
        powerOnHours = seen(health.powerOnHours(), reading, powerOnHours);
        powerCycles = seen(health.powerCycles(), reading, powerCycles);
        BigInteger bytes = health.bytesWritten();
        points.add(new HistoryPoint(reading, epoch, bytes == null ? null : bytesOfEarlierEpochs.add(bytes)));
        last = reading;
    }

    private static Seen seen(BigInteger value, Reading reading, Seen before) {
        return value == null ? before : new Seen(value, reading.collectedAt());
    }

    private String fallOf(Health health) {
        String fall = fall("data units written", unitsWritten, health.dataUnitsWritten());
        fall = fall != null ? fall : fall("power-on hours", powerOnHours, health.powerOnHours());
        return fall != null ? fall : fall("power cycles", powerCycles, health.powerCycles());
    }

    private static String fall(String counter, Seen before, BigInteger value) {
        return before == null || value == null || value.compareTo(before.value()) >= 0 ? null
            : counter + " went back from " + before.value() + " to " + value;
    }

    private void startEpoch(Reading reading, String fall) {
        note(ProblemKind.COUNTER_WENT_BACK, reading, fall, "counters that never fall over a drive's life",
            "check whether the drive was reset, re-flashed or exchanged under the same serial; writes are added up"
                + " over both runs of the counters");
        BigInteger units = reading.health().dataUnitsWritten();
        // Where only another counter fell, this one went on counting: adding it again would count its writes twice.
        if (unitsWritten != null && units != null && units.compareTo(unitsWritten.value()) < 0) {
            bytesOfEarlierEpochs =
                bytesOfEarlierEpochs.add(unitsWritten.value().multiply(Health.BYTES_PER_DATA_UNIT));
            unitsWritten = null;
        }
        epoch++;
        powerOnHours = null;
        powerCycles = null;
    }

    /** Compares whole numbers: increase x seconds a day > 20 x capacity x elapsed seconds. */
    private boolean increasesImplausibly(Reading reading) {
        BigInteger units = reading.health().dataUnitsWritten();
        if (unitsWritten == null || units == null || capacityBytes == null || capacityBytes <= 0) {
            return false;
        }
        Duration elapsed = Duration.between(unitsWritten.at(), reading.collectedAt());
        Duration counted = elapsed.compareTo(SHORTEST_ELAPSED) < 0 ? SHORTEST_ELAPSED : elapsed;
        BigInteger increaseBytes = units.subtract(unitsWritten.value()).multiply(Health.BYTES_PER_DATA_UNIT);
        BigInteger capacity = BigInteger.valueOf(capacityBytes);
        BigInteger mostBytes = MOST_CAPACITY_WRITES_PER_DAY.multiply(capacity)
            .multiply(BigInteger.valueOf(counted.toSeconds())).divide(SECONDS_PER_DAY);
        if (increaseBytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        note(ProblemKind.IMPLAUSIBLE_INCREASE, reading,
            "data units written rose from " + unitsWritten.value() + " to " + units + ", " + terabytes(increaseBytes)
                + ", since " + unitsWritten.at(),
            "at most " + terabytes(mostBytes) + ", 20 writes of the capacity a day",
            "check the unit: one data unit is 512,000 bytes");
        return true;
    }

    /**
     * A total that no drive can have written in its hours under power. Generous, since laptops do not count every hour;
     * what it finds is a wrong unit, in a first reading too, where there is no increase to judge.
     */
    private boolean isImplausibleInTotal(Reading reading) {
        BigInteger bytes = reading.health().bytesWritten();
        BigInteger hours = reading.health().powerOnHours();
        if (bytes == null || hours == null || capacityBytes == null || capacityBytes <= 0) {
            return false;
        }
        BigInteger mostBytes = MOST_CAPACITY_WRITES_PER_POWERED_DAY.multiply(BigInteger.valueOf(capacityBytes))
            .multiply(hours.max(HOURS_PER_DAY)).divide(HOURS_PER_DAY);
        if (bytes.compareTo(mostBytes) <= 0) {
            return false;
        }
        note(ProblemKind.IMPLAUSIBLE_INCREASE, reading, terabytes(bytes) + " written in " + hours + " power-on hours",
            "at most " + terabytes(mostBytes) + ", 100 writes of the capacity a day under power",
            "check the unit: one data unit is 512,000 bytes");
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
                "nothing to do if it was moved on purpose; its history goes with it");
        }
    }

    /** Once per drive: what is wrong with a unit is wrong in every reading. */
    private void noteDoubtfulUnits(Reading reading) {
        if (unitsDoubted) {
            return;
        }
        noteMeanWrite(reading);
        if (!unitsDoubted) {
            notePowerOnHours(reading);
        }
    }

    private void noteMeanWrite(Reading reading) {
        BigInteger bytes = reading.health().bytesWritten();
        BigInteger commands = reading.health().hostWriteCommands();
        if (bytes == null || commands == null || commands.signum() <= 0) {
            return;
        }
        BigDecimal mean = new BigDecimal(bytes).divide(new BigDecimal(commands), 1, RoundingMode.HALF_UP);
        if (mean.compareTo(SMALLEST_MEAN_WRITE_BYTES) < 0 || mean.compareTo(LARGEST_MEAN_WRITE_BYTES) > 0) {
            unitsDoubted = true;
            note(ProblemKind.UNITS_DOUBTFUL, reading,
                "the mean write is " + mean.toPlainString() + " bytes: " + reading.health().dataUnitsWritten()
                    + " data units over " + commands + " write commands", "a mean write of 512 to 8388608 bytes",
                "check the unit: one data unit is 512,000 bytes");
        }
    }

    private void notePowerOnHours(Reading reading) {
        BigInteger hours = reading.health().powerOnHours();
        if (powerOnHours == null || hours == null) {
            return;
        }
        long elapsedHours = Duration.between(powerOnHours.at(), reading.collectedAt()).toHours();
        BigInteger increase = hours.subtract(powerOnHours.value());
        if (increase.compareTo(BigInteger.valueOf(elapsedHours + POWER_ON_TOLERANCE_HOURS)) > 0) {
            unitsDoubted = true;
            note(ProblemKind.UNITS_DOUBTFUL, reading,
                "power-on hours rose by " + increase + " within " + elapsedHours + " hours",
                "a rise of at most the elapsed hours plus " + POWER_ON_TOLERANCE_HOURS,
                "check the unit, which is hours, and the clock of machine " + reading.machine().id());
        }
    }

    private void note(ProblemKind kind, Reading reading, String found, String expected, String remedy) {
        problems.add(new Problem(kind, reading.source(), id.toString(), found, expected, remedy));
    }

    private static String terabytes(BigInteger bytes) {
        return String.format(Locale.ROOT, "%.3f TB", new BigDecimal(bytes).movePointLeft(12));
    }
}

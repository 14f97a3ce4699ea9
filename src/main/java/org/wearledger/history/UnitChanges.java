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
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/**
 * One drive's readings of which some give data written in another unit. Such a step is separated from real growth or a reset by its
 * size, near the ratio of two units, and by the other counters; then the unit that most readings agree on stands.
 */
final class UnitChanges {
    /** Where no capacity is reported, that of the largest drives for client machines. */
    private static final long LARGEST_CAPACITY_BYTES = 8_000_000_000_000L;

    private UnitChanges() {
    }

    /** @param sorted readings in time order */
    static List<Reading> setAside(DriveId id, List<Reading> sorted, List<Problem> problems) {
        List<Reading> counted = new ArrayList<>();
        List<Long> units = new ArrayList<>();
        boolean changes = false;
        double scale = 1;
        int sinceReset = 0;
        for (Reading reading : sorted) {
            if (reading.health().dataUnitsWritten() == null) {
                continue;
            }
            if (!counted.isEmpty() && wasReset(counted.get(counted.size() - 1).health(), reading.health())) {
                sinceReset = counted.size();
            }
            double step = step(counted.subList(sinceReset, counted.size()), reading, sinceReset > 0);
            changes |= step != 1;
            scale *= step;
            counted.add(reading);
            // Factors lie far apart, so that a tenth of an octave tells them and forgives rounding.
            units.add(changes ? Math.round(10 * Math.log(scale) / Math.log(2)) : 0);
        }
        return changes ? withoutMinority(id, sorted, counted, units, problems) : sorted;
    }

    /** By what factor the unit changed; 1 when it did not. */
    private static double step(List<Reading> counted, Reading after, boolean reset) {
        if (counted.isEmpty()) {
            return 1;
        }
        Reading before = counted.get(counted.size() - 1);
        long earlier = before.health().dataUnitsWritten();
        long later = after.health().dataUnitsWritten();
        // Nearly every step ends here.
        if (Math.abs(Long.numberOfLeadingZeros(earlier) - Long.numberOfLeadingZeros(later)) < 8) {
            return 1;
        }
        boolean credible = later > earlier ? !isImpossibleRise(before, after, reset) && !hasPlaceAmong(counted, later)
            : Overrun.bits(earlier) > 0 || wasReset(before.health(), after.health());
        if (credible) {
            return 1;
        }
        WrongUnit laterUnit = WrongUnit.ofLater(earlier, later);
        if (laterUnit != null) {
            return laterUnit.factor();
        }
        WrongUnit earlierUnit = WrongUnit.ofEarlier(earlier, later);
        return earlierUnit != null ? 1 / earlierUnit.factor() : 1;
    }

    /** By time and capacity, by the write commands, or by what else one of the two readings says. */
    private static boolean isImpossibleRise(Reading before, Reading after, boolean reset) {
        Health a = before.health();
        Health b = after.health();
        long rise = b.dataUnitsWritten() - a.dataUnitsWritten();
        Long capacity = after.drive().capacityBytes();
        BigInteger most = WriteLimits.mostWithin(capacity == null || capacity <= 0 ? LARGEST_CAPACITY_BYTES : capacity,
            Duration.between(before.collectedAt(), after.collectedAt()));
        if (BigInteger.valueOf(rise).multiply(Health.BYTES_PER_DATA_UNIT).compareTo(most) > 0) {
            return true;
        }
        if (Counters.wentOn(a.hostWriteCommands(), b.hostWriteCommands()) && b.hostWriteCommands() > 0) {
            long commands = Math.max(1, b.hostWriteCommands() - a.hostWriteCommands());
            if (MeanCommand.isAboveLargest(rise, commands)) {
                return true;
            }
        }
        return !reset && (WriteLimits.speakAgainst(before) || WriteLimits.speakAgainst(after));
    }

    private static boolean wasReset(Health a, Health b) {
        return Counters.fell(a.powerOnHours(), b.powerOnHours()) || Counters.fell(a.powerCycles(), b.powerCycles())
            || Counters.fell(a.hostWriteCommands(), b.hostWriteCommands())
            || a.percentageUsed() != null && b.percentageUsed() != null && b.percentageUsed() < a.percentageUsed() && !goesOn(a, b);
    }

    private static boolean goesOn(Health a, Health b) {
        return Counters.wentOn(a.powerOnHours(), b.powerOnHours()) || Counters.wentOn(a.powerCycles(), b.powerCycles())
            || Counters.wentOn(a.hostWriteCommands(), b.hostWriteCommands());
    }

    /** Whether the figure is what an earlier one may have grown to. */
    private static boolean hasPlaceAmong(List<Reading> earlier, long later) {
        return earlier.stream().map(reading -> reading.health().dataUnitsWritten())
            .anyMatch(units -> units <= later && later <= WrongUnit.MOST_GROWTH * units);
    }

    private static List<Reading> withoutMinority(DriveId id, List<Reading> sorted, List<Reading> counted, List<Long> units, List<Problem> problems) {
        List<Long> trusted = new ArrayList<>();
        for (int i = 0; i < counted.size(); i++) {
            if (!WriteLimits.speakAgainst(counted.get(i))) {
                trusted.add(units.get(i));
            }
        }
        Long agreed = MostAgree.of(trusted.isEmpty() ? units : trusted);
        List<Reading> kept = new ArrayList<>(sorted);
        for (int i = 0; i < counted.size(); i++) {
            if (!units.get(i).equals(agreed)) {
                kept.remove(counted.get(i));
                problems.add(problem(id, counted.get(i), nearest(counted, units, i, agreed)));
            }
        }
        return kept;
    }

    /** The nearest reading in the agreed unit, of earlier ones first. */
    private static Reading nearest(List<Reading> counted, List<Long> units, int from, Long agreed) {
        for (int i = from - 1; i >= 0; i--) {
            if (units.get(i).equals(agreed)) {
                return counted.get(i);
            }
        }
        return counted.get(units.indexOf(agreed));
    }

    private static Problem problem(DriveId id, Reading wrong, Reading right) {
        long figure = wrong.health().dataUnitsWritten();
        long agreed = right.health().dataUnitsWritten();
        boolean later = right.collectedAt().isBefore(wrong.collectedAt());
        WrongUnit unit = later ? WrongUnit.ofLater(agreed, figure) : WrongUnit.ofEarlier(figure, agreed);
        WrongUnit unitOfOthers = later ? WrongUnit.ofEarlier(agreed, figure) : WrongUnit.ofLater(figure, agreed);
        return Problem.of(Finding.OTHER_UNIT, wrong.source(), id.toString()).with(Fact.VALUE, wrong.health().exact(HealthField.DATA_UNITS_WRITTEN)).with(Fact.BEFORE, agreed).with(Fact.AT, right.collectedAt())
            .with(Fact.PLACE, right.source().inWords()).with(Fact.UNIT, unit).with(Fact.OTHER_UNIT, unitOfOthers);
    }
}

package org.wearledger.history;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Health;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/**
 * Readings that a wrong clock put in a wrong place: hours and another counter fall against the reading before, and the next one
 * goes on from that as if nothing had happened. Unlike after a reset, more hours pass under power up to the next reading than on
 * the clock, or every counter has its place among earlier readings.
 */
final class OutOfOrder {
    private static final long TOLERANCE_HOURS = 24;
    /** A drive that was reset has few hours, and may by chance lie between early readings of its first days. */
    private static final long FEWEST_HOURS_OF_A_PLACE = 100;

    private OutOfOrder() {
    }

    /** @param sorted readings in time order */
    static List<Reading> setAside(DriveId id, List<Reading> sorted, List<Problem> problems) {
        List<Reading> kept = new ArrayList<>();
        for (int i = 0; i < sorted.size(); i++) {
            Reading reading = sorted.get(i);
            Reading before = kept.isEmpty() ? null : kept.get(kept.size() - 1);
            Reading after = i + 1 < sorted.size() ? sorted.get(i + 1) : null;
            if (before != null && after != null && isBehind(before.health(), reading.health()) && goesOn(before.health(), after.health())
                && (outrunsClock(reading, after) || hasPlaceAmong(kept, reading.health()))) {
                problems.add(Problem.of(Finding.OUT_OF_ORDER, reading.source(), id.toString()).with(Fact.SINCE, before.collectedAt()).with(Fact.AFTER, reading.health().powerOnHours())
                    .with(Fact.BEFORE, before.health().powerOnHours()).with(Fact.UNTIL, after.collectedAt()).with(Fact.MACHINE, reading.machine().id()));
            } else {
                kept.add(reading);
            }
        }
        return kept;
    }

    private static boolean isBehind(Health before, Health health) {
        return Counters.fell(before.powerOnHours(), health.powerOnHours())
            && (Counters.fell(before.dataUnitsWritten(), health.dataUnitsWritten()) || Counters.fell(before.powerCycles(), health.powerCycles()));
    }

    private static boolean outrunsClock(Reading reading, Reading after) {
        Long next = after.health().powerOnHours();
        long elapsedHours = Duration.between(reading.collectedAt(), after.collectedAt()).toHours();
        return next != null && next - reading.health().powerOnHours() > elapsedHours + TOLERANCE_HOURS;
    }

    private static boolean hasPlaceAmong(List<Reading> earlier, Health health) {
        return health.powerOnHours() >= FEWEST_HOURS_OF_A_PLACE
            && earlier.stream().anyMatch(one -> one.health().powerOnHours() != null && one.health().powerOnHours() >= FEWEST_HOURS_OF_A_PLACE && goesOn(one.health(), health));
    }

    private static boolean goesOn(Health before, Health after) {
        return !Counters.fell(before.powerOnHours(), after.powerOnHours()) && !Counters.fell(before.dataUnitsWritten(), after.dataUnitsWritten())
            && !Counters.fell(before.powerCycles(), after.powerCycles());
    }
}

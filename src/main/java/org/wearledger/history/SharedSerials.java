package org.wearledger.history;

import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** Tells one drive that was moved from two drives that carry the same serial number. */
final class SharedSerials {
    private SharedSerials() {
    }

    /**
     * What shows that the drives under the id share the serial, {@code null} when nothing does: two machines on one UTC day, or
     * a machine left earlier comes back while a counter falls at a change of machine.
     *
     * @param sorted readings in time order
     */
    static Problem evidence(DriveId id, List<Reading> sorted) {
        Set<String> left = new HashSet<>();
        String returnedTo = null;
        Problem fell = null;
        for (int i = 1; i < sorted.size(); i++) {
            Reading before = sorted.get(i - 1);
            Reading after = sorted.get(i);
            String from = machine(before);
            String to = machine(after);
            if (from.equals(to)) {
                continue;
            }
            // Neighbours suffice: if one day holds two machines, two neighbours of that day differ.
            if (before.collectedOn().equals(after.collectedOn())) {
                return problem(Finding.SHARED_ON_ONE_DAY, id, before, after).with(Fact.AT, after.collectedOn());
            }
            left.add(from);
            returnedTo = returnedTo == null && left.contains(to) ? to : returnedTo;
            fell = fell == null ? fall(id, before, after) : fell;
        }
        return returnedTo == null || fell == null ? null : fell.with(Fact.NAMES, returnedTo);
    }

    private static Problem fall(DriveId id, Reading before, Reading after) {
        Problem problem = problem(Finding.SHARED_BY_RETURN, id, before, after);
        Problem ofUnits = fall(problem, CounterChain.UNITS, before.health().dataUnitsWritten(), after.health().dataUnitsWritten());
        return ofUnits != null ? ofUnits : fall(problem, CounterChain.HOURS, before.health().powerOnHours(), after.health().powerOnHours());
    }

    private static Problem fall(Problem problem, String counter, Long before, Long after) {
        return Counters.fell(before, after) ? problem.with(Fact.COUNTER, counter).with(Fact.BEFORE, before).with(Fact.AFTER, after) : null;
    }

    private static Problem problem(Finding finding, DriveId id, Reading before, Reading after) {
        return Problem.of(finding, after.source(), id.toString()).with(Fact.MACHINE_BEFORE, machine(before)).with(Fact.MACHINE, machine(after));
    }

    private static String machine(Reading reading) {
        return DriveId.fold(reading.machine().id());
    }
}

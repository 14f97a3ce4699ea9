package org.wearledger.history;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.wearledger.model.DriveId;
import org.wearledger.model.Reading;

/** Tells one drive that was moved from two drives that carry the same serial number. */
final class SharedSerials {
    private SharedSerials() {
    }

    /**
     * What shows that several drives share the serial, {@code null} when nothing does: two machines on one UTC day, or
     * a machine left earlier comes back while a counter falls at a change of machine.
     *
     * @param sorted readings in time order
     */
    static String evidence(List<Reading> sorted) {
        Set<String> left = new HashSet<>();
        String returnedTo = null;
        String fell = null;
        for (int i = 1; i < sorted.size(); i++) {
            Reading before = sorted.get(i - 1);
            Reading after = sorted.get(i);
            String from = machine(before);
            String to = machine(after);
            if (from.equals(to)) {
                continue;
            }
            // Neighbours suffice: if one day holds two machines, two neighbours of that day differ.
            if (day(before).equals(day(after))) {
                return "machines " + from + " and " + to + " both report this serial on " + day(after);
            }
            left.add(from);
            returnedTo = returnedTo == null && left.contains(to) ? to : returnedTo;
            fell = fell == null ? fall(before, after) : fell;
        }
        return returnedTo == null || fell == null ? null
            : "the serial comes back to machine " + returnedTo + ", and " + fell;
    }

    private static String fall(Reading before, Reading after) {
        String fell = fall("data units written fall", before.health().dataUnitsWritten(),
            after.health().dataUnitsWritten());
        fell = fell != null ? fell
            : fall("power-on hours fall", before.health().powerOnHours(), after.health().powerOnHours());
        return fell == null ? null : fell + " between machines " + machine(before) + " and " + machine(after);
    }

    private static String fall(String words, Long before, Long after) {
        return !Counters.fell(before, after) ? null
            : words + " from " + before + " to " + after;
    }

    private static String machine(Reading reading) {
        return DriveId.fold(reading.machine().id());
    }

    private static LocalDate day(Reading reading) {
        return LocalDate.ofInstant(reading.collectedAt(), ZoneOffset.UTC);
    }
}

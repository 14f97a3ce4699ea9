package org.wearledger.history;

import java.util.List;
import org.wearledger.model.Drive;
import org.wearledger.model.DriveId;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;
import org.wearledger.model.Reading;

/** A drive's capacity never changes, and lies near one of the sizes that are sold. The rating follows it, so a slip moves the standing. */
final class Capacities {
    /** Beyond these a capacity is more likely given in a wrong unit than that of a client's drive. */
    private static final long LEAST_CREDIBLE_BYTES = 8_000_000_000L;
    private static final long MOST_CREDIBLE_BYTES = 100_000_000_000_000L;
    private static final double SAME = 0.01;
    private static final double EXACT = 0.003;
    private static final double BYTES_PER_GIGABYTE = 1e9;
    private static final double GIBIBYTE_FOR_GIGABYTE = 1.073741824;
    private static final double TEBIBYTE_FOR_TERABYTE = 1.099511627776;

    private Capacities() {
    }

    static boolean isCredible(long capacityBytes) {
        return capacityBytes >= LEAST_CREDIBLE_BYTES && capacityBytes <= MOST_CREDIBLE_BYTES;
    }

    /** Adds one problem at most. */
    static void judge(DriveId id, List<Reading> sorted, List<Problem> problems) {
        Reading first = null;
        for (Reading reading : sorted) {
            Long bytes = reading.drive().capacityBytes();
            if (bytes == null || bytes <= 0) {
                continue;
            }
            if (first != null && !isNear(bytes, first.drive().capacityBytes(), SAME)) {
                problems.add(Problem.of(Finding.CAPACITY_CHANGED, reading.source(), id.toString()).with(Fact.BEFORE, first.drive().capacityBytes()).with(Fact.AFTER, bytes)
                    .with(Fact.PLACE, first.source().inWords()));
                return;
            }
            first = first == null ? reading : first;
        }
        if (first == null) {
            return;
        }
        NearUnits unit = unitSlip(first.drive().capacityBytes());
        if (unit != null || !isCredible(first.drive().capacityBytes())) {
            problems.add(Problem.of(Finding.CAPACITY_UNSOLD, first.source(), id.toString()).with(Fact.CAPACITY_BYTES, first.drive().capacityBytes())
                .with(Fact.UNIT, unit == null ? null : unit.smaller()).with(Fact.OTHER_UNIT, unit == null ? null : unit.larger()));
        }
    }

    /** The unit that a decimal one was read as, by the size; {@code null} where none explains it. */
    private static NearUnits unitSlip(long bytes) {
        double gigabytes = bytes / BYTES_PER_GIGABYTE;
        if (!isCredible(bytes) || Drive.isSold(gigabytes, SAME)) {
            return null;
        }
        if (Drive.isSold(gigabytes / GIBIBYTE_FOR_GIGABYTE, EXACT)) {
            return NearUnits.GIBIBYTE;
        }
        return Drive.isSold(gigabytes / TEBIBYTE_FOR_TERABYTE, EXACT) ? NearUnits.TEBIBYTE : null;
    }

    private static boolean isNear(double one, double other, double share) {
        return Math.abs(one - other) <= share * other;
    }

    /** The capacity where no client machine has such a drive, for the problem that it may be the cause of; else {@code null}. */
    static Long odd(Long capacityBytes) {
        return capacityBytes != null && capacityBytes > 0 && !isCredible(capacityBytes) ? capacityBytes : null;
    }
}

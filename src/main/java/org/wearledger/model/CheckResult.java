package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What reading and joining found: files = read + read in part + refused, records = readings + refused, readings = kept + set aside + in packs;
 * rows of side tables = read + refused.
 *
 * @param readingsInPacks readings normalised earlier, which a check counts and does not join
 * @param rows of side tables
 * @param passedOver files that are no reports, by name
 * @param mappings which serves which reports
 * @param glance of the drives that were joined; not of those in packs
 */
public record CheckResult(long files, long filesReadInPart, long filesRefused, long records, long recordsRefused, long readings, long readingsKept, long readingsSetAside,
                          long readingsInPacks, long rows, long rowsRead, long rowsRefused, List<String> passedOver, List<MappingUse> mappings, FleetGlance glance,
                          List<Problem> problems) implements Serializable {
    /**
     * Sorts the problems.
     *
     * @throws IllegalArgumentException when the sum of records, of readings or of rows does not hold
     */
    public CheckResult {
        problems = problems.stream().sorted().toList();
        passedOver = List.copyOf(passedOver);
        mappings = List.copyOf(mappings);
        if (records != readings + recordsRefused) {
            throw new IllegalArgumentException("sums do not hold: records " + records + " = " + readings + " + " + recordsRefused);
        }
        if (readings != readingsKept + readingsSetAside + readingsInPacks) {
            throw new IllegalArgumentException("sums do not hold: readings " + readings + " = " + readingsKept + " + " + readingsSetAside + " + " + readingsInPacks);
        }
        if (rows != rowsRead + rowsRefused) {
            throw new IllegalArgumentException("sums do not hold: side table rows " + rows + " = " + rowsRead + " + " + rowsRefused);
        }
    }
}

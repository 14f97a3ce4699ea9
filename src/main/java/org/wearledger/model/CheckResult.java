package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/** What reading alone found: files = read + refused, records = readings + refused; side tables apart. */
public record CheckResult(long files, long filesRefused, long records, long recordsRefused, long readings, List<Problem> problems)
    implements Serializable {
    /**
     * Sorts the problems.
     *
     * @throws IllegalArgumentException when the sum of records does not hold
     */
    public CheckResult {
        problems = problems.stream().sorted().toList();
        if (records != readings + recordsRefused) {
            throw new IllegalArgumentException("sums do not hold: records " + records + " = " + readings + " + " + recordsRefused);
        }
    }
}

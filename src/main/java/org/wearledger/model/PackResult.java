package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What was packed: records = readings + refused.
 *
 * @param files found, of which {@code filesRead} gave a reading
 * @param problems of reading, by place; those of histories show in a sweep
 * @param tables side tables that went with it, by file name
 */
public record PackResult(long files, long filesRead, long records, long readings, List<Problem> problems, List<String> tables)
    implements Serializable {
    public PackResult {
        problems = problems.stream().sorted().toList();
        long refused = problems.stream().filter(problem -> problem.kind().effect() == Effect.RECORD_REFUSED).count();
        if (records != readings + refused) {
            throw new IllegalArgumentException("sums do not hold: records " + records + " = " + readings + " + " + refused);
        }
    }

    /** How many problems have this effect, such as the files refused. */
    public long count(Effect effect) {
        return problems.stream().filter(problem -> problem.kind().effect() == effect).count();
    }
}

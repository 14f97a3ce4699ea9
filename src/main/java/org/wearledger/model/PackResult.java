package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What was packed: records = readings + refused.
 *
 * @param files found, of which {@code filesRead} gave a reading and were read to their end
 * @param problems of reading, by place; those of histories show in a sweep
 * @param tables side tables that went with it, by file name
 */
public record PackResult(long files, long filesRead, long records, long readings, List<Problem> problems, List<String> tables)
    implements Serializable {
    public PackResult {
        problems = problems.stream().sorted().toList();
        long refused = Problem.count(problems, Effect.RECORD_REFUSED);
        if (records != readings + refused) {
            throw new IllegalArgumentException("sums do not hold: records " + records + " = " + readings + " + " + refused);
        }
    }

    /** How many problems have this effect, such as the files refused. */
    public long count(Effect effect) {
        return Problem.count(problems, effect);
    }
}

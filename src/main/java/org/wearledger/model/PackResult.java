package org.wearledger.model;

import java.io.Serializable;
import java.util.List;

/**
 * What was packed: records = readings + refused.
 *
 * @param files found, of which {@code filesRead} gave a reading
 * @param problems of reading, by place; those of histories show in a sweep
 */
public record PackResult(long files, long filesRead, long records, long readings, List<Problem> problems) implements Serializable {
    public PackResult {
        problems = problems.stream().sorted().toList();
    }

    /** How many problems have this effect, such as the files refused. */
    public long count(Effect effect) {
        return problems.stream().filter(problem -> problem.kind().effect() == effect).count();
    }
}

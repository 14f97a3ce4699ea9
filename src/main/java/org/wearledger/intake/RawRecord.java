package org.wearledger.intake;

import java.util.List;
import java.util.Map;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * One record of a file, or the problem that stood in its place. It holds until the next record of the file is asked for.
 *
 * @param values empty beside a problem
 * @param problem {@code null} for a record that could be read
 * @param notes of what was read and is to be known
 */
record RawRecord(SourcePlace source, RawFields values, Problem problem, List<Problem> notes) {
    static RawRecord of(SourcePlace source, RawFields values) {
        return new RawRecord(source, values, null, List.of());
    }

    static RawRecord of(SourcePlace source, Map<String, String> values) {
        return of(source, RawFields.of(values));
    }

    static RawRecord broken(Problem problem) {
        return new RawRecord(problem.source(), new RawFields(), problem, List.of());
    }

    /** Dotted names to text. */
    Map<String, String> fields() {
        return values.byName();
    }
}

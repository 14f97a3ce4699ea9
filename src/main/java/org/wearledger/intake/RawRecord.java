package org.wearledger.intake;

import java.util.List;
import java.util.Map;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/**
 * One record of a file as dotted names to text, or the problem that stood in its place.
 *
 * @param problem {@code null} for a record that could be read
 * @param notes of what was read and is to be told
 */
record RawRecord(SourcePlace source, Map<String, String> fields, Problem problem, List<Problem> notes) {
    static RawRecord of(SourcePlace source, Map<String, String> fields) {
        return new RawRecord(source, fields, null, List.of());
    }

    static RawRecord broken(Problem problem) {
        return new RawRecord(problem.source(), Map.of(), problem, List.of());
    }
}

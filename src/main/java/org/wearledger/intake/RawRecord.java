package org.wearledger.intake;

import java.util.Map;
import org.wearledger.model.Problem;
import org.wearledger.model.SourcePlace;

/** One record of a file as dotted names to text, or the problem that stood in its place. */
record RawRecord(SourcePlace source, Map<String, String> fields, Problem problem) {
    static RawRecord of(SourcePlace source, Map<String, String> fields) {
        return new RawRecord(source, fields, null);
    }

    static RawRecord broken(Problem problem) {
        return new RawRecord(problem.source(), Map.of(), problem);
    }
}

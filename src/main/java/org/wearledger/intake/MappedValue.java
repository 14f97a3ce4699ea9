package org.wearledger.intake;

import java.util.Map;
import org.wearledger.model.Fact;
import org.wearledger.model.Finding;
import org.wearledger.model.Problem;

/**
 * What a cell or JSON value gave under a mapping.
 *
 * @param text as the report form writes it; {@code null} for what cannot be, which refuses the record if a verdict rests on the field
 * @param doubt {@code null} when there is nothing to tell
 * @param facts beside a doubt
 */
record MappedValue(String text, Finding doubt, Map<Fact, Object> facts) {
    static MappedValue of(String text) {
        return new MappedValue(text, null, Map.of());
    }

    /** With the doubt's facts. */
    Problem told(Problem problem) {
        Problem told = problem;
        for (Map.Entry<Fact, Object> fact : facts.entrySet()) {
            told = told.with(fact.getKey(), fact.getValue());
        }
        return told;
    }
}
